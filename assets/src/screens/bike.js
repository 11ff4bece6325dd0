/** One bike: how its chain stands, what comes next, and all that happened. */
import { html, nothing } from 'lit';
import { standing } from '../data/bike-order.js';
import { mayAdd, mayLead } from '../data/roles.js';
import { far } from '../parts/distances.js';
import { verdictShape } from '../parts/verdict-shape.js';
import { wearFan, wearTable } from '../parts/wear-fan/wear-fan.js';
import { percent } from '../words/numbers.js';
import { named, t } from '../words/t.js';
import { summaryOf } from './bike-actions.js';
import { question } from './bike-ask.js';
import { upkeepWords } from './bike-care-advice.js';
import { asideSection, forecastSection } from './bike-forecast.js';
import { log } from './bike-log.js';
import { chainName, flash, nextCheck, toLimit, verdictWords, withBike } from './bike-parts.js';
import { roundHere, roundHistory } from './round-history.js';

/**
 * @typedef {import('../app/store.js').State} State
 * @typedef {import('../data/garage.js').BikeDetail} BikeDetail
 */

/** @param {State} state */
export function bike(state) {
  const { id, detail, glance } = state.bike;
  if (glance && !detail && id === state.argument)
    return { body: page(state, glance, false), bench: bench(state, glance) };
  return withBike(state, (detail) => ({ body: page(state, detail, true), bench: bench(state, detail) }));
}

/** @param {BikeDetail} detail */
function stand({ meaning, chains, readings, judged, forecasts }) {
  const id = meaning.fitted_chain_id ?? null;
  const chain = meaning.chains.find((one) => one.chain_id === id);
  const last_reading = readings[chain?.last_reading_id ?? ''] ?? null;
  const [forecast, judgement] = id ? [forecasts[id] ?? null, judged[id] ?? null] : [null, null];
  const bike = { fields: {}, fitted_chain_id: id, last_reading, forecast, judged: judgement };
  // A chain whose distance is known from new has a forecast by other chains before its first reading.
  const told = last_reading || (id && chains[id]?.fields.km_before !== undefined) ? forecast : null;
  return { chain, last_reading, forecast: told, judgement, verdict: standing(bike) };
}

/** @param {State} state @param {BikeDetail} detail @param {boolean} whole what can be seen at a glance only, when false */
function page(state, detail, whole) {
  const { bike: row, meaning } = detail;
  const { forecast } = stand(detail);
  const { name, tag, set, bears = [] } = row.fields;
  const role = state.garage?.role;
  return html`<div class="sheets">
    <h1>${name}</h1>
    ${tag || set ? html`<p class="soft">${[tag, set].filter(Boolean).join(' · ')}</p>` : nothing}
    ${held(state, meaning.bike_id)}
    ${role === 'viewer' || role === 'checker' ? html`<p class="soft">${named('bikes', role)}</p>` : nothing}
    ${roundHere(state, meaning.bike_id)}
    ${tagOf(state, detail)}
    ${bears.length ? html`<p class="fault">${bears.map((/** @type {string} */ one) => named('bike.bears', one)).join(', ')}: ${t('bike.stricter')}</p>` : nothing}
    ${whole ? html`${question(state, detail)} ${asideSection(detail, state)}` : nothing}
    ${facts(state, detail)}
    ${
      forecast
        ? html`<section class="sheet"><h2>${t('bike.fan')}</h2>
      ${wearFan(forecast, state.settings.units)} ${whole ? wearTable(forecast, state.settings.units) : nothing}</section>
      ${whole ? forecastSection(detail, state, stand(detail).verdict) : nothing}`
        : nothing
    }
    ${whole ? html`${log(state, detail)} ${roundHistory(state, detail)} ${more(meaning.bike_id, mayLead(role))}` : nothing}
  </div>`;
}

/** @param {State} state @param {string} id @returns its check in the round that is walked now, if that holds it */
function holding(state, id) {
  const round = summaryOf(state, id)?.round;
  return round?.state === 'held' ? round : null;
}

/** @param {State} state @param {string} id */
function held(state, id) {
  const round = holding(state, id);
  if (!round) return nothing;
  return html`<p><span class="bike-held">${t('round.state.held')}</span> ${round.check?.reason ?? ''}</p>`;
}

