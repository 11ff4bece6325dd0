/** The chains of a bike: which is on, which rest, which are retired. */
import { html, nothing } from 'lit';
import { repeat } from 'lit/directives/repeat.js';
import { putOn, rest, retire } from '../data/chain-moves.js';
import { mayLead } from '../data/roles.js';
import { far } from '../parts/distances.js';
import { named, t } from '../words/t.js';
import { commit } from './bike-actions.js';
import { chainName, flash, withBike } from './bike-parts.js';

/**
 * @typedef {import('../app/store.js').State} State
 * @typedef {import('../data/garage.js').BikeDetail} BikeDetail
 * @typedef {BikeDetail['meaning']['chains'][number]} Chain
 */

const PLACES = /** @type {const} */ (['on_bike', 'resting', 'retired']);

/** @param {State} state */
export function bikeChains(state) {
  return withBike(state, (detail) => ({ body: body(state, detail), bench: bench(state, detail) }));
}

/** @param {State} state @param {BikeDetail} detail */
function body(state, detail) {
  const { chains } = detail.meaning;
  const lead = mayLead(state.garage?.role);
  return html`<div class="sheets"><h1>${t('chains.title', { name: detail.bike.fields.name })}</h1>
    ${lead ? nothing : html`<p class="soft">${t('form.viewer')}</p>`}
    ${chains.length ? nothing : html`<p>${t('chains.none')}</p>`}
    ${PLACES.map((place) => {
      const here = chains.filter((chain) => chain.place === place);
      return here.length
        ? html`<section class="sheet"><h2>${named('chains.place', place)}</h2>
        <ul class="chains">${repeat(
          here,
          (chain) => chain.chain_id,
          (chain) => html`<li>${one(state, detail, chain, lead)}</li>`,
        )}</ul></section>`
        : nothing;
    })}
    ${lead && chains.some((chain) => chain.place === 'resting') ? html`<p class="soft">${t('chains.closure')}</p>` : nothing}
  </div>`;
}

/** @param {State} state @param {BikeDetail} detail @param {Chain} chain @param {boolean} lead */
function one(state, detail, chain, lead) {
  const { chain_id: id, km } = chain;
  const order = detail.meaning.chains.map((each) => each.chain_id);
  return html`<p><strong>${chainName(detail.chains, id, order)}</strong>
      <span class="soft number">${t('chains.run', { far: far(km, state.settings.units) })}</span></p>
    ${
      lead
        ? html`<div class="choices">${moves(detail, chain)}
      <a class="button" href="#/chain/${detail.meaning.bike_id}/${id}">${t('chains.edit')}</a></div>`
        : nothing
    }`;
}

/** @param {BikeDetail} detail @param {Chain} chain */
function moves(detail, { chain_id: id, place }) {
  const { meaning } = detail;
  const rows = Object.values(detail.chains);
  const on = button('chains.on', () => commit(putOn(meaning, rows, id), { text: t('did.on') }));
  const off = button('chains.retire', () =>
    commit(retire(meaning, rows, id, new Date().toISOString()), { text: t('did.retired') }),
  );
  if (place === 'on_bike')
    return [button('chains.rest', () => commit(rest(meaning, rows), { text: t('did.rest') })), off];
  if (place === 'resting') return [on, off];
  return [
    button('chains.back', () =>
      commit([{ table: 'chains', record_id: id, put: { retired_at: null } }], { text: t('did.rest') }),
    ),
  ];
}

/** @param {import('../words/t.js').Word} word @param {() => void} act */
function button(word, act) {
  return html`<button class="button" type="button" @click=${act}>${t(word)}</button>`;
}

/** @param {State} state @param {BikeDetail} detail */
function bench(state, { meaning: { bike_id, chains } }) {
  const fitted = chains.some((chain) => chain.place === 'on_bike');
  const add = () =>
    commit(
      [{ table: 'chains', put: { bike_id, km_before: 0, name: t('chains.unnamed.n', { n: chains.length + 1 }) } }],
      { text: t('did.chain') },
    );
  return html`${flash(state)}<div class="main-row"><a class="button" href="#/bike/${bike_id}">${t('form.back')}</a>
    ${
      mayLead(state.garage?.role)
        ? html`<button class="button ${fitted ? '' : 'main'}" type="button" @click=${add}>${t('chains.add')}</button>`
        : nothing
    }</div>`;
}
