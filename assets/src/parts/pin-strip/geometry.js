/**
 * Where things stand on the pin strip: the far end of the measured span, drawn
 * at ten times life size where the limit fits, smaller where it does not, and
 * larger where it would stand too near to new.
 * Units of the drawing are millimetres on paper.
 */
import { exact } from '../../words/numbers.js';
import { MARKS, fraction, fromMarks, stepMM } from '../../data/lengths.js';

/** Width and height of the drawing, and where the nominal length stands. */
export const WIDTH = 86;
export const HEIGHT = 43;
/** So near to an edge a pin comes at most. */
export const EDGE = 5;
const NOMINAL_X = 15;
/** Room the limit's own label takes to its right. */
const LABEL = 25;
/** Room from new to the limit, for the labels below. */
const APART = 10;
const LARGER = [20, 40];
const SCALES = [10, 5, 2, 1, 0.5, 0.2, 0.1];

/**
 * @typedef {{nominal: number, bias: number, length: number, limit: number, marks: import('../../data/lengths.js').MarkName}} Frame
 *   nominal: what the instrument should show on a new chain, mm; bias: what it
 *   adds to every reading, percent; length: pitches times pitch, mm; limit: percent
 * @typedef {{x: number, level: number, text: string}} Tick level 0 is the longest
 * @typedef {{scale: number, x: (mm: number) => number, at: (percent: number) => number, ticks: Tick[],
 *   percents: {x: number, text: string}[]}} View marks and percentages are worked out when asked for
 */

/**
 * @param {Frame} frame
 * @returns {View}
 */
export function view(frame) {
  const { nominal, bias, length, limit } = frame;
  const reach = (length * Math.max(1.6 * limit, limit + 0.4)) / 100;
  const fits = (/** @type {number} */ one) => NOMINAL_X + one * reach <= WIDTH - 4;
  const apart = (/** @type {number} */ one) => (one * length * limit) / 100 >= APART;
  const largest = SCALES.find(fits) ?? 0.1;
  const scale = (!apart(largest) && LARGER.find((one) => fits(one) && apart(one))) || largest;
  const x = (/** @type {number} */ mm) => NOMINAL_X + (mm - nominal) * scale;
  const at = (/** @type {number} */ percent) => x(nominal + (length * (percent + bias)) / 100);
  return {
    scale,
    x,
    at,
    get ticks() {
      return ticks(frame, scale, x);
    },
    get percents() {
      return percents(frame, at);
    },
  };
}

/**
 * @param {Frame} frame
 * @param {number} scale
 * @param {(mm: number) => number} x
 * @returns {Tick[]}
 */
function ticks({ nominal, marks }, scale, x) {
  const { unit, per } = MARKS[marks];
  const skip = stride(stepMM(marks) * scale, 1.2, MARKS[marks]);
  const first = Math.ceil((nominal - NOMINAL_X / scale) / stepMM(marks) / skip) * skip;
  const last = Math.floor((nominal + (WIDTH - NOMINAL_X) / scale) / stepMM(marks));
  const pace = stepMM(marks) * scale;
  const near = stride(pace, unit === 'in' ? 13 : 9, MARKS[marks]);
  const every = near % per === 0 ? near : stride(pace, 13, MARKS[marks]);
  const all = [];
  for (let count = first; count <= last; count += skip) {
    const at = x(fromMarks(count, marks));
    const text = count % every === 0 && at > 4 && at < WIDTH - 4 ? label(count, per, unit) : '';
    all.push({ x: at, level: level(count, per, unit), text });
  }
  return all;
}

/**
 * @param {number} pace drawing units from mark to mark
 * @param {number} least drawing units wanted
 * @param {import('../../data/lengths.js').Mark} mark
 * @returns {number} how many marks to take at a time: halvings of an inch, or
 *   the decimal steps of a millimetre
 */
function stride(pace, least, { unit, per }) {
  const natural = unit === 'in' ? [1, 2, 4, 8, 16, 32, 64] : [1, 2, 5, 10, 20, 50, 100, 200].map((one) => one * per);
  const fine = unit === 'mm' && per > 2 ? [1, per / 2] : [1];
  return [...fine, ...natural].find((one) => one * pace >= least) ?? natural[natural.length - 1];
}

/**
 * Inch marks get shorter with each halving; millimetres have whole and part.
 * @param {number} count @param {number} per @param {'in'|'mm'} unit
 */
function level(count, per, unit) {
  if (count % per === 0) return 0;
  if (unit === 'mm') return count % (per / 2) === 0 ? 1 : 2;
  let depth = 1;
  for (let half = per / 2; count % half !== 0; half /= 2) depth += 1;
  return depth;
}

/**
 * Whole inches in full, the rest as the fraction past them.
 * @param {number} count @param {number} per @param {'in'|'mm'} unit
 */
function label(count, per, unit) {
  if (unit === 'mm') return String(count / per).replace('-', '−');
  const rest = ((count % per) + per) % per;
  return rest && count > 0 ? fraction(rest, per) : fraction(count, per);
}

/**
 * @param {Frame} frame
 * @param {(percent: number) => number} at
 */
function percents({ length, limit }, at) {
  const pace = at(1) - at(0);
  const every = [0.25, 0.5, 1, 2].find((one) => one * pace >= 9) ?? 2;
  const all = [];
  for (let percent = every; at(percent) < WIDTH - 3 && length > 0; percent += every) {
    const past = at(percent) - at(limit);
    if (past > LABEL || (past < -8 && at(percent) - at(0) > 8)) all.push({ x: at(percent), text: exact(percent) });
  }
  return all;
}

/**
 * Keeps a position on the paper.
 * @param {number} x
 * @returns {{x: number, off: -1|0|1}} off says past which edge it would be
 */
export function clamp(x) {
  if (x < EDGE) return { x: EDGE, off: -1 };
  if (x > WIDTH - EDGE) return { x: WIDTH - EDGE, off: 1 };
  return { x, off: 0 };
}
