/** Gears as the rungs of ladders, one ladder a chainring. */
import { html, svg } from 'lit';
import { t } from '../../words/t.js';
import { HALF, HEAD, STEEPER, view } from './geometry.js';

/**
 * @param {import('./geometry.js').Gear[]} gears lowest first
 * @param {'development_m'|'gear_inches'} measure
 * @param {(value: number) => string} written a value with its unit
 */
export function gearPicture(gears, measure, written) {
  const seen = view(gears, measure);
  const label = t('gears.picture.label', {
    n: gears.length,
    low: written(gears[0][measure]),
    high: written(gears[gears.length - 1][measure]),
    duplicates: gears.filter((gear) => gear.duplicate_of).length,
  });
  return html`<figure class="picture">
    <svg class="ladder" viewBox="0 0 ${seen.width} ${seen.height}" role="img" aria-label=${label}>
      ${seen.marks.map(
        ({ y, text }) => svg`<path class="ladder-mark" d="M34 ${y}H${seen.width}"/>
        <text class="ladder-text end" x="30" y=${y + 4}>${text}</text>`,
      )}
      <text class="ladder-text end" x="30" y="16">${t(measure === 'gear_inches' ? 'gears.picture.in' : 'gears.picture.m')}</text>
      ${seen.rails.map(
        ({ x, ring }) => svg`<text class="ladder-head" x=${x} y="16">${ring}</text>
        <path class="ladder-rail" d="M${x - HALF} ${HEAD}V${seen.height}M${x + HALF} ${HEAD}V${seen.height}"/>`,
      )}
      ${seen.rungs.map(rung)}
    </svg>
    <figcaption class="soft small">${t(seen.leans ? 'gears.picture.caption' : 'gears.picture.caption.straight', { times: STEEPER })}</figcaption>
  </figure>`;
}

/** @param {import('./geometry.js').Rung} rung */
function rung({ x, y, lift, gear, same }) {
  return svg`<path class=${same ? 'ladder-rung same' : 'ladder-rung'} d="M${x - HALF} ${y + lift}L${x + HALF} ${y - lift}"/>
    <text class="ladder-text" x=${x + HALF + 4} y=${y + 4}>${gear.sprocket}</text>`;
}
