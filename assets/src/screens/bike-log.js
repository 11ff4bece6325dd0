/** Everything noted about a bike in one stream, the latest first. */
import { html, nothing } from 'lit';
import { repeat } from 'lit/directives/repeat.js';
import { fill, form } from '../app/forms.js';
import { now, set } from '../app/store.js';
import { stream } from '../data/bike-log.js';
import { mayLead } from '../data/roles.js';
import { far } from '../parts/distances.js';
import { textField } from '../parts/text-field.js';
import { day, percent } from '../words/numbers.js';
import { named, t } from '../words/t.js';
import { LOG_PAGE, commit } from './bike-actions.js';
import { NOTICED } from './bike-care-advice.js';
import { judgeShown } from './bike-judge.js';
import { chainName } from './bike-parts.js';

/**
 * @typedef {import('../app/store.js').State} State
 * @typedef {import('../data/garage.js').BikeDetail} BikeDetail
 * @typedef {import('../data/bike-log.js').Entry} Entry
 * @typedef {{state: State, detail: BikeDetail, order: string[]}} Page
 */

/** @type {WeakMap<BikeDetail, Entry[]>} each bike's stream, sorted once */
const streams = new WeakMap();

/** @param {BikeDetail} detail */
function entries(detail) {
  const { chains, readings, distances, care } = detail;
  const known =
    streams.get(detail) ??
    stream({
      chains: Object.values(chains),
      readings: Object.values(readings),
      distances: Object.values(distances),
      care: Object.values(care),
    });
  streams.set(detail, known);
  return known;
}

/** @param {State} state @param {BikeDetail} detail */
export function log(state, detail) {
  const all = entries(detail);
  const { shown } = state.bike;
  const page = { state, detail, order: detail.meaning.chains.map((one) => one.chain_id) };
  return html`<section class="sheet"><h2>${t('log.title')}</h2>
    ${all.length ? nothing : html`<p>${t('log.none')}</p>`}
    <ul class="log">${repeat(
      all.slice(0, shown),
      (entry) => `${entry.kind}${entry.row.record_id}`,
      (entry) => html`<li>${drawn(page, entry)}</li>`,
    )}</ul>
    ${shown < all.length ? html`<button class="button" type="button" @click=${more}>${t('log.more')}</button>` : nothing}
  </section>`;
}

function more() {
  const { bike } = now();
  set({ bike: { ...bike, shown: bike.shown + 2 * LOG_PAGE } });
  judgeShown();
}

/** @param {Page} page @param {Entry} entry */
function drawn(page, entry) {
  const { fields } = entry.row;
  const about = [day(entry.at), where(page, entry), fields.by && t('log.by', { name: fields.by })];
  const inside = [
    fields.note ? html`<p class="note">${fields.note}</p>` : nothing,
    page.detail.meaning.doubtful_distance_ids.includes(entry.row.record_id)
      ? html`<p class="fault">${t('log.doubtful')}</p>`
      : nothing,
    actions(page, entry),
  ];
  const head = html`<span class="log-head"><strong class=${fields.void_reason ? 'void' : ''}>${what(page, entry)}</strong>
    <span class="soft small number">${about.filter(Boolean).join(' · ')}</span></span>`;
  return inside.every((one) => one === nothing)
    ? html`<div class="log-plain">${head}</div>`
    : html`<details class="fold"><summary>${head}</summary><div class="sheet">${inside}</div></details>`;
}

/** @param {Page} page @param {Entry} entry the chain and its distance then */
function where({ detail, order, state }, { kind, row: { fields }, chain }) {
  if (!chain) return '';
  if (kind === 'retired') {
    const km = detail.meaning.chains.find((one) => one.chain_id === chain.record_id)?.km ?? 0;
    return t('chains.run', { far: far(km, state.settings.units) });
  }
  const name = order.length > 1 || fields.at_km !== undefined ? chainName(detail.chains, chain.record_id, order) : '';
  return fields.at_km === undefined ? name : t('log.at', { chain: name, far: far(fields.at_km, state.settings.units) });
}

