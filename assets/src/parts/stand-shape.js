/** How a bike stands in a round, as a tag told apart without colour. */
import { html, svg } from 'lit';

/** @typedef {import('../data/rounds.js').BikeState} BikeState */

/** @type {Record<BikeState, unknown>} in a box of 24 by 24 */
const SHAPES = {
  not_seen: svg`<path class="stand-line" stroke-dasharray="3 2.6" d="M8 3h14v18H8L2 15V9z"/>`,
  held: svg`<path class="stand-fill" fill-rule="evenodd" d="M7.5 2H23v20H7.5L1 15.5v-7zM6 10v4h13v-4z"/>`,
  cleared: svg`<path class="stand-line" d="M8 3h14v18H8L2 15V9z"/><path class="stand-tick" d="M7.5 12l4 4.5 7-9.5"/>`,
};

/** @param {BikeState} state */
export function standShape(state) {
  return html`<svg class="stand" viewBox="0 0 24 24" aria-hidden="true">${SHAPES[state]}</svg>`;
}
