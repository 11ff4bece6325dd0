/** The wear strip: how far a chain has come towards its limit, at a glance in a list. */
import { svg, html } from 'lit';
import { LIMIT_AT, WIDTH, strip } from './geometry.js';

const HEIGHT = 20;
const FOOT = 15;

/**
 * For the eye only: what it shows stands beside it in words.
 * @param {import('./geometry.js').Now|null} now null: nothing known, only the limit
 * @param {number} limit percent
 */
export function wearStrip(now, limit) {
  const seen = now ? strip(now, limit) : null;
  return html`<svg class="wear-strip" viewBox="-7 0 ${WIDTH + 14} ${HEIGHT}" aria-hidden="true">
    <path class="wear-beyond" d="M${LIMIT_AT} 3H${WIDTH}V${FOOT}H${LIMIT_AT}z"/>
    ${
      seen
        ? svg`<path class="wear-band" d="M${seen.from} 4H${seen.to}V${FOOT - 1}H${seen.from}z"/>
      <path class="wear-marks" d=${seen.marks.map((x) => `M${x.toFixed(1)} ${FOOT}v-3`).join('')}/>`
        : ''
    }
    <path class="wear-line" d="M0 ${FOOT}H${WIDTH}"/>
    <path class="wear-limit" d="M${LIMIT_AT} 0V${HEIGHT}"/>
    ${seen ? svg`<circle class="wear-pin" cx=${seen.pin} cy="9.5" r="5.5"/>` : ''}
  </svg>`;
}
