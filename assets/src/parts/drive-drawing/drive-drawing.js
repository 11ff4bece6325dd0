/**
 * The drive to scale: chainring, sprocket and the chain on them, its slack as it
 * would hang.
 */
import { html, svg } from 'lit';
import { view } from './geometry.js';

/** A wheel of a smaller radius, mm, has its tooth count beside it. */
const SMALL = 45;

/**
 * @typedef {{drawing: import('./geometry.js').Drawing, ring: number, sprocket: number, label: string,
 *   centre: string, hang: string, caption: string}} Model
 *   ring, sprocket: teeth; label: the picture in words; centre, hang: written at
 *   the distance and at the slack
 */

/** @param {Model} model */
export function driveDrawing({ drawing, ring, sprocket, label, centre, hang, caption }) {
  const seen = view(drawing);
  const { x, y, width, height } = seen.box;
  return html`<figure class="picture">
    <svg viewBox="${x} ${y} ${width} ${height}" role="img" aria-label=${label}>
      ${wheel(seen.ring, ring)} ${wheel(seen.sprocket, sprocket)}
      <path class="drive-axis" d="M0 0H${seen.ring.x}"/>
      <text class="drive-text" x=${(seen.ring.x - seen.ring.r + seen.sprocket.r) / 2} y="-8">${centre}</text>
      <path class="drive-plate" d=${seen.chain}/><path class="drive-link" d=${seen.chain}/>
      ${drawing.sag_mm > 0.5 ? svg`<path class="drive-taut" d="M${seen.taut.x} ${seen.taut.y}V${seen.low.y}"/>` : ''}
      <text class="drive-text" x=${seen.low.x} y=${Math.max(seen.taut.y - 14, 28)}>${hang}</text>
    </svg>
    <figcaption class="soft small">${caption}</figcaption>
  </figure>`;
}

/** A wheel with its teeth on the pitch circle. @param {import('./geometry.js').Wheel} wheel @param {number} teeth */
function wheel({ x, y, r }, teeth) {
  const count = r < SMALL ? { x: x + r + 22, y: y - 6 } : { x, y: y + r * 0.5 + 6 };
  return svg`<circle class="drive-disc" cx=${x} cy=${y} r=${r - 5}/>
    <circle class="drive-teeth" cx=${x} cy=${y} r=${r} pathLength=${2 * teeth}/>
    <circle class="drive-axle" cx=${x} cy=${y} r="3.5"/>
    <text class="drive-count" x=${count.x} y=${count.y}>${teeth}</text>`;
}