/** @param {State} state @param {BikeDetail} detail the verdict on its tag */
function tagOf(state, detail) {
  const { chain, last_reading, forecast, judgement, verdict } = stand(detail);
  const now = forecast?.elongation_now_percent;
  const limit = forecast?.limit_percent ?? '';
  // A forecast that hopes for less than what was read must not stand beside “change” as if it were the reason.
  const byReading = verdict.startsWith('change') && judgement && now && now.p50 < limit;
  const none = t(chain ? 'urgency.unread' : 'urgency.bare');
  const words = verdict === 'none' ? none : verdictWords(verdict, !!holding(state, detail.meaning.bike_id));
  return html`<section class="tag ${verdict}" aria-label=${t('answer.title')}>${verdictShape(verdict)}<div>
    <p class="word">${words}</p>
    ${
      last_reading && now
        ? html`<p class="figure">${byReading ? t('bike.figure.read', { percent: percent(judgement.elongation_percent) }) : t('bike.figure', { percent: percent(now.p50) })}</p>
      <p class="number small">${byReading ? t('answer.limit', { percent: limit }) : t('bike.range', { lo: percent(now.p05), hi: percent(now.p95), limit })}</p>`
        : html`<p>${t(!chain ? 'bike.bare' : forecast ? 'bike.first.known' : 'bike.first')}</p>`
    }</div></section>`;
}

/** @param {State} state @param {BikeDetail} detail */
function facts(state, detail) {
  const { chain, forecast, verdict } = stand(detail);
  const { units } = state.settings;
  const { care } = state.bike;
  const ahead = forecast ? toLimit(forecast, units, verdict) : null;
  const order = detail.meaning.chains.map((one) => one.chain_id);
  const named = chain && order.length > 1 ? chainName(detail.chains, chain.chain_id, order) : '';
  return html`<dl class="facts">
    ${ahead ? fact(t('bike.limit'), html`${ahead.far}${ahead.band ? html`<br><span class="soft">${ahead.band}</span>` : nothing}`) : nothing}
    ${ahead?.band ? fact(t('bike.check'), nextCheck(forecast, units)) : nothing}
    ${chain ? fact(t('bike.chain.km'), html`${far(chain.km, units)}${named ? html` <span class="soft">${named}</span>` : nothing}`) : nothing}
    ${chain && detail.meaning.km < chain.km ? nothing : fact(t('bike.km'), far(detail.meaning.km, units))}
    ${care && chain && cared(detail, chain) ? fact(t('bike.care'), upkeepWords(care, units)) : nothing}
  </dl>`;
}

/** Whether anything is known of the chain's care: what was done, or that it is known from new. @param {BikeDetail} detail @param {BikeDetail['meaning']['chains'][number]} chain */
function cared({ chains }, { chain_id, care_ids }) {
  return care_ids.length > 0 || chains[chain_id].fields.km_before !== undefined;
}

/** @param {string} name @param {unknown} value */
function fact(name, value) {
  return html`<div><dt>${name}</dt><dd class="number">${value}</dd></div>`;
}

/** @param {string} id @param {boolean} lead */
function more(id, lead) {
  const places = /** @type {const} */ ([
    ['edit', 'bike.edit'],
    ['chains', 'bike.chains'],
    ['shopping', 'bike.shopping'],
    ['cost', 'bike.cost'],
  ]);
  const change = /** @type {const} */ (['change', 'bike.change']);
  return html`<nav class="bike-more" aria-label=${t('bike.rest')}>${[...places, ...(lead ? [change] : [])].map(
    ([place, word]) => html`<a class="button" href="#/${place}/${id}">${t(word)}</a>`,
  )}</nav>`;
}

/** @param {State} state @param {BikeDetail} detail */
function bench(state, detail) {
  const { chain, verdict } = stand(detail);
  const { bike_id: id } = detail.meaning;
  const role = state.garage?.role;
  if (!mayAdd(role, 'readings')) return html`${flash(state)}<a class="button main" href="#/bikes">${t('bike.all')}</a>`;
  const worn = verdict === 'change' || verdict === 'change_and_inspect';
  const change = mayLead(role) && worn;
  return html`${flash(state)}
    <div class="main-row">
      <a class="button" href="#/distance/${id}">${t('bike.distance')}</a>
      ${chain ? html`<a class="button" href="#/care/${id}">${t('bike.look')}</a>` : nothing}
      ${chain && change ? html`<a class="button" href="#/check/${id}">${t('bike.reading')}</a>` : nothing}
    </div>
    <div class="main-row">${
      !chain
        ? html`<a class="button main" href="#/chains/${id}">${t('bike.fit')}</a>`
        : change
          ? html`<a class="button main" href="#/change/${id}">${t('bike.change')}</a>`
          : html`<a class="button main" href="#/check/${id}">${t('bike.reading')}</a>`
    }</div>`;
}
