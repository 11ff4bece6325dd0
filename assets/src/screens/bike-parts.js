/** Parts that several screens of Bikes share. */
import { html, nothing } from 'lit';
import { live } from 'lit/directives/live.js';
import { about, figure, within } from '../parts/distances.js';
import { faultText } from '../words/engine.js';
import { named, t } from '../words/t.js';
import { openBikePlace, undo } from './bike-actions.js';

/**
 * @typedef {import('../app/store.js').State} State
 * @typedef {import('../data/garage.js').BikeDetail} BikeDetail
 * @typedef {import('../data/garage.js').Row} Row
 */

/** What was done last with the way back, or what went wrong. @param {State} state */
export function flash({ did, fault }) {
  if (fault)
    return html`<div class="flash" role="status"><p class="fault">${t('form.fault')}${fault.message ? html`: ${faultText(fault)}` : nothing}</p></div>`;
  return html`<div class="flash" role="status">${did ? html`<span>${did.text || t('did.undone')}</span>` : nothing}
    ${did?.undo.length ? html`<button class="button" type="button" id="undo" @click=${undo}>${t('did.undo')}</button>` : nothing}</div>`;
}

/**
 * A screen about one bike: while it is looked up, when it is not there, and as
 * `draw` shows it.
 * @param {State} state
 * @param {(detail: BikeDetail) => {body: unknown, bench: unknown}} draw
 */
export function withBike(state, draw) {
  const { bike, argument } = state;
  if (bike.detail && bike.id === argument.split('/')[0]) return draw(bike.detail);
  const back = html`<a class="button main" href="#/bikes">${t('bike.all')}</a>`;
  if (bike.status === 'failed') {
    return {
      body: html`<div class="sheets"><h1>${t('bike.title')}</h1><p role="status">${t('bikes.failed')}</p>
        <button class="button" type="button" @click=${() => openBikePlace(argument)}>${t('bikes.again')}</button></div>`,
      bench: back,
    };
  }
  const missing = bike.status === 'missing';
  return {
    body: html`<div class="sheets"><h1>${t('bike.title')}</h1>
      <p role="status">${t(missing ? 'bike.gone' : 'bikes.loading')}</p></div>`,
    bench: html`${flash(state)}${missing ? back : nothing}`,
  };
}

/**
 * A day, today unless said otherwise.
 * @param {string} id @param {string} value YYYY-MM-DD, empty for today @param {(value: string) => void} choose
 */
export function dayField(id, value, choose) {
  return html`<div><label class="label" for=${id}>${t('form.day')}</label>
    <input class="line-input" id=${id} type="date" min="1970-01-01" max=${today()} .value=${live(value || today())}
      @change=${(/** @type {any} */ event) => choose(event.target.value === today() ? '' : event.target.value)}></div>`;
}

/** @returns {string} YYYY-MM-DD where the phone is */
export function today() {
  const date = new Date();
  return new Date(date.getTime() - date.getTimezoneOffset() * 60_000).toISOString().slice(0, 10);
}

/** @param {string} day YYYY-MM-DD, empty for now @returns {string} RFC 3339; noon of another day */
export function instant(day) {
  const noon = day ? new Date(`${day}T12:00:00`) : null;
  return (noon && !Number.isNaN(noon.getTime()) ? noon : new Date()).toISOString();
}

/**
 * Chips of which any number is chosen.
 * @param {{title: string, options: {value: string, text: string}[], chosen: () => string[],
 *   choose: (chosen: string[]) => void}} model `chosen`: by now, since two quick touches come before one drawing
 */
export function chips({ title, options, chosen, choose }) {
  const flip = (/** @type {string} */ value, /** @type {boolean} */ on) =>
    choose(options.map((one) => one.value).filter((one) => (one === value ? on : chosen().includes(one))));
  return html`<fieldset class="pick"><legend class="label">${title}</legend>
    <div class="choices">${options.map(
      ({ value, text }) => html`<label class="choice"><input type="checkbox" .checked=${live(chosen().includes(value))}
        @change=${(/** @type {any} */ event) => flip(value, event.target.checked)}><span class="chip">${text}</span></label>`,
    )}</div></fieldset>`;
}

/** @param {Record<string, Row>} rows @param {string} id @param {string[]} order the bike's chains @returns {string} what a chain is called */
export function chainName(rows, id, order) {
  const name = rows[id]?.fields.name;
  if (name) return name;
  const unnamed = order.filter((one) => !rows[one]?.fields.name);
  return order.length > 1 ? t('chains.unnamed.n', { n: unnamed.indexOf(id) + 1 }) : t('chains.unnamed');
}

/** @param {number} days @returns {string} in the unit people would use */
export function span(days) {
  if (days < 1.5) return t('time.day');
  if (days < 21) return t('time.days', { n: Math.round(days) });
  if (days < 90) return t('time.weeks', { n: Math.round(days / 7) });
  return t('time.months', { n: Math.round(days / 30.4) });
}

/** @param {import('../data/garage.js').Forecast} forecast @param {import('../parts/distances.js').Units} units @returns {string} such as “within 600 km” */
export function nextCheck({ check_again_in_km: km, check_again_in_days: days }, units) {
  if (km <= 0) return t('line.check.now');
  const far = within(km, units);
  return days === null || days < 1 ? t('line.within', { far }) : t('line.within.days', { far, time: span(days) });
}

/**
 * @param {import('../data/garage.js').Forecast} forecast
 * @param {import('../parts/distances.js').Units} units
 * @param {string} verdict the bike stands under: a worn chain has no way left, whatever the forecast hopes
 * @returns {{far: string, band: string}}
 */
export function toLimit({ km_to_limit: { p05, p50, p95 } }, units, verdict) {
  if (p50 <= 0) return { far: t('line.past'), band: '' };
  if (verdict.startsWith('change')) return { far: t('line.past.read'), band: '' };
  return {
    far: about(p50, units),
    band: t('line.band', { from: figure(Number(p05.toPrecision(2)), units), to: about(p95, units) }),
  };
}

/** Nobody is told to ride on a bike that is held, however fit its chain. @param {string} verdict @param {boolean} held */
export function verdictWords(verdict, held) {
  return held && verdict === 'ride' ? t('bike.held.fit') : named('verdict', verdict);
}
