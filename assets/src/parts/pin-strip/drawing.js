/**
 * The drawing of the pin strip: rule or gauge ends above, the chain's end below.
 * The pin is the shape of the verdict and moves with the value; the limit stands
 * still; the 95 % range is a soft band.
 */
import { html, nothing, svg } from 'lit';
import { guard } from 'lit/directives/guard.js';
import { language } from '../../words/language.js';
import { exact } from '../../words/numbers.js';
import { t } from '../../words/t.js';
import { shape } from '../verdict-shape.js';
import { EDGE, HEIGHT, WIDTH, clamp } from './geometry.js';

/**
 * @typedef {import('./geometry.js').View} View
 * @typedef {import('../../data/draft.js').Step} End
 * @typedef {import('./geometry.js').Frame & {mm: number|null, band: [number, number]|null,
 *   others: number[], ends: End[], still: boolean, verdict: import('../verdict-shape.js').Verdict|'none', text: string}} Model
 *   mm: where the pin is, null before any reading; band: percent; others: mm at
 *   the other places; ends: those of a gauge, else empty; still: a picture, not a slider; text: the value in words
 */

const RULE_EDGE = 12;
const PIN_Y = 23.5;
const PIN_R = 7.5;
const AXIS = 35;

/** @param {Model} model @param {View} seen */
export function drawing(model, seen) {
  return html`<div class="strip-sheet" aria-hidden="true">
    <svg viewBox="0 0 ${WIDTH} ${HEIGHT}">
      ${band(model, seen)} ${guard(stands(model), () => paper(model, seen))}
      ${model.others.map((mm) => other(clamp(seen.x(mm)).x))}
    </svg>
    ${chainEnd(model, clamp(seen.x(model.mm ?? model.nominal)))}
  </div>`;
}

/**
 * A layer of its own that the value pushes along, so that a nudge paints nothing
 * anew. Its box is as wide as the pin may come near an edge; the plate reaches out of it.
 * @param {Model} model @param {{x: number, off: number}} pin
 */
function chainEnd({ mm, verdict }, { x, off }) {
  return html`<svg class="strip-chain" viewBox="${-EDGE} 0 ${2 * EDGE} ${HEIGHT}"
    .style=${`transform: translateX(${(50 * (x - EDGE)) / EDGE}%)`}>${link}${mm === null ? nothing : hair(off)}
    <g transform="translate(${-PIN_R} ${PIN_Y - PIN_R}) scale(${PIN_R / 12})">
      <circle class="strip-pin" cx="12" cy="12" r="11.5"/>${shape(verdict)}
    </g>
  </svg>`;
}

/** What stands still while the pin moves depends on nothing but these. @param {Model} model */
function stands({ nominal, bias, length, limit, marks, ends }) {
  return [nominal, bias, length, limit, marks, ends, language()];
}

/** @param {Model} model @param {View} seen */
function paper(model, seen) {
  return svg`${limit(model, seen)} ${rule(model, seen)} ${axis(model, seen)} ${ghost(seen.at(0))}`;
}

/** A gauge has ends in place of marks. @param {Model} model @param {View} seen */
function rule({ ends, nominal, length }, seen) {
  const place = (/** @type {number} */ percent) => seen.x(nominal + (length * percent) / 100);
  return svg`<rect class="strip-rule" x="-1" y="0.2" width=${WIDTH + 2} height=${RULE_EDGE - 0.2}/>
    ${ends.length ? ends.map((one) => end(place(one.percent), one)) : seen.ticks.map(tick)}`;
}

/** @param {import('./geometry.js').Tick} mark */
function tick({ x, level, text }) {
  return svg`<path class="strip-tick" d="M${x} ${RULE_EDGE}v${-[6.5, 4.8, 3.8, 3, 2.4, 1.8][Math.min(level, 5)]}"/>
    ${text ? svg`<text class=${level ? 'strip-text' : 'strip-text strong'} x=${x} y="4.6">${text}</text>` : nothing}`;
}

