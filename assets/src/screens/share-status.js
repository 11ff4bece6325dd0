/** How the phone stands with the server, in plain words. */
import { html, nothing } from 'lit';
import { moment } from '../words/numbers.js';
import { faultText } from '../words/engine.js';
import { named, t } from '../words/t.js';
import { putAside, tryNow } from './share-actions.js';

/**
 * @typedef {import('../data/garage.js').GarageState} GarageState
 * @typedef {import('../data/garage.js').Rejected} Rejected
 */

/** @param {GarageState} garage @returns {string[]} sentences */
export function statusWords({ sync }) {
  const { state, unsent, rejected, at } = sync;
  const settled = state === 'idle' && !unsent;
  return [
    ...(settled ? [at ? t('sync.idle.at', { when: moment(at) }) : t('sync.idle')] : []),
    ...(state === 'idle' ? [] : [named('sync', state)]),
    ...(unsent ? [t('sync.waiting', { n: unsent })] : []),
    ...(rejected.length ? [t('sync.rejected', { n: rejected.length })] : []),
  ];
}

/** @param {GarageState} garage @param {boolean} busy */
export function status(garage, busy) {
  const { state, trouble, rejected } = garage.sync;
  const again = ['idle', 'failed', 'offline'].includes(state);
  return html`<section class="sheet"><div role="status">${statusWords(garage).map((text) => html`<p>${text}</p>`)}</div>
    ${state === 'failed' && trouble ? html`<p class="soft small">${faultText(trouble)}</p>` : nothing}
    ${again ? html`<button class="button" type="button" aria-disabled=${busy ? 'true' : 'false'} @click=${tryNow}>${t('sync.now')}</button>` : nothing}</section>
    ${rejected.length ? refused(garage) : nothing}`;
}

/** @param {GarageState} garage */
function refused({ sync: { rejected }, bikes }) {
  const name = (/** @type {Rejected} */ { table, record_id: id }) =>
    (table === 'bikes' && bikes.find(({ bike_id }) => bike_id === id)?.fields.name) || '';
  return html`<section class="sheet"><h2>${t('sync.refused.title')}</h2>
    <p class="soft">${t('sync.refused.text')}</p>
    <ul class="kept-list">${rejected.map(
      (one) => html`<li><p><strong>${named('sync.table', one.table)}</strong> ${name(one)}</p>
      <p>${faultText(one)}</p>
      ${
        one.waits
          ? html`<p class="soft small">${t('sync.refused.waits')}</p>`
          : html`<button class="button" type="button" @click=${() => putAside(one.op_id)}>${t('sync.refused.drop')}</button>`
      }</li>`,
    )}</ul></section>`;
}
