/** How far a round is: a bar of three textures, and under it the counts in words. */
import { html, nothing, svg } from 'lit';
import { counts } from '../data/rounds.js';
import { named, t } from '../words/t.js';
import { standShape } from './stand-shape.js';

/** @type {import('../data/rounds.js').BikeState[]} */
const ORDER = ['cleared', 'held', 'not_seen'];

/** @param {import('../data/rounds.js').Stand[]} stands */
export function roundBar(stands) {
  const n = counts(stands);
  let from = 0;
  const parts = ORDER.map((state) => {
    const width = stands.length ? (100 * n[state]) / stands.length : 0;
    const x = from;
    from += width;
    return width ? svg`<rect class="bar-${state}" x="${x}%" y="0" width="${width}%" height="100%"/>` : nothing;
  });
  return html`<figure class="round-bar">
    <svg class="bar" role="img" aria-label=${t('round.bar', { cleared: n.cleared, held: n.held, left: n.not_seen, all: stands.length })}>
      <defs><pattern id="bar-lines" width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
        <path class="bar-ground" d="M0 0h6v6H0z"/><path class="bar-line" d="M0 0v6"/></pattern></defs>
      ${parts}
    </svg>
    <figcaption class="bar-counts">${ORDER.map(
      (state) =>
        html`<span class="bar-count">${standShape(state)}<strong>${n[state]}</strong> ${named('round.state', state)}</span>`,
    )}</figcaption>
  </figure>`;
}
