/**
 * The ladder of gears: one pair of rails a chainring, rungs by their height on a
 * scale where equal gaps are equal steps. Units of the drawing are its own.
 */
import { exact } from '../../words/numbers.js';

/**
 * @typedef {{ring: number, sprocket: number, development_m: number, gear_inches: number,
 *   chain_angle_deg: number|null, duplicate_of: {ring: number, sprocket: number}|null}} Gear
 * @typedef {{x: number, y: number, lift: number, gear: Gear, same: boolean}} Rung lift: half of what it leans by
 * @typedef {{width: number, height: number, rails: {x: number, ring: number}[], rungs: Rung[],
 *   marks: {y: number, text: string}[], leans: boolean}} View
 */

/** Half a rung, the space a rung needs, the head above the rails, room for the scale and between ladders. */
export const HALF = 24;
const SPACE = 15;
export const HEAD = 26;
const LEFT = 44;
const PACE = 88;
const FOOT = 14;

/** One ladder alone is not drawn larger than two. */
const LEAST_WIDTH = 220;

/** Angles are drawn so many times as steep, or they would not be seen. */
export const STEEPER = 5;

/** Scale marks a decade, in metres or inches. */
const TENS = [1, 1.5, 2, 3, 4, 5, 6, 7, 8, 9];

/**
 * @param {Gear[]} gears lowest first
 * @param {'development_m'|'gear_inches'} measure
 * @returns {View}
 */
export function view(gears, measure) {
  const rings = [...new Set(gears.map(({ ring }) => ring))].sort((a, b) => a - b);
  const [low, high] = [gears[0][measure], gears[gears.length - 1][measure]];
  const per = SPACE / closest(gears, measure);
  const y = (/** @type {number} */ value) => HEAD + 12 + per * Math.log(high / value);
  const x = (/** @type {number} */ ring) => LEFT + PACE * rings.indexOf(ring) + PACE / 2;
  return {
    width: Math.max(LEFT + PACE * rings.length, LEAST_WIDTH) + 8,
    height: y(low) + FOOT,
    rails: rings.map((ring) => ({ x: x(ring), ring })),
    rungs: gears.map((gear) => ({
      x: x(gear.ring),
      y: y(gear[measure]),
      gear,
      same: gear.duplicate_of !== null,
      lift: HALF * Math.tan((STEEPER * (gear.chain_angle_deg ?? 0) * Math.PI) / 180),
    })),
    marks: scale(low, high).map((value) => ({ y: y(value), text: exact(value) })),
    leans: gears.some(({ chain_angle_deg }) => (chain_angle_deg ?? 0) > 0),
  };
}

/**
 * The smallest step within a chainring, as a logarithm; not so small that the
 * ladder grows without end.
 * @param {Gear[]} gears
 * @param {'development_m'|'gear_inches'} measure
 */
function closest(gears, measure) {
  const steps = gears.flatMap((gear) => {
    const next = gears.find((one) => one.ring === gear.ring && one[measure] > gear[measure]);
    return next ? [Math.log(next[measure] / gear[measure])] : [];
  });
  return Math.max(Math.min(...steps, 0.2), 0.03);
}

/** @param {number} low @param {number} high @returns {number[]} round values between, both included */
function scale(low, high) {
  const all = [];
  for (let ten = 10 ** Math.floor(Math.log10(low)); ten <= high; ten *= 10) {
    for (const mark of TENS) {
      const value = Number((mark * ten).toPrecision(3));
      if (value >= low && value <= high) all.push(value);
    }
  }
  return all;
}
