/** On a bike's own page: how it stands in the round under way, and the way there. */
import { html, nothing } from 'lit';
import { named, t } from '../words/t.js';
import { standShape } from './stand-shape.js';

/** @param {import('../data/garage.js').BikeSummary} bike */
export function roundHere({ bike_id, round }) {
  if (!round) return nothing;
  return html`<a class="row ${round.state}" href="#/round/${round.round_id}/${bike_id}">${standShape(round.state)}
    <span><strong>${named('round.state', round.state)}</strong><br><span class="small">${t('round.here')}</span></span></a>`;
}
