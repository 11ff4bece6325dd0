/** On a bike's own page: how it stands in the round under way, and who cleared or held it before. */
import { html, nothing } from 'lit';
import { byTime } from '../data/rounds.js';
import { standShape } from '../parts/stand-shape.js';
import { named, t } from '../words/t.js';
import { byWhen, why } from './round-parts.js';

/**
 * @typedef {import('../app/store.js').State} State
 * @typedef {import('../data/garage.js').BikeDetail} BikeDetail
 */

/** Older checks are on the pages of their rounds. */
const MOST = 20;

/** @param {State} state @param {string} bikeId the way to the bike's check, where a round is under way */
export function roundHere({ garage }, bikeId) {
  const round = garage?.bikes.find(({ bike_id }) => bike_id === bikeId)?.round;
  if (!round) return nothing;
  return html`<a class="row ${round.state}" href="#/round/${round.round_id}/${bikeId}">${standShape(round.state)}
    <span><strong>${named('round.state', round.state)}</strong><br><span class="small">${t('round.here')}</span></span></a>`;
}

/** @param {State} state @param {BikeDetail} detail */
export function roundHistory({ garage }, { checks }) {
  const names = new Map(garage?.rounds.map(({ round_id, fields }) => [round_id, fields.name]));
  const all = byTime(
    Object.values(checks).map(
      ({ record_id, fields }) => /** @type {import('../data/rounds.js').Check} */ ({ ...fields, id: record_id }),
    ),
  ).reverse();
  if (!all.length) return nothing;
  return html`<details class="fold"><summary>${t('round.history')} <span class="number">${all.length}</span></summary>
    <ol class="checks" reversed>${all.slice(0, MOST).map(
      (check) => html`<li>${standShape(check.state)}<div>
      <p><strong>${named('round.state', check.state)}</strong> <span class="small">${byWhen(check)}</span></p>
      ${why(check) ? html`<p class="small">${why(check)}</p>` : nothing}
      <p class="soft small">${names.get(/** @type {any} */ (check).round_id) ?? ''}</p></div></li>`,
    )}</ol></details>`;
}
