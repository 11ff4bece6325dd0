/**
 * A bike's wear fan and the forecast in words, for the bike's page: when the
 * chain must go, when to check next, what was set aside and the slip that
 * would explain it.
 */
import { html, nothing } from 'lit';
import { about, within } from '../parts/distances.js';
import { share } from '../parts/fit-numbers.js';
import { wearFan, wearTable } from '../parts/wear-fan/wear-fan.js';
import { said, saidOne } from '../words/engine.js';
import { percent } from '../words/numbers.js';
import { named, t } from '../words/t.js';
import { mend, undoMend } from './bike-forecast-actions.js';

/**
 * @typedef {import('../app/store.js').State} State
 * @typedef {import('../data/garage.js').BikeDetail} BikeDetail
 * @typedef {import('../parts/wear-fan/geometry.js').Forecast} Forecast
 * @typedef {import('../parts/wear-fan/geometry.js').Aside} Aside
 * @typedef {import('../parts/distances.js').Units} Units
 */

/**
 * The picture and its table.
 * @param {BikeDetail} detail
 * @param {State} state
 * @param {string} [chain_id] the fitted chain when left out
 */
export function fanSection(detail, { settings }, chain_id = detail.meaning.fitted_chain_id) {
  /** @type {Forecast|undefined} */
  const forecast = detail.forecasts[chain_id ?? ''];
  if (!chain_id) return nothing;
  return html`<section class="sheet"><h2>${t('fan.title')}</h2>
    ${
      forecast
        ? html`${wearFan(forecast, settings.units)} ${wearTable(forecast, settings.units)}`
        : html`<p role="status">${t('work.waiting')}</p>`
    }</section>`;
}

/**
 * What is to come, in words.
 * @param {BikeDetail} detail
 * @param {State} state
 * @param {string} [chain_id] the fitted chain when left out
 */
export function forecastSection(detail, state, chain_id = detail.meaning.fitted_chain_id) {
  /** @type {Forecast|undefined} */
  const forecast = detail.forecasts[chain_id ?? ''];
  if (!chain_id || !forecast) return nothing;
  const { units } = state.settings;
  return html`<section class="sheet"><h2>${t('ahead.title')}</h2>
    ${mended(state, detail)}
    ${setAside(detail, chain_id, forecast)}
    <dl class="ahead">
      <div><dt>${t('ahead.go')}</dt><dd>${mustGo(forecast, units)}</dd></div>
      <div><dt>${t('ahead.check')}</dt><dd>${nextCheck(forecast, units)}</dd></div>
      <div><dt>${t('ahead.now')}</dt><dd><p class="big number">${t('ahead.now.is', { percent: percent(forecast.elongation_now_percent.p50) })}</p>
        <p class="number">${t('ahead.now.range', {
          low: percent(forecast.elongation_now_percent.p05),
          high: percent(forecast.elongation_now_percent.p95),
          limit: forecast.limit_percent,
        })}</p>
        <p class="number">${t('ahead.past', { share: share(forecast.probability_past_limit_now) })}</p></dd></div>
    </dl>
    <ul>${said(forecast, 'notes').map((text) => html`<li>${text}</li>`)}</ul>
    <details class="fold"><summary>${t('cautions.title')}</summary>
      <ul>${said(forecast, 'cautions').map((text) => html`<li>${text}</li>`)}</ul></details>
  </section>`;
}

/** @param {Forecast} forecast @param {Units} units */
function mustGo({ km_to_limit: { p05, p50, p95 }, probability_past_limit_now }, units) {
  if (p50 <= 0 || probability_past_limit_now >= 0.5) return html`<p class="big">${t('ahead.go.now')}</p>`;
  return html`<p class="big number">${t('ahead.go.in', { far: about(p50, units) })}</p>
    <p class="number">${t(p05 > 0 ? 'ahead.go.range' : 'ahead.go.already', {
      low: about(p05, units),
      high: about(p95, units),
    })}</p>`;
}

/** @param {Forecast} forecast @param {Units} units */
function nextCheck({ check_again_in_km: km, check_again_in_days: days }, units) {
  if (km <= 0) return html`<p class="big">${t('ahead.check.now')}</p>`;
  return html`<p class="big number">${t('ahead.check.within', { far: within(km, units) })}</p>
    ${days === null ? nothing : html`<p class="number">${days < 1 ? t('ahead.check.day') : t('ahead.check.days', { n: days })}</p>`}`;
}

/** @param {BikeDetail} detail @param {string} chain_id @param {Forecast} forecast */
function setAside(detail, chain_id, forecast) {
  if (!forecast.set_aside.length) return nothing;
  const ids = counted(detail, chain_id);
  return html`<div class="panel"><h3>${t('ahead.aside')}</h3>
    ${forecast.set_aside.map((one) => (ids[one.index] ? aside(detail, ids[one.index], one) : nothing))}</div>`;
}

/** @param {BikeDetail} detail @param {string} reading_id @param {Aside} one */
function aside(detail, reading_id, one) {
  const slip = one.fits_entered !== null && one.slip !== 'none';
  const n = one.fits_entered ?? 0;
  return html`<div class="aside"><p>${saidOne(one, 'why')}</p>
    <div class="choices">
      ${
        slip
          ? html`<button class="button" type="button" @click=${() => mend(detail, reading_id, one)}>${t(
              one.slip === 'pitches_off' ? 'ahead.aside.pitches' : 'ahead.aside.mm',
              { n },
            )}</button>`
          : nothing
      }
      <button class="button" type="button" @click=${() => mend(detail, reading_id, null)}>${t('ahead.aside.out')}</button>
    </div></div>`;
}

/** What was just put right, and the way back. @param {State} state @param {BikeDetail} detail */
function mended({ mended: what }, detail) {
  if (!what || what.bike_id !== detail.bike.record_id) return nothing;
  return html`<div class="flash"><span role="status">${named('ahead.mended', what.as ? 'as' : 'out')}</span>
    <button class="button quiet" type="button" id="undo-mend" @click=${undoMend}>${t('keep.undo')}</button></div>`;
}

/**
 * The readings of a chain in the order in which the forecast was asked: those
 * that count, the latest ones.
 * @param {BikeDetail} detail
 * @param {string} chain_id
 * @returns {string[]} ids
 */
export function counted({ meaning, readings }, chain_id) {
  const chain = meaning.chains.find((one) => one.chain_id === chain_id);
  const ids = chain?.reading_ids.filter((id) => readings[id] && !readings[id].fields.void_reason) ?? [];
  return ids.slice(-MOST_READINGS);
}

/** As many readings as the forecast is asked with. */
const MOST_READINGS = 200;
