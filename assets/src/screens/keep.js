/** Where a reading belongs: a bike, a new bike, or none. */
import { html, nothing } from 'lit';
import { far, readFar } from '../parts/distances.js';
import { ranField } from '../parts/ran-field.js';
import { textField } from '../parts/text-field.js';
import { verdictShape } from '../parts/verdict-shape.js';
import { day, percent } from '../words/numbers.js';
import { named, t } from '../words/t.js';
import { refusal } from './bike-work.js';
import { distanceField } from './distance-field.js';
import { fitted, knownDistance } from './change-actions.js';
import { NEW, chooseBike, finishKeep, keepLoose, putKeeping, source, standing } from './keep-actions.js';

/**
 * @typedef {import('../app/store.js').State} State
 * @typedef {import('../data/garage.js').BikeSummary} BikeSummary
 */

/** More bikes than this are searched, not scrolled. */
const SHOWN = 8;

/** @param {State} state */
export function keepReading(state) {
  const { keeping, garage } = state;
  const from = source(state);
  const name =
    keeping?.bike_id === NEW
      ? keeping.name.trim()
      : garage?.bikes.find((one) => one.bike_id === keeping?.bike_id)?.fields.name;
  return {
    body: html`<div class="sheets">
      <h1>${t('keep.where')}</h1>
      ${from ? reading(judged(state) ?? from.answer) : html`<p role="status">${t(state.result.status === 'waiting' ? 'answer.starting' : 'keep.gone')}</p>`}
      ${bikes(state)}
      <div class="choices">
        <button class="chip" type="button" aria-pressed=${keeping?.bike_id === NEW ? 'true' : 'false'} @click=${() => chooseBike(NEW)}>${t('keep.new')}</button>
        <button class="chip" type="button" @click=${keepLoose}>${t('keep.loose')}</button>
      </div>
      ${keeping?.bike_id === NEW ? newBike(state) : nothing}
    </div>`,
    bench: html`${refusal(state)} ${howFar(state)}
      <div class="main-row"><a class="button" href=${keeping?.source ? '#/kept' : '#/check'}>${t('keep.back')}</a>
      <button class="button main" type="button" id="keep-done" aria-disabled=${from && standing(state).ready ? 'false' : 'true'}
        @click=${finishKeep}>${word(state, name)}</button></div>`,
  };
}

/** What the main button does, or what it still waits for. @param {State} state @param {string|undefined} name */
function word(state, name) {
  if (!name) return t(state.keeping?.bike_id === NEW ? 'keep.choose.name' : 'keep.choose');
  const { asksRan } = standing(state);
  return asksRan && !state.keeping?.ran.trim() ? t('keep.choose.far') : t('keep.on', { name });
}

/** The reading as it is for the bike that is chosen. @param {State} state @returns {import('../data/request.js').Answer|null} */
function judged({ work, keeping }) {
  return (work && work.bike_id === keeping?.bike_id && work.answers.judged?.answer) || null;
}

/** @param {import('../data/request.js').Answer} answer */
function reading({ verdict, elongation_percent, limit_percent }) {
  return html`<div class="kept-head">${verdictShape(verdict)}<div><strong>${named('verdict', verdict)}</strong>
    <span class="number">${t('kept.line', { percent: percent(elongation_percent), limit: limit_percent })}</span></div></div>`;
}

/** @param {State} state */
function bikes({ garage, keeping, settings }) {
  const all = garage?.bikes ?? [];
  if (!all.length) return nothing;
  const text = (keeping?.search ?? '').trim().toLowerCase();
  const found = all.filter(({ fields }) =>
    [fields.name, fields.tag, fields.set].some((one) => one?.toLowerCase().includes(text)),
  );
  const first = (/** @type {BikeSummary} */ one) => Number(one.bike_id === keeping?.first);
  const latest = (/** @type {BikeSummary} */ one) => one.last_reading?.at ?? '';
  const ordered = [...found].sort((a, b) => first(b) - first(a) || latest(b).localeCompare(latest(a)));
  const chosen = found.find((one) => one.bike_id === keeping?.bike_id);
  const shown = ordered.slice(0, SHOWN);
  const list = chosen && !shown.includes(chosen) ? [chosen, ...shown] : shown;
  return html`${all.length > SHOWN ? search(keeping?.search ?? '', found.length, all.length) : nothing}
    <ul class="pick-list" aria-label=${t('keep.bikes')}>${list.map((one) => line(one, one.bike_id === keeping?.bike_id, settings.units))}</ul>`;
}

/** @param {string} text @param {number} n @param {number} of */
function search(text, n, of) {
  return html`<div class="nudge-field"><label class="label" for="keep-search">${t('keep.search')}</label>
    <input class="line-input" id="keep-search" type="search" autocomplete="off" maxlength="80" .value=${text}
      @input=${(/** @type {any} */ event) => putKeeping({ search: event.target.value })}>
    <p class="soft small number" role="status">${t('keep.found', { n, of })}</p></div>`;
}

/** @param {BikeSummary} bike @param {boolean} on @param {State['settings']['units']} units */
function line({ bike_id, fields, chain_km, last_reading }, on, units) {
  return html`<li><button class="chip wide-chip" type="button" aria-pressed=${on ? 'true' : 'false'} @click=${() => chooseBike(bike_id)}>
    <strong>${fields.name}</strong>${
      chain_km === null
        ? nothing
        : html`<span class="number small">${t(last_reading ? 'keep.last' : 'keep.unread', { far: far(chain_km, units), day: last_reading ? day(last_reading.at) : '' })}</span>`
    }</button></li>`;
}

/** @param {State} state */
function newBike({ keeping, draft, settings }) {
  const wrong = Number.isNaN(readFar(keeping?.odometer ?? '', settings.units));
  return html`<section class="sheet">
    ${textField({
      id: 'keep-name',
      title: t('keep.name'),
      text: keeping?.name ?? '',
      hint: t(draft.drive.chosen ? 'keep.name.hint' : 'keep.name.strict'),
      type: (name) => putKeeping({ name }),
    })}
    ${textField({
      id: 'keep-odometer',
      title: t(settings.units === 'imperial' ? 'keep.odometer.mi' : 'keep.odometer'),
      text: keeping?.odometer ?? '',
      mode: 'decimal',
      most: 12,
      fault: wrong ? t('gone.fault.unreadable') : undefined,
      type: (odometer) => putKeeping({ odometer }),
    })}</section>`;
}

/** How far: by the bike's count, or what a chain nobody knew has run. @param {State} state */
function howFar(state) {
  const { keeping, work, settings } = state;
  const { asksRan, gone } = standing(state);
  if (asksRan) {
    const put = (/** @type {string} */ ran) => putKeeping({ ran });
    return ranField({ id: 'keep-ran', text: keeping?.ran ?? '', units: settings.units, put });
  }
  if (!keeping || !gone || !work?.detail || !fitted(work.detail)) return nothing;
  const known = knownDistance(work.detail, source(state)?.at);
  return distanceField({ id: 'keep-km', entered: keeping, known, gone, units: settings.units, put: putKeeping });
}
