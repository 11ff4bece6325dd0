/** The readings kept on this phone with no bike. */
import { html, nothing } from 'lit';
import { focusLine } from '../app/focus.js';
import { now, set } from '../app/store.js';
import { KeepError } from '../data/database.js';
import { recallKept, rewrite, writeNote } from '../data/kept.js';
import { verdictShape } from '../parts/verdict-shape.js';
import { exact, fixed, moment, percent } from '../words/numbers.js';
import { named, t } from '../words/t.js';

/**
 * @typedef {import('../app/store.js').State} State
 * @typedef {import('../data/kept.js').Kept} Kept
 */

/** Looks the readings up when the screen is opened. */
export async function openKept() {
  set({ kept: null });
  try {
    set({ kept: await recallKept(), trouble: null });
  } catch (error) {
    set({ trouble: reason(error) });
  }
}

/** @param {State} state */
export function kept({ kept: list, trouble }) {
  return {
    body: html`<div class="sheets">
      <h1>${t('kept.title')}</h1>
      ${list ? readings(list) : trouble ? retry() : html`<p role="status">${t('kept.loading')}</p>`}
    </div>`,
    bench: html`<a class="button main" href="#/check">${t('kept.back')}</a>`,
  };
}

function retry() {
  return html`<button class="button" type="button" @click=${openKept}>${t('kept.again')}</button>`;
}

/** @param {Kept[]} list */
function readings(list) {
  if (!list.length) return html`<p>${t('kept.none')}</p>`;
  return html`<ul class="kept-list">${list.map((one) => (one.removed ? gone(one) : line(one)))}</ul>`;
}

/** @param {Kept} one */
function gone(one) {
  return html`<li><div class="flash"><span role="status">${t('kept.deleted')}</span>
    <button class="button" type="button" id="undo-${one.record_id}"
      @click=${() => put({ ...one, removed: false }, `delete-${one.record_id}`)}>${t('keep.undo')}</button></div></li>`;
}

/** @param {Kept} one */
function line(one) {
  const { answer, at, note } = one.fields;
  const id = `note-${one.record_id}`;
  const write = (/** @type {any} */ event) => type({ ...one, fields: { ...one.fields, note: event.target.value } });
  return html`<li>
    <div class="kept-head">${verdictShape(answer.verdict)}
      <div><strong>${named('verdict', answer.verdict)}</strong>
        <span class="number">${t('kept.line', { percent: percent(answer.elongation_percent), limit: answer.limit_percent })}</span></div>
    </div>
    <p class="soft number"><time datetime=${at}>${moment(at)}</time><br>${what(one)}</p>
    <div class="nudge-field"><label class="label" for=${id}>${t('kept.note')}</label>
        <input class="line-input" id=${id} maxlength="200" autocomplete="off" .value=${note} @input=${write}></div>
    <div class="choices"><a class="button" href="#/keep/${one.record_id}">${t('kept.give')}</a>
      <button class="button" type="button" id="delete-${one.record_id}"
        @click=${() => put({ ...byNow(one), removed: true }, `undo-${one.record_id}`)}>${t('kept.delete')}</button>
    </div>
  </li>`;
}

/** @param {Kept} one what was measured, in words */
function what({ fields: { requests, counted } }) {
  const { reading } = requests[counted];
  if (reading.kind === 'gauge') {
    const list = reading.steps
      .map((/** @type {import('../data/draft.js').Step} */ step) =>
        t(step.drops ? 'kept.gauge.drops' : 'kept.gauge.stays', { percent: step.percent }),
      )
      .join(', ');
    return t('kept.reading.gauge', { list });
  }
  const all = requests.map((/** @type {any} */ request) => size(request.reading));
  const words = { n: reading.pitches, span: size(reading), mm: size(reading) };
  return html`${t(WORDS[/** @type {keyof typeof WORDS} */ (reading.kind)], words)}
    ${all.length > 1 ? html`<br>${t('kept.places', { list: all.join(' · ') })}` : nothing}`;
}

const WORDS = /** @type {const} */ ({
  rule: 'kept.reading.rule',
  compare: 'kept.reading.compare',
  caliper: 'kept.reading.caliper',
  screen: 'kept.reading.screen',
  photo: 'kept.reading.photo',
});

/** @param {any} reading @returns {string} the length that was read; of a photograph the percent */
export function size(reading) {
  if (reading.kind === 'photo') return fixed(reading.elongation_percent, 2);
  const mm = reading.growth_mm ?? reading.inside_mm ?? reading.span_px / reading.px_per_mm;
  return reading.span_text ?? exact(Math.round(mm * 1000) / 1000);
}

/**
 * @param {Kept} next shown once it is on the disk
 * @param {string} focus the button whose line takes the focus then
 */
async function put(next, focus) {
  if (!(await written(rewrite(next)))) return;
  show(next);
  focusLine(focus);
}

/**
 * What is typed stands on the screen already; a slower write must not bring
 * back an older text.
 * @param {Kept} next
 */
function type(next) {
  show(next);
  written(writeNote(next));
}

/** @param {Promise<unknown>} writing @returns {Promise<boolean>} whether it is on the disk */
async function written(writing) {
  try {
    await writing;
    if (now().trouble) set({ trouble: null });
    return true;
  } catch (error) {
    set({ trouble: reason(error) });
    return false;
  }
}

/** @param {Kept} drawn @returns {Kept} the same with what was typed since it was drawn */
function byNow(drawn) {
  return now().kept?.find((one) => one.record_id === drawn.record_id) ?? drawn;
}

/** @param {Kept} next */
function show(next) {
  const list = now().kept ?? [];
  set({ kept: list.map((one) => (one.record_id === next.record_id ? next : one)) });
}

/** @param {unknown} error */
function reason(error) {
  return error instanceof KeepError ? error.reason : 'lost';
}
