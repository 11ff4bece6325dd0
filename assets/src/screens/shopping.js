/** The shopping list: what the next chain of a bike must be. */
import { html, nothing } from 'lit';
import { countOf, familiesFor, familyRequest, lengthQuestion, links, soldFor } from '../data/shopping.js';
import { length } from '../parts/fit-numbers.js';
import { familyName, faultText, said } from '../words/engine.js';
import { fixed } from '../words/numbers.js';
import { named, t } from '../words/t.js';
import { askFor, standIn, takeUp } from './bike-work.js';
import { sentences } from './fit-parts.js';

/**
 * @typedef {import('../app/store.js').State} State
 * @typedef {import('../data/garage.js').BikeDetail} BikeDetail
 * @typedef {import('../data/shopping.js').Family} Family
 */

/** @param {string} bike_id */
export function openShopping(bike_id) {
  takeUp(bike_id, ({ bike: { fields } }) => {
    askFor('family', 'identify', familyRequest(fields));
    const { name, request, missing } = lengthQuestion(fields);
    if (!missing.length) askFor('length', name, request);
  });
}

/** @param {State} state */
export function shopping(state) {
  const { work } = state;
  const detail = work?.detail;
  if (!work || !detail) return standIn(state, 'shop.title');
  const { fields, record_id } = detail.bike;
  const family = work.answers.family;
  return {
    body: html`<div class="sheets">
      <h1>${t('shop.for', { name: fields.name })}</h1>
      ${family?.answer ? list(state, detail, family.answer) : html`<p role="status">${t(family?.status === 'crash' ? 'fit.tag.crash' : 'work.waiting')}</p>`}
    </div>`,
    bench: html`<div class="main-row">
      <a class="button" href="#/bike/${record_id}">${t('shop.back')}</a>
      <a class="button main" href="#/change/${record_id}">${t('shop.change')}</a></div>`,
  };
}

/** @param {State} state @param {BikeDetail} detail @param {any} answer */
function list({ work, settings: { units } }, detail, answer) {
  const chain = detail.chains[detail.meaning.fitted_chain_id ?? '']?.fields;
  const families = familiesFor(answer.candidates, chain?.class);
  const count = work?.answers.length;
  const { drive, rear_sprockets } = detail.bike.fields;
  const uncounted = drive === 'derailleur' && !rear_sprockets;
  return html`
    <section class="sheet"><h2>${t('shop.chain')}</h2>
      ${families.length > 1 ? html`<p class="fault">${t('shop.several')}</p>` : nothing}
      ${families.length > 1 && uncounted ? html`<p>${t('shop.several.sprockets')}</p>` : nothing}
      <ul class="buy">${families.map((one) => html`<li>${chainLine(one, units)}</li>`)}</ul>
      ${families.length === 1 ? nothing : html`<a class="button" href="#/fit">${t('shop.measure')}</a>`}
    </section>
    <section class="sheet"><h2>${t('shop.length')}</h2>${howLong(detail, count, chain)}</section>
    ${families.length === 1 ? closing(families[0], chain?.closure) : nothing}
    ${inspect(detail)}
    ${sentences('cautions.title', [
      ...new Set([...careful(answer, families.length === 1), ...(count?.answer ? said(count.answer, 'cautions') : [])]),
    ])}`;
}

/** Once the bike settles the family, the doubt about it is gone. @param {any} answer @param {boolean} settled */
function careful(answer, settled) {
  const codes = answer.caution_codes.map((/** @type {{code: string}} */ { code }) => code);
  return said(answer, 'cautions').filter((_, i) => !settled || codes[i] !== 'identify_caution_unsure');
}

/** @param {Family} one @param {State['settings']['units']} units */
function chainLine(one, units) {
  const { inner_width_mm: inner, outer_width_mm: outer } = one;
  return html`<strong>${familyName(one)}</strong>
    <span class="number">${inner === null ? t('shop.inner.none') : t('shop.inner', { length: length(inner, units) })}</span>
    <span class="number">${outer === null ? t('shop.outer.none') : t('shop.outer', { lo: fixed(outer[0], 2), hi: fixed(outer[1], 2) })}</span>`;
}

/** @param {BikeDetail} detail @param {import('./bike-work.js').Asked|undefined} asked @param {Record<string, any>|undefined} chain */
function howLong({ bike }, asked, chain) {
  const { missing } = lengthQuestion(bike.fields);
  if (missing.length) {
    return html`<p>${t('shop.missing', { list: missing.map((field) => named('fit.field', field)).join(', ') })}</p>
      ${chain?.pitches ? html`<p class="number big">${t('shop.same', { n: chain.pitches })}</p>` : nothing}
      <a class="button" href="#/edit/${bike.record_id}/numbers">${t('shop.fill')}</a>`;
  }
  if (asked?.status === 'fault') return html`<p class="fault">${asked.fault ? faultText(asked.fault) : ''}</p>`;
  if (!asked?.answer) return html`<p role="status">${t('work.waiting')}</p>`;
  const { half_link } = asked.answer;
  const pitches = countOf(asked.answer);
  if (pitches === null) return html`<p class="fault">${t('fit.tag.nocount')}</p>`;
  const sold = soldFor(pitches);
  const pairs = t(half_link ? 'fit.tag.pairs.half' : 'fit.tag.pairs', { n: Math.floor(pitches / 2) });
  return html`<p class="number big">${t('fit.tag.pitches', { n: pitches })}</p><p class="number">${pairs}</p>
    <p class="number">${sold === null ? t('shop.longer') : sold === pitches ? t('shop.exact', { sold }) : t('shop.cut', { sold, n: sold - pitches })}</p>
    <p class="soft small">${t('shop.count')}</p>
    ${chain?.pitches && chain.pitches !== pitches ? html`<p class="fault">${t('shop.differs', { n: chain.pitches })}</p>` : nothing}`;
}

/** @param {Family} family @param {string|undefined} usual how the chain that is on it was joined */
function closing(family, usual) {
  const { closures } = family;
  const all = usual && closures.includes(usual) ? [usual] : closures.filter((one) => one !== 'half_link');
  const buy = links(all);
  return html`<section class="sheet"><h2>${t('shop.join')}</h2>
    <ul class="buy">
      ${buy.map((one) => html`<li><strong>${named('closure', one)}</strong><span>${t('shop.link')}</span></li>`)}
      ${all.includes('one_use_pin') ? html`<li><strong>${named('closure', 'one_use_pin')}</strong><span>${t('shop.pin')}</span></li>` : nothing}
    </ul>
    ${all.length > 1 ? html`<p>${t('shop.one')}</p>` : nothing}
    <ul>${said(family, 'closure_advice').map((text) => html`<li>${text}</li>`)}</ul>
  </section>`;
}

/** @param {BikeDetail} detail */
function inspect({ judged, meaning }) {
  if (judged[meaning.fitted_chain_id ?? '']?.verdict !== 'change_and_inspect') return nothing;
  return html`<section class="sheet panel"><h2>${t('shop.sprockets')}</h2><p>${t('shop.sprockets.text')}</p></section>`;
}