/** An end that dropped is a full wedge, one that did not an empty one. @param {number} x @param {End} one */
function end(x, { percent, drops }) {
  const look = drops === null ? 'untried' : drops ? 'dropped' : 'stayed';
  return svg`<path class="strip-end ${look}" d="M${x - 2.2} ${RULE_EDGE - 6.2}h4.4l-2.2 5.6z"/>
    <text class="strip-text ${drops === null ? '' : 'strong'}" x=${x} y="4.6">${exact(percent)}</text>`;
}

/** @param {Model} model @param {View} seen */
function axis(model, seen) {
  const at = seen.at(model.limit);
  return svg`<path class="strip-tick" d="M0 ${AXIS}H${WIDTH}"/>
    ${seen.percents.map(
      ({ x, text }) => svg`<path class="strip-tick" d="M${x} ${AXIS}v1.6"/>
      <text class="strip-text" x=${x} y=${AXIS + 5.6}>${text}</text>`,
    )}
    <text class="strip-text left strong" x=${at - 4} y=${AXIS + 5.6}>${t('strip.limit', { percent: model.limit })}</text>`;
}

/** @param {Model} model @param {View} seen */
function limit(model, seen) {
  const x = seen.at(model.limit);
  return svg`<rect class="strip-beyond" x=${x} y=${RULE_EDGE} width=${Math.max(0, WIDTH - x)} height=${AXIS - RULE_EDGE}/>
    <path class="strip-limit" d="M${x} ${RULE_EDGE}V${AXIS + 1.5}"/>`;
}

/** @param {Model} model @param {View} seen */
function band(model, seen) {
  if (!model.band) return nothing;
  const [from, to] = model.band.map((percent) => Math.min(Math.max(seen.at(percent), -1), WIDTH + 1));
  return svg`<defs><linearGradient id="strip-soft">
      <stop class="stop-none" offset="0"/><stop class="stop-half" offset="0.25"/><stop class="stop-full" offset="0.5"/>
      <stop class="stop-half" offset="0.75"/><stop class="stop-none" offset="1"/>
    </linearGradient></defs>
    <rect fill="url(#strip-soft)" x=${from} y=${RULE_EDGE} width=${Math.max(0, to - from)} height=${AXIS - RULE_EDGE}/>
    <path class="strip-range" d="M${from} ${AXIS - 2}v2M${to} ${AXIS - 2}v2M${from} ${AXIS - 0.4}H${to}"/>`;
}

/** The outer plate that ends in the pin, with the pin at 0. */
const link = svg`<path class="strip-plate" d="M${-WIDTH} ${PIN_Y - 5}H-12
  C-8 ${PIN_Y - 5} -7 ${PIN_Y - 9.8} 0 ${PIN_Y - 9.8}a9.8 9.8 0 0 1 0 19.6
  C-7 ${PIN_Y + 9.8} -8 ${PIN_Y + 5} -12 ${PIN_Y + 5}H${-WIDTH}z"/>`;

/** Where a chain of nominal length would end. @param {number} x */
function ghost(x) {
  return svg`<path class="strip-new" d="M${x} ${RULE_EDGE}V${AXIS + 1.6}"/>
    <text class="strip-text" x=${x - 1} y=${AXIS + 5.6}>${t('strip.new')}</text>`;
}

/** Another place's reading. @param {number} x */
function other(x) {
  return svg`<path class="strip-other" d="M${x} ${RULE_EDGE + 0.3}l-1.6 2.6h3.2z"/>`;
}

/** From the pin to the rule, with an arrow when it is off the paper. @param {number} off past which edge, -1 or 1 */
function hair(off) {
  if (off) return svg`<path class="strip-off" d="M${off * 1.5} 8.5l${off * 3} 1.7l${-off * 3} 1.7z"/>`;
  return svg`<path class="strip-hair" d="M0 6V${PIN_Y - PIN_R}"/>`;
}
