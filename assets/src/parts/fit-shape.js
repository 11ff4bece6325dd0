/**
 * How a chain sits, as shapes told apart without colour: a length of chain
 * between two posts, and a pin in its slot.
 */
import { html, svg } from 'lit';

/** @typedef {'ok'|'slack'|'tight'|'yes'|'no'|'unknown'} FitShape */

/** @type {Record<FitShape, unknown>} in a box of 24 by 24 */
const SHAPES = {
  ok: svg`<path class="shape-line" d="M2.5 3v9M21.5 3v9M2.5 8c5 6 14 6 19 0"/>`,
  slack: svg`<path class="shape-line" d="M2.5 3v9M21.5 3v9"/><path class="shape-line" stroke-dasharray="3.2 2" d="M2.5 6c1 20 18 20 19 0"/>`,
  tight: svg`<path class="shape-line" d="M2.5 2v11M21.5 2v11"/><path class="shape-fill" d="M2 5.5h20v4H2zM8 14h8l-4 7z"/>`,
  yes: svg`<path class="shape-line" d="M3 4v17h18V4"/><path class="shape-fill" d="M6.5 3h11v14.5h-11z"/>`,
  no: svg`<path class="shape-line" d="M5 12v9h14v-9"/><path class="shape-fill" d="M1.5 3h21v6h-21z"/>`,
  unknown: svg`<path class="shape-line" d="M3 4v17h18V4"/><path class="shape-dots" d="M7 4h10v13H7z"/>`,
};

/** @param {FitShape} name */
export function fitShape(name) {
  return html`<svg class="shape" viewBox="0 0 24 24" aria-hidden="true">${SHAPES[name]}</svg>`;
}
