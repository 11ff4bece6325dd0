/** Where things stand on a wear strip, in units of its drawing. */

/** The drawing's width; its left end is a new chain. */
export const WIDTH = 300;

/** The limit stands here, so that the limits of all bikes in a list stand in line. */
export const LIMIT_AT = 200;

/**
 * @typedef {{p05: number, p50: number, p95: number}} Now elongation, percent
 * @typedef {{from: number, to: number, pin: number, marks: number[]}} Strip
 */

/** @param {number} percent @param {number} limit percent @returns {number} within the drawing */
function at(percent, limit) {
  return Math.min(WIDTH, Math.max(0, (percent / limit) * LIMIT_AT));
}

/**
 * @param {Now} now
 * @param {number} limit percent, above 0
 * @returns {Strip} the band's ends, the pin, and a mark at each tenth of a percent
 */
export function strip({ p05, p50, p95 }, limit) {
  const marks = [];
  for (let tenth = 1; (tenth / 10 / limit) * LIMIT_AT < WIDTH; tenth++) marks.push(at(tenth / 10, limit));
  return { from: at(p05, limit), to: at(p95, limit), pin: at(p50, limit), marks };
}
