/**
 * Where things stand on the wear fan: elongation upward, distance since the
 * chain was new to the right. Everything is taken from one answer of the
 * calculation `forecast`. Units of the drawing are its own.
 */
import { kmPerUnit } from '../distances.js';

export const WIDTH = 360;
export const HEIGHT = 250;
/** The paper the curves are drawn on. */
export const PAPER = { x: 40, y: 30, width: 308, height: 184 };

/** The least share of the width that is to come; what lies too far back is left out. */
const AHEAD = 1 / 12;
/** The paper reaches so many limits up, further when the chain is there already. */
const UP = 1.5;
const MOST_UP = 3;
/** Where it begins when something reads shorter than new, in limits. */
const DOWN = 0.3;

/**
 * @typedef {{at_km: number, percent: number|null, low_percent: number|null, high_percent: number|null}} Mark
 * @typedef {{p05: number, p25: number, p50: number, p75: number, p95: number}} Quantiles
 * @typedef {{index: number, why: string, why_code: string, slip: string, fits_entered: number|null,
 *   fits_percent: number|null, others_low_percent: number, others_high_percent: number}} Aside
 * @typedef {{limit_percent: number, elongation_now_percent: Quantiles, km_to_limit: Quantiles,
 *   rate_percent_per_1000_km: Quantiles, probability_past_limit_now: number, check_again_in_km: number,
 *   check_again_in_days: number|null, set_aside: Aside[], curve: {km: number, p05: number, p50: number, p95: number}[],
 *   marks: Mark[], earlier_chains: {marks: Mark[]}[], notes: string[], note_codes: {code: string}[],
 *   cautions: string[]}} Forecast
 * @typedef {{x: number, y: number|null, top: number, bottom: number, openTop: boolean, openBottom: boolean,
 *   aside: boolean, off: -1|0|1}} Pin y is null for a gauge; off: beyond the paper, 1 above
 * @typedef {{at: number, text: string}} Tick
 * @typedef {{band: string, low: string, middle: string, high: string, limit: number, now: number, check: number,
 *   pins: Pin[], earlier: {line: string, pins: Pin[]}[], hidden: number, begins: boolean, across: Tick[], up: Tick[]}} View
 *   hidden: readings further back than the paper; begins: it does so at zero
 */

/**
 * @param {Forecast} forecast
 * @param {import('../distances.js').Units} units
 * @returns {View}
 */
export function view(forecast, units) {
  const { curve, marks, earlier_chains, limit_percent, check_again_in_km } = forecast;
  const [from, to] = [beginning(curve), curve[curve.length - 1].km];
  const [bottom, top] = heights(forecast);
  const x = (/** @type {number} */ km) => PAPER.x + (PAPER.width * (km - from)) / (to - from);
  const y = (/** @type {number} */ percent) => PAPER.y + (PAPER.height * (top - percent)) / (top - bottom);
  const line = (/** @type {'p05'|'p50'|'p95'} */ name) => curve.map((one) => point(x(one.km), y(one[name])));
  const [low, high] = [line('p05'), line('p95')];
  const aside = new Set(forecast.set_aside.map(({ index }) => index));
  const seen = (/** @type {Mark} */ mark) => mark.at_km >= from;
  const shown = marks.map((mark, i) => ({ mark, aside: aside.has(i) })).filter(({ mark }) => seen(mark));
  return {
    band: [...low, ...high.toReversed()].join(' '),
    low: low.join(' '),
    middle: line('p50').join(' '),
    high: high.join(' '),
    limit: y(limit_percent),
    now: x(curve[0].km),
    check: Math.min(x(curve[0].km + check_again_in_km), PAPER.x + PAPER.width),
    pins: shown.map((one) => pin(one.mark, x, y, one.aside)),
    earlier: earlier_chains.map((one) => chain(one.marks, from, to, x, y)),
    hidden: marks.length - shown.length,
    begins: from === 0,
    across: ticks(from / kmPerUnit(units), to / kmPerUnit(units), 4).map((value) => ({
      at: x(value * kmPerUnit(units)),
      text: String(value),
    })),
    up: ticks(bottom, top, 4).map((value) => ({ at: y(value), text: String(value) })),
  };
}