/** @param {Page} page @param {Entry} entry */
function what(page, { kind, row }) {
  const { fields } = row;
  const { units } = page.state.settings;
  switch (kind) {
    case 'reading':
      return reading(page, row);
    case 'distance': {
      const source = ['gpx', 'week'].includes(fields.source) ? ` ${named('log.source', fields.source)}` : '';
      return fields.odometer_km === undefined
        ? `${t('log.ride', { far: far(fields.add_km, units) })}${source}`
        : t('log.odometer', { far: far(fields.odometer_km, units) });
    }
    case 'care':
      return upkeep(fields);
    default:
      return t('log.retired', { chain: chainName(page.detail.chains, row.record_id, page.order) });
  }
}

/** @param {Page} page @param {Entry['row']} row */
function reading({ state }, { record_id, fields }) {
  const judged = state.judged[record_id];
  const figure = judged ? ` ${t('log.reading.is', { percent: percent(judged.elongation_percent) })}` : '';
  return `${t('log.reading')}${figure} · ${named('instrument', fields.reading.kind)}`;
}

/** @param {Record<string, any>} fields */
function upkeep({ did, lubricant, dirty, ...found }) {
  const done = did
    .map((/** @type {string} */ one, /** @type {number} */ i) => {
      const word = named('look.did', one);
      return i ? word.toLocaleLowerCase() : word;
    })
    .join(', ');
  const known = ['oil', 'liquid_wax', 'hot_wax', 'factory_grease'].includes(lubricant);
  const extra = [
    lubricant && (known ? named('look.lubricant', lubricant) : lubricant),
    dirty === undefined ? '' : t(dirty ? 'log.found.dirty' : 'log.found.clean'),
    ...NOTICED.filter((one) => found[one]).map((one) => named('log.found', one)),
  ].filter(Boolean);
  return extra.length ? `${done} (${extra.join(', ')})` : done;
}

/** @param {Page} page @param {Entry} entry */
function actions({ state }, { kind, row }) {
  const { void_reason } = row.fields;
  if (void_reason) return html`<p>${t('log.void', { reason: void_reason })}</p>`;
  if (!mayLead(state.garage?.role) || kind === 'retired') return nothing;
  if (kind === 'reading') return voiding(state, row);
  const remove = () => commit([{ table: row.table, record_id: row.record_id, remove: true }], { text: t('did.entry') });
  return html`<button class="button" type="button" @click=${remove}>${t('log.remove')}</button>`;
}

/** A reading is never removed, only voided with a reason. @param {State} state @param {Entry['row']} row */
function voiding(state, row) {
  const name = `void/${row.record_id}`;
  const { why } = form(state, name, { why: '' });
  const say = (/** @type {string} */ reason) => {
    const { void_reason: _, ...fields } = row.fields;
    commit([{ table: 'readings', record_id: row.record_id, put: { void_reason: reason } }], {
      text: t('did.voided'),
      form: name,
      // What is voided stays so; taking that back notes the same reading once more.
      undo: [{ table: 'readings', put: fields }],
    });
  };
  return html`<fieldset class="sheet"><legend>${t('log.void.title')}</legend>
    <div class="choices">${
      /** @type {const} */ (['slip', 'other', 'dirty']).map((one) => {
        const reason = named('log.void', one);
        return html`<button class="button" type="button" @click=${() => say(reason)}>${reason}</button>`;
      })
    }</div>
    ${textField({ id: name, title: t('log.void.why'), text: why, most: 200, type: (text) => fill(name, { why: text }) })}
    <button class="button" type="button" aria-disabled=${why.trim() ? 'false' : 'true'}
      @click=${() => sayOther(name, say)}>${t('log.void.main')}</button></fieldset>`;
}

/** @param {string} name of the form @param {(reason: string) => void} say what is entered by now */
function sayOther(name, say) {
  const why = form(now(), name, { why: '' }).why.trim();
  if (why) say(why);
}
