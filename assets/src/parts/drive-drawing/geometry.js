/**
 * The drive on paper, seen from its own side: sprocket left, chainring right,
 * front to the right. One unit of the drawing is one millimetre; every measure
 * is the engine's, here it is only put in place.
 */

/**
 * @typedef {{centre_mm: number, ring_radius_mm: number, sprocket_radius_mm: number, ring_wrap_deg: number,
 *   sprocket_wrap_deg: number, sag_mm: number}} Drawing
 * @typedef {{x: number, y: number, r: number}} Wheel
 * @typedef {{ring: Wheel, sprocket: Wheel, chain: string, low: {x: number, y: number}, taut: {x: number, y: number},
 *   box: {x: number, y: number, width: number, height: number}}} View
 *   chain: path of the whole loop; low: where it hangs lowest at mid-span; taut:
 *   the same place on a taut run
 */

/** Room round the drawing, mm. */
const MARGIN = 16;

/**
 * @param {Drawing} drawing
 * @returns {View}
 */
export function view({
  centre_mm,
  ring_radius_mm: R,
  sprocket_radius_mm: r,
  ring_wrap_deg,
  sprocket_wrap_deg,
  sag_mm,
}) {
  const lean = (((ring_wrap_deg - 180) / 2) * Math.PI) / 180;
  const [sin, cos] = [Math.sin(lean), Math.cos(lean)];
  /** Where a run leaves a wheel. @param {number} x @param {number} radius @param {1|-1} side 1 is below */
  const touch = (x, radius, side) => ({ x: x - radius * sin, y: side * radius * cos });
  const [upS, upR, lowR, lowS] = [touch(0, r, -1), touch(centre_mm, R, -1), touch(centre_mm, R, 1), touch(0, r, 1)];
  const taut = { x: (lowR.x + lowS.x) / 2, y: (lowR.y + lowS.y) / 2 };
  const low = { x: taut.x, y: taut.y + sag_mm };
  const deepest = Math.max(R, r, low.y);
  return {
    ring: { x: centre_mm, y: 0, r: R },
    sprocket: { x: 0, y: 0, r },
    chain: `M${at(upS)}L${at(upR)}${arc(R, ring_wrap_deg, lowR)}Q${n(taut.x)} ${n(taut.y + 2 * sag_mm)} ${at(lowS)}${arc(r, sprocket_wrap_deg, upS)}Z`,
    low,
    taut,
    box: {
      x: -r - MARGIN,
      y: -Math.max(R, r) - MARGIN,
      width: centre_mm + r + R + 2 * MARGIN,
      height: Math.max(R, r) + deepest + 2 * MARGIN,
    },
  };
}

/** @param {number} radius @param {number} wrap degrees @param {{x: number, y: number}} to */
function arc(radius, wrap, to) {
  return `A${n(radius)} ${n(radius)} 0 ${wrap > 180 ? 1 : 0} 1 ${at(to)}`;
}

/** @param {{x: number, y: number}} point */
function at({ x, y }) {
  return `${n(x)} ${n(y)}`;
}

/** @param {number} value */
function n(value) {
  return String(Math.round(value * 100) / 100);
}
