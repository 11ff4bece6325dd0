/** Long lists of Round: a part at first, more on wish, and no line drawn anew without a change. */
import { html, nothing } from 'lit';
import { guard } from 'lit/directives/guard.js';
import { repeat } from 'lit/directives/repeat.js';
import { now } from '../app/store.js';
import { roundOf } from '../data/round-view.js';
import { t } from '../words/t.js';
import { setRound } from './round-actions.js';

/** So many lines of a list stand there without being asked for. */
const ROWS = 68;

/** So many of them fill the window of a phone, and come with the page itself. */
const FIRST = 8;

/** So many more are drawn with each frame, so that the page answers meanwhile. */
const STEP = 20;

/** @type {Record<string, number>} the latest call for each kind */
const turns = {};

/**
 * Draws more of the page that is shown with each frame.
 * @param {'rows'|'paper'|'log'|'tagsDrawn'} what
 * @param {() => number} until so many there are
 * @param {number} [step]
 */
export function drawOn(what, until, step = STEP) {
  const { place, argument } = now();
  const mine = (turns[what] = (turns[what] ?? 0) + 1);
  const more = (/** @type {boolean} */ ready) => {
    const state = now();
    if (mine !== turns[what] || state.place !== place || state.argument !== argument) return;
    if (state.round[what] >= until()) return;
    if (ready) setRound({ [what]: state.round[what] + step });
    onceDrawn();
  };
  // What is on the screen comes before what is for paper.
  const ready = () => what !== 'paper' || now().round.rows >= ROWS;
  const onceDrawn = () => requestAnimationFrame(() => setTimeout(more, 0, ready()));
  onceDrawn();
}

/** Draws what is not there yet of the sheet, and of the log where it is open, of the round that is shown as a whole. */
export function drawRest() {
  const whole = () => {
    const { garage, argument, round } = now();
    return garage ? roundOf(garage, argument, round.detail) : undefined;
  };
  drawOn('paper', () => Math.max(1, whole()?.stands.length ?? 0));
  if (now().round.opened.includes('log')) drawOn('log', () => whole()?.checks.length ?? 0);
}

/** Begins the lists of a page anew. */
export function beginRows() {
  setRound({ rows: FIRST });
  drawOn('rows', () => ROWS);
}

/**
 * @template T
 * @param {T[]} all
 * @param {{key: (one: T) => string, parts: (one: T) => unknown[], line: (one: T) => unknown}} model what a line shows is
 *   in its `parts`: it is drawn anew when one of them is another
 */
export function rows(all, { key, parts, line }) {
  const some = all.slice(0, now().round.rows);
  const left = all.length - some.length;
  const more = () => drawOn('rows', () => all.length);
  return html`<ul class="rows">${repeat(some, key, (one) => html`<li>${guard(parts(one), () => line(one))}</li>`)}</ul>
    ${left ? html`<button class="button" type="button" @click=${more}>${t('round.more', { n: left })}</button>` : nothing}`;
}

/**
 * Something folded away, drawn once it is opened.
 * @param {'cleared'|'log'|'unread'} name
 * @param {unknown} title
 * @param {() => unknown} draw
 */
export function fold(name, title, draw) {
  const open = now().round.opened.includes(name);
  const toggle = (/** @type {any} */ { target }) => {
    const { opened } = now().round;
    if (target.open === opened.includes(name)) return;
    setRound({ opened: target.open ? [...opened, name] : opened.filter((one) => one !== name) });
    drawRest();
  };
  return html`<details class="fold" .open=${open} @toggle=${toggle}><summary>${title}</summary>${open ? draw() : nothing}</details>`;
}
