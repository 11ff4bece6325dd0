/** Bikes: every bike, the most urgent first. */
import { html, nothing } from 'lit';
import { guard } from 'lit/directives/guard.js';
import { live } from 'lit/directives/live.js';
import { now, set } from '../app/store.js';
import { byUrgency, search, standing, urgency } from '../data/bike-order.js';
import { mayAdd } from '../data/roles.js';
import { longList } from '../parts/long-list.js';
import { verdictShape } from '../parts/verdict-shape.js';
import { wearStrip } from '../parts/wear-strip/wear-strip.js';
import { list, named, t } from '../words/t.js';
import { flash, nextCheck, toLimit, verdictWords } from './bike-parts.js';
import { demoOffer } from './demo-offer.js';

/**
 * @typedef {import('../app/store.js').State} State
 * @typedef {import('../data/garage.js').BikeSummary} Bike
 */

/** From so many bikes on there is something to search. */
const MANY = 7;

/** @param {State} state */
export function bikes(state) {
  const { garage } = state;
  return {
    body: html`<div class="bikes">
      <h1>${t('bikes.title')}</h1>
      ${garage ? all(state, garage) : html`<p role="status">${t('bikes.loading')}</p>`}
    </div>`,
    bench: html`${flash(state)}${
      garage && mayAdd(garage.role, 'bikes') ? html`<a class="button main" href="#/add">${t('bikes.add')}</a>` : nothing
    }`,
  };
}

/** @param {State} state @param {NonNullable<State['garage']>} garage */
function all(state, garage) {
  const role = garage.role === 'viewer' || garage.role === 'checker' ? garage.role : null;
  if (!garage.bikes.length) return none(garage);
  return html`${role ? html`<p class="soft">${named('bikes', role)}</p>` : nothing}
    ${garage.bikes.length >= MANY ? finder(state, garage.bikes) : nothing}
    ${drawn(state, found(ordered(garage.bikes), state.bikes.query))}`;
}

/** The first minute: what this place is for. @param {NonNullable<State['garage']>} garage */
function none({ role, sync }) {
  if (sync.state === 'busy' && sync.at === null) return html`<p role="status">${t('bikes.coming')}</p>`;
  if (!mayAdd(role, 'bikes')) return html`<p>${t('bikes.none.viewer')}</p>`;
  return html`<section class="sheet"><h2>${t('bikes.none')}</h2>${list('bikes.none', {}).map((text) => html`<p>${text}</p>`)}</section>
    ${demoOffer(now())}`;
}

/** @type {WeakMap<Bike[], Bike[]>} the order of each list of bikes, worked out once */
const orders = new WeakMap();

/** @param {Bike[]} list */
function ordered(list) {
  const known = orders.get(list) ?? byUrgency(list);
  orders.set(list, known);
  return known;
}

/** @type {{of: Bike[], query: string, list: Bike[]}} the last search */
let last = { of: [], query: '', list: [] };

/** @param {Bike[]} of @param {string} query */
function found(of, query) {
  if (last.of !== of || last.query !== query) last = { of, query, list: search(of, query) };
  return last.list;
}

/** @param {State} state @param {Bike[]} of */
function finder({ bikes: { query } }, of) {
  const n = found(ordered(of), query).length;
  const type = (/** @type {any} */ event) => set({ bikes: { query: event.target.value, live: [0, 1] } });
  return html`<div><label class="label" for="find">${t('bikes.search')}</label>
    <input class="line-input" id="find" type="search" maxlength="80" autocomplete="off" spellcheck="false"
      .value=${live(query)} @input=${type}>
    <p class="soft small" role="status">${query.trim() ? (n ? t('bikes.found', { n, of: of.length }) : t('bikes.found.none')) : ''}</p></div>`;
}

/** What a line shows of a bike; each is another object once it has changed. */
const PARTS = /** @type {const} */ (['bike_id', 'fields', 'forecast', 'judged']);

/** @param {Bike} bike */
const parts = (bike) => [...PARTS.map((part) => bike[part]), bike.round?.state];

/** @param {State} state @param {Bike[]} list */
function drawn({ bikes: { live }, settings }, list) {
  return longList({
    items: list,
    key: (bike) => bike.bike_id,
    line: (bike) => guard([settings, ...parts(bike)], () => line(bike, settings.units)),
    live,
    show: (next) => set({ bikes: { ...now().bikes, live: next } }),
  });
}

/** @param {Bike} bike @param {State['settings']['units']} units */
function line(bike, units) {
  const { fields, forecast, last_reading } = bike;
  const verdict = standing(bike);
  const held = bike.round?.state === 'held';
  const known = last_reading && forecast ? forecast : null;
  return html`<a class="bike-line ${verdict}" href="#/bike/${bike.bike_id}">
    ${verdictShape(verdict)}
    <span class="bike-words">
      <span class="bike-name">${fields.name}${fields.tag ? html` <span class="bike-tag">${fields.tag}</span>` : nothing}</span>
      ${held ? html`<span class="bike-held">${t('round.state.held')}</span>` : nothing}
      <span class="bike-verdict">${verdict === 'none' ? named('urgency', urgency({ ...bike, round: null })) : verdictWords(verdict, held)}</span>
      ${known ? html`${wearStrip(known.elongation_now_percent, known.limit_percent)} ${figures(known, units, verdict)}` : nothing}
    </span>
  </a>`;
}

/** @param {import('../data/garage.js').Forecast} forecast @param {State['settings']['units']} units @param {string} verdict */
function figures(forecast, units, verdict) {
  const { far, band } = toLimit(forecast, units, verdict);
  if (!band) return html`<span class="bike-limit">${far}</span>`;
  const due = forecast.check_again_in_km <= 0;
  return html`<span class="bike-limit number">${t('line.limit', { far })}</span><span class="soft number">${band}</span>
    <span class="number">${due ? t('line.check.now') : t('line.check', { when: nextCheck(forecast, units) })}</span>`;
}
