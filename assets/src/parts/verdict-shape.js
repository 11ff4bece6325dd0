/** The five verdicts as shapes, told apart without colour. */
import { html, svg } from 'lit';

/** @typedef {import('../data/request.js').Verdict} Verdict */

/**
 * The shape in a box of 24 by 24, to be placed inside an svg.
 * @param {Verdict|'none'} verdict
 */
export function shape(verdict) {
  switch (verdict) {
    case 'ride':
      return svg`<circle class="shape-line" cx="12" cy="12" r="9"/>`;
    case 'plan':
      return svg`<circle class="shape-line" cx="12" cy="12" r="9"/><path class="shape-fill" d="M3 12a9 9 0 0 0 18 0z"/>`;
    case 'change':
      return svg`<circle class="shape-fill" cx="12" cy="12" r="10.5"/>`;
    case 'change_and_inspect':
      return svg`<path class="shape-fill" d="M12 12 16.6 2.6A10.5 10.5 0 1 1 7.4 2.6z"/>`;
    case 'measure_again':
      return svg`<path class="shape-line" d="M5 9a7 7 0 1 1 9.5 6.5C12.5 16.3 12 17 12 18.5"/>
        <circle class="shape-fill" cx="12" cy="22" r="1.9"/>`;
    default:
      return svg`<circle class="shape-dots" cx="12" cy="12" r="9"/>`;
  }
}

/** @param {Verdict|'none'} verdict */
export function verdictShape(verdict) {
  return html`<svg class="shape" viewBox="0 0 24 24" aria-hidden="true">${shape(verdict)}</svg>`;
}
