/** The cost plan: what each way of changing the chain costs, with the rider's own prices. */
import { html, nothing } from 'lit';
import { now, set } from '../app/store.js';
import { lifeRequest } from '../data/chain-change.js';
import { costRequest, readPrices } from '../data/cost-request.js';
import { forget, keep, recall } from '../data/local.js';
import { kmPerUnit } from '../parts/distances.js';
import { amount, money } from '../parts/money.js';
import { textField } from '../parts/text-field.js';
import { faultText, said } from '../words/engine.js';
import { percent } from '../words/numbers.js';
import { named, t } from '../words/t.js';
import { askFor, put, refusal, standIn, takeUp } from './bike-work.js';
import { sentences } from './fit-parts.js';

/**
 * @typedef {import('../app/store.js').State} State
 * @typedef {import('../data/garage.js').BikeDetail} BikeDetail
 * @typedef {import('../data/cost-request.js').Prices} Prices
 * @typedef {{policy: 'limit'|'never'|'rotation', change_at_percent: number, chains: number,
 *   cost_per_1000_km: number, low: number, high: number}} Policy
 */

const FIELDS = /** @type {const} */ (['chain', 'sprockets', 'chainring']);

/** @param {string} bike_id */
export function openCost(bike_id) {
  const kept = now().garage?.prices?.fields;
  const { currency = 'EUR' } = kept ?? {};
  const known = Object.fromEntries(FIELDS.map((name) => [name, kept?.[name] ? amount(kept[name], currency) : '']));
  set({ prices: recall('prices', /** @type {Prices} */ ({ currency, ...known })) });
  takeUp(bike_id, () => workOut());
}

/** @param {Partial<Prices>} part */
function typed(part) {
  const prices = { ...now().prices, ...part };
  set({ prices, trouble: keep('prices', prices) });
  workOut();
}

/** Asks anew as soon as all prices are there; without them there is nothing to ask. */
function workOut() {
  const { prices, work } = now();
  const { put: read, missing, unreadable } = readPrices(prices);
  if (!work?.detail || missing.length || unreadable.length) return;
  const { bike, meaning, forecasts } = work.detail;
  const fitted = meaning.chains.find((one) => one.chain_id === meaning.fitted_chain_id) ?? null;
  const forecast = fitted?.forecast_request ?? lifeRequest(bike.fields, null, false, meaning.chains[0]);
  askFor('cost', 'cost', costRequest(read, forecast, forecasts[fitted?.chain_id ?? '']?.limit_percent));
}

/** Prices are the garage's, for every bike of it. */
async function keepPrices() {
  const { garage, prices } = now();
  const row = garage?.prices;
  const { put: read, unreadable } = readPrices(prices);
  if (unreadable.length) return;
  const done = await put([{ table: 'prices', ...(row ? { record_id: row.record_id } : {}), put: read }]);
  if (!done) return;
  forget('prices');
  set({ flash: 'kept', keptId: '' });
}

/** @param {State} state */
export function cost(state) {
  const { work } = state;
  if (!work?.detail) return standIn(state, 'cost.title');
  const { fields, record_id } = work.detail.bike;
  const { cost: asked } = work.answers;
  return {
    body: html`<div class="sheets">
      <h1>${t('cost.for', { name: fields.name })}</h1>
      ${form(state)}
      ${asked?.answer ? answer(state, work.detail, asked.answer) : standing(asked)}
    </div>`,
    bench: html`${refusal(state)}<div class="flash" role="status">${state.flash === 'kept' ? t('cost.kept') : ''}</div>
      <div class="main-row"><a class="button" href="#/bike/${record_id}">${t('shop.back')}</a>
      <button class="button main" type="button" @click=${keepPrices}>${t('cost.keep')}</button></div>`,
  };
}

/** @param {import('./bike-work.js').Asked|undefined} asked */
function standing(asked) {
  if (asked?.status === 'fault') return html`<p class="fault">${asked.fault ? faultText(asked.fault) : ''}</p>`;
  return html`<p role="status">${t(asked ? (asked.status === 'crash' ? 'fit.tag.crash' : 'work.waiting') : 'cost.needs')}</p>`;
}

/** @param {State} state */
function form({ prices }) {
  const { unreadable } = readPrices(prices);
  return html`<section class="sheet prices"><h2>${t('cost.prices')}</h2>
    ${
      /** @type {const} */ (['currency', ...FIELDS]).map((name) =>
        textField({
          id: `price-${name}`,
          title: named('cost.price', name),
          text: prices[name],
          mode: name === 'currency' ? 'text' : 'decimal',
          most: 12,
          fault: unreadable.includes(name) ? t(name === 'currency' ? 'cost.bad.currency' : 'cost.bad') : undefined,
          type: (text) => typed({ [name]: text }),
        }),
      )
    }</section>`;
}

/** @param {State} state @param {BikeDetail} detail @param {any} found */
function answer({ settings: { units } }, detail, found) {
  const per = kmPerUnit(units);
  const sum = (/** @type {number} */ minor) => money(minor * per, found.currency);
  const [lo, hi] = found.flat_range_percent;
  const limit = detail.forecasts[detail.meaning.fitted_chain_id ?? '']?.limit_percent;
  return html`
    <section class="sheet"><h2>${t('cost.flat.title')}</h2>
      ${limit === undefined ? nothing : html`<p class="big number">${t('cost.limit', { limit })}</p>`}
      <p class="number">${t('cost.flat', { lo: percent(lo), hi: percent(hi), percent: percent(found.cheapest_limit_percent) })}</p>
      ${limit !== undefined && found.cheapest_limit_percent > limit ? html`<p>${t('cost.limit.stays')}</p>` : nothing}
    </section>
    ${sentences('cautions.title', said(found, 'cautions'), true)}
    <section class="sheet"><h2>${t('cost.ways')}</h2>${ways(found, sum, units, limit)}</section>
    <details class="fold"><summary>${t('cost.assumed')}</summary>
      <ul>${said(found, 'assumptions').map((text) => html`<li>${text}</li>`)}</ul></details>`;
}

/**
 * @param {any} found
 * @param {(minor: number) => string} sum
 * @param {State['settings']['units']} units
 * @param {number|undefined} limit
 */
function ways({ policies, best }, sum, units, limit) {
  return html`<p class="soft small">${t(units === 'imperial' ? 'cost.per.mi' : 'cost.per.km')}</p><ul class="ways">${policies.map(
    (/** @type {Policy} */ one) => html`<li>
      <span class="way">${way(one)}${one.policy === 'limit' && one.change_at_percent === limit ? html` <b>${t('cost.own')}</b>` : nothing}
        ${limit !== undefined && one.change_at_percent > limit + 1e-9 ? html` <b>${t('cost.past')}</b>` : nothing}
        ${one.policy === best.policy && one.change_at_percent === best.change_at_percent ? html` <b>${t('cost.least')}</b>` : nothing}</span>
      <span class="number big">${sum(one.cost_per_1000_km)}</span>
      <span class="number small soft">${t('cost.range', { low: sum(one.low), high: sum(one.high) })}</span></li>`,
  )}</ul>`;
}

/** @param {Policy} one */
function way({ policy, change_at_percent, chains }) {
  if (policy === 'limit') return t('cost.way.limit', { percent: percent(change_at_percent) });
  if (policy === 'never') return t('cost.way.never', { percent: percent(change_at_percent) });
  return t('cost.way.rotation', { n: Math.round(chains), percent: percent(change_at_percent) });
}
