/** Long lists of a round: a part at first, more on wish, and none of it drawn anew without a change. */
import { html, nothing } from 'lit';
import { guard } from 'lit/directives/guard.js';
import { repeat } from 'lit/directives/repeat.js';
import { now } from '../app/store.js';
import { t } from '../words/t.js';
import { setRound } from './round-actions.js';

/** So many lines are drawn in one go. */
export const ROWS = 60;

/** @type {Record<string, number>} which call for each kind is the latest */
const turns = {};

/**
 * Draws more of a page with each frame, so that it answers meanwhile.
 * @param {'rows'|'paper'|'tagsDrawn'} what
 * @param {number} step
 * @param {() => number|null} until so many there are, null while that is not known
 */
export function drawOn(what, step, until) {
  const { place, argument } = now();
  const mine = (turns[what] = (turns[what] ?? 0) + 1);
  const more = () => {
    const state = now();
    const all = until();
    if (mine !== turns[what] || state.place !== place || state.argument !== argument) return;
    if (all !== null && state.round[what] >= all) return;
    if (all !== null) setRound({ [what]: state.round[what] + step });
    requestAnimationFrame(() => setTimeout(more)); // once that is drawn
  };
  more();
}

/**
 * @template T
 * @param {T[]} all
 * @param {{key: (one: T) => string, parts: (one: T) => unknown[], line: (one: T) => unknown}} model what a line shows is
 *   in its `parts`: it is drawn anew when one of them is another
 */
export function rows(all, { key, parts, line }) {
  const { round } = now();
  const some = all.slice(0, round.rows);
  const left = all.length - some.length;
  const more = () => drawOn('rows', ROWS, () => all.length);
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
    const others = now().round.opened.filter((one) => one !== name);
    if (target.open !== now().round.opened.includes(name))
      setRound({ opened: target.open ? [...others, name] : others });
  };
  return html`<details class="fold" .open=${open} @toggle=${toggle}><summary>${title}</summary>${open ? draw() : nothing}</details>`;
}