/** @param {Forecast['curve']} curve @returns {number} km at the left edge */
function beginning(curve) {
  const [now, end] = [curve[0].km, curve[curve.length - 1].km];
  const from = end - (end - now) / AHEAD;
  return from > 0 ? from : 0;
}

/** @param {Forecast} forecast @returns {[bottom: number, top: number]} percent */
function heights({ limit_percent: limit, curve, marks, set_aside }) {
  const aside = new Set(set_aside.map(({ index }) => index));
  const values = marks.flatMap(({ percent, low_percent, high_percent }, i) =>
    aside.has(i) ? [] : [percent, low_percent, high_percent].filter((value) => value !== null),
  );
  const most = Math.max(...values, curve[0].p95, curve[curve.length - 1].p50);
  const top = Math.min(Math.max(UP * limit, 1.08 * most), MOST_UP * limit);
  const least = Math.min(...values, 0);
  return [least < 0 ? Math.max(1.1 * least, -DOWN * limit) : 0, Math.max(top, 1.15 * curve[0].p50)];
}

/** @param {number} x @param {number} y */
function point(x, y) {
  return `${round(x)},${round(y)}`;
}

/** A hundredth of a unit is a twentieth of a millimetre at most. @param {number} value */
function round(value) {
  return Math.round(value * 100) / 100;
}

/**
 * @param {Mark} mark
 * @param {(km: number) => number} x
 * @param {(percent: number) => number} y
 * @param {boolean} aside
 * @returns {Pin}
 */
function pin({ at_km, percent, low_percent, high_percent }, x, y, aside) {
  const [top, bottom] = [PAPER.y, PAPER.y + PAPER.height];
  const here = percent === null ? null : y(percent);
  const middle = here ?? y(((low_percent ?? high_percent ?? 0) + (high_percent ?? low_percent ?? 0)) / 2);
  return {
    x: x(at_km),
    y: here,
    top: high_percent === null ? top : Math.max(y(high_percent), top),
    bottom: low_percent === null ? bottom : Math.min(y(low_percent), bottom),
    openTop: high_percent === null,
    openBottom: low_percent === null,
    aside,
    off: middle < top ? 1 : middle > bottom ? -1 : 0,
  };
}

/**
 * An earlier chain, joined from reading to reading where they are values.
 * @param {Mark[]} marks
 * @param {number} from
 * @param {number} to
 * @param {(km: number) => number} x
 * @param {(percent: number) => number} y
 */
function chain(marks, from, to, x, y) {
  const ordered = [...marks].sort((a, b) => a.at_km - b.at_km);
  const values = ordered.filter(({ percent }) => percent !== null);
  return {
    line: values.map(({ at_km, percent }) => point(x(at_km), y(Number(percent)))).join(' '),
    pins: ordered
      .filter(({ at_km }) => at_km >= from && at_km <= to)
      .map((mark) => pin(mark, x, y, false))
      .filter(({ off }) => !off),
  };
}

/**
 * @param {number} from
 * @param {number} to
 * @param {number} about how many are wanted
 * @returns {number[]} round values between, both included
 */
export function ticks(from, to, about) {
  const rough = (to - from) / about;
  const ten = 10 ** Math.floor(Math.log10(rough));
  const step = [1, 2, 2.5, 5, 10].map((n) => n * ten).find((one) => one >= rough * 0.999) ?? 10 * ten;
  const all = [];
  for (let n = Math.ceil(from / step - 1e-9); n * step <= to * (1 + 1e-9); n++) {
    all.push(Number((n * step).toPrecision(6)));
  }
  return all;
}
