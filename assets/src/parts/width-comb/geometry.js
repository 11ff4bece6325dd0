/**
 * Where things stand on the width comb: one row a family, a shared scale of
 * outer widths, the reading across all rows. Units of the drawing are its own.
 */

/** Width of the drawing, where the scale begins and ends, and one row's height. */
export const WIDTH = 320;
const LEFT = 62;
const RIGHT = 272;
export const ROW = 24;
export const TOP = 26;

/**
 * @typedef {{class: string, name: string, outer_width_mm: [number, number], probability: number}} Family
 * @typedef {{reading_mm: number|null, interval95_mm: [number, number]|null, families: Family[]}} Comb
 * @typedef {{x: number, y: number, width: number, family: Family}} Tooth
 * @typedef {{height: number, teeth: Tooth[], marks: {x: number, text: string}[], reading: {x: number, off: -1|0|1}|null,
 *   band: {x: number, width: number}|null}} View
 */

/**
 * @param {Comb} comb
 * @returns {View}
 */
export function view({ reading_mm, interval95_mm, families }) {
  const lo = Math.floor(Math.min(...families.map((family) => family.outer_width_mm[0])) - 0.3);
  const hi = Math.ceil(Math.max(...families.map((family) => family.outer_width_mm[1])));
  const x = (/** @type {number} */ mm) => LEFT + ((RIGHT - LEFT) * (mm - lo)) / (hi - lo);
  const clamp = (/** @type {number} */ at) => Math.min(Math.max(at, LEFT), RIGHT);
  return {
    height: TOP + ROW * families.length + 6,
    teeth: families.map((family, row) => ({
      x: x(family.outer_width_mm[0]),
      width: x(family.outer_width_mm[1]) - x(family.outer_width_mm[0]),
      y: TOP + ROW * row,
      family,
    })),
    marks: Array.from({ length: hi - lo + 1 }, (_, i) => ({ x: x(lo + i), text: i % 2 ? '' : String(lo + i) })),
    reading:
      reading_mm === null ? null : { x: clamp(x(reading_mm)), off: reading_mm < lo ? -1 : reading_mm > hi ? 1 : 0 },
    band: interval95_mm && {
      x: clamp(x(interval95_mm[0])),
      width: clamp(x(interval95_mm[1])) - clamp(x(interval95_mm[0])),
    },
  };
}
