/**
 * The forecast of a bike's chain in words, beside its wear fan: what was set
 * aside and the slip that would explain it, when the chain must go, when to
 * check next, and how sure that is.
 */
import { html, nothing } from 'lit';
import { mayAdd } from '../data/roles.js';
import { counted } from '../data/mend-reading.js';
import { about } from '../parts/distances.js';
import { share } from '../parts/fit-numbers.js';
import { said, saidOne } from '../words/engine.js';
import { t } from '../words/t.js';
import { mend } from './bike-forecast-actions.js';

/**
 * @typedef {import('../app/store.js').State} State
 * @typedef {import('../data/garage.js').BikeDetail} BikeDetail
 * @typedef {import('../parts/wear-fan/geometry.js').Forecast} Forecast
 * @typedef {import('../parts/wear-fan/geometry.js').Aside} Aside
 */

/**
 * Readings that do not go with the others, each with its slip offered back.
 * @param {BikeDetail} detail
 * @param {State} state
 */
export function asideSection(detail, { garage }) {
  const chain_id = detail.meaning.fitted_chain_id ?? '';
  /** @type {Forecast|undefined} */
  const forecast = detail.forecasts[chain_id];
  if (!forecast?.set_aside.length) return nothing;
  const ids = counted(detail, chain_id);
  const may = mayAdd(garage?.role, 'readings');
  return html`<section class="panel"><h2>${t('ahead.aside')}</h2>
    ${forecast.set_aside.map((one) => (ids[one.index] ? aside(detail, ids[one.index], one, may) : nothing))}</section>`;
}

/** @param {BikeDetail} detail @param {string} reading_id @param {Aside} one @param {boolean} may put it right */
function aside(detail, reading_id, one, may) {
  const n = one.fits_entered;
  return html`<div class="aside"><p>${saidOne(one, 'why')}</p>
    ${
      may
        ? html`<div class="choices">
      ${
        n === null
          ? nothing
          : html`<button class="button" type="button" @click=${() => mend(detail, reading_id, one)}>${t(
              one.slip === 'pitches_off' ? 'ahead.aside.pitches' : 'ahead.aside.mm',
              { n },
            )}</button>`
      }
      <button class="button" type="button" @click=${() => mend(detail, reading_id, null)}>${t('ahead.aside.out')}</button>
    </div>`
        : nothing
    }</div>`;
}

/**
 * What is to come, in words.
 * @param {BikeDetail} detail
 * @param {State} state
 * @param {string} verdict the bike stands under
 */
export function forecastSection(detail, { settings: { units } }, verdict) {
  /** @type {Forecast|undefined} */
  const forecast = detail.forecasts[detail.meaning.fitted_chain_id ?? ''];
  if (!forecast) return nothing;
  return html`<section class="sheet"><h2>${t('ahead.title')}</h2>
    <p class="number">${mustGo(forecast, units, verdict)}</p>
    <p class="number">${t('ahead.past', { share: share(forecast.probability_past_limit_now) })}</p>
    <ul>${said(forecast, 'notes').map((text) => html`<li>${text}</li>`)}</ul>
    <details class="fold"><summary>${t('cautions.title')}</summary>
      <ul>${said(forecast, 'cautions').map((text) => html`<li>${text}</li>`)}</ul></details>
  </section>`;
}

/** @param {Forecast} forecast @param {import('../parts/distances.js').Units} units @param {string} verdict */
function mustGo({ km_to_limit: { p05, p50, p95 }, probability_past_limit_now }, units, verdict) {
  if (p50 <= 0 || probability_past_limit_now >= 0.5) return t('ahead.go.now');
  if (verdict.startsWith('change')) return t('ahead.go.read');
  const [middle, low, high] = [p50, p05, p95].map((km) => about(km, units));
  return t(p05 > 0 ? 'ahead.go' : 'ahead.go.already', { middle, low, high });
}
