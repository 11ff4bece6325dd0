/**
 * Lengths as typed into Fit's fields. The text stays as it was typed, together
 * with the unit that a bare number in it had, so that a later change of the
 * units setting never changes what it means.
 */
import { localised } from '../words/numbers.js';
import { MM_PER_INCH, nudge, read, show } from './lengths.js';

/**
 * @typedef {'mm'|'in'} Unit
 * @typedef {{text: string, unit: Unit}} Typed
 * @typedef {'frame'|'width'} Grain frame: whole millimetres or 1/16 in;
 *   width: what a caliper shows
 */

/** Steps of the width fields in mm: 0.05 mm, and 0.002 in. */
const WIDTH_STEP_MM = { mm: 0.05, in: 0.002 * MM_PER_INCH };

/** @param {import('./settings.js').Settings['units']} units @returns {Unit} of a bare number */
export function unitOf(units) {
  return units === 'imperial' ? 'in' : 'mm';
}

/** @param {Unit} unit @returns {Typed} nothing typed yet */
export function blank(unit) {
  return { text: '', unit };
}

/** @param {Typed} typed @returns {number|null} mm; null when empty, NaN when it is not a length */
export function lengthMM({ text, unit }) {
  return text.trim() ? read(text, unit) : null;
}

/**
 * @param {number} mm
 * @param {Grain} grain
 * @param {Unit} unit
 * @returns {string} with its unit, as the fields show it
 */
export function showLength(mm, grain, unit) {
  if (grain === 'frame') return show(mm, unit === 'in' ? 'in16' : 'mm1');
  const text = unit === 'in' ? (mm / MM_PER_INCH).toFixed(3) : mm.toFixed(2);
  return `${localised(text)} ${unit}`;
}

/** @param {number} mm @param {Grain} grain @param {Unit} unit @returns {Typed} */
export function typedFrom(mm, grain, unit) {
  return { text: showLength(mm, grain, unit), unit };
}

/**
 * @param {Typed} typed
 * @param {Grain} grain
 * @param {Unit} unit
 * @param {number} steps whole number, negative for less
 * @param {number} start mm, where an empty or unreadable field begins
 * @returns {Typed} moved by whole steps, never below zero
 */
export function stepped(typed, grain, unit, steps, start) {
  const mm = lengthMM(typed);
  const from = mm === null || Number.isNaN(mm) ? start : mm;
  return typedFrom(
    Math.max(
      0,
      grain === 'frame'
        ? nudge(from, unit === 'in' ? 'in16' : 'mm1', steps)
        : (Math.round(from / WIDTH_STEP_MM[unit]) + steps) * WIDTH_STEP_MM[unit],
    ),
    grain,
    unit,
  );
}
