/**
 * Lengths on an instrument's own marks: nudging from mark to mark and writing
 * the value the way the instrument shows it. The engine reads what people type;
 * here only marks are counted.
 */
import { localised } from '../words/numbers.js';

/**
 * @typedef {'in16'|'in32'|'mm1'|'mm05'|'mm01'|'mm001'} MarkName
 * @typedef {{unit: 'in'|'mm', per: number}} Mark marks per unit
 */

/** @type {Record<MarkName, Mark>} */
export const MARKS = {
  in16: { unit: 'in', per: 16 },
  in32: { unit: 'in', per: 32 },
  mm1: { unit: 'mm', per: 1 },
  mm05: { unit: 'mm', per: 2 },
  mm01: { unit: 'mm', per: 10 },
  mm001: { unit: 'mm', per: 100 },
};

/** One inch, exact by definition. */
export const MM_PER_INCH = 25.4;

/** Pitch of an ordinary cycle chain, 1/2 in exactly (ISO 9633, ISO 606). */
export const PITCH_MM = 12.7;

/**
 * @param {MarkName} name
 * @returns {number} distance from mark to mark, mm
 */
export function stepMM(name) {
  const { unit, per } = MARKS[name];
  return (unit === 'in' ? MM_PER_INCH : 1) / per;
}

/**
 * Moves a length by whole marks. A length between two marks goes to the next
 * mark in that direction first, with 0 steps to the nearest.
 * @param {number} mm
 * @param {MarkName} name
 * @param {number} steps whole number, negative for less
 * @returns {number} mm, exactly on a mark
 */
export function nudge(mm, name, steps) {
  const at = mm / stepMM(name);
  const near = Math.round(at);
  if (steps === 0 || Math.abs(at - near) < 1e-6) return fromMarks(near + steps, name);
  return fromMarks((steps > 0 ? Math.floor(at) : Math.ceil(at)) + steps, name);
}

/**
 * @param {number} count marks from zero
 * @param {MarkName} name
 * @returns {number} mm
 */
export function fromMarks(count, name) {
  const { unit, per } = MARKS[name];
  return unit === 'in' ? (count * MM_PER_INCH) / per : count / per;
}

/**
 * Writes a length with its unit: "12 1/16 in" where it lies on an inch mark,
 * else decimals: "12.063 in", "306.5 mm".
 * @param {number} mm
 * @param {MarkName} name
 * @returns {string}
 */
export function show(mm, name) {
  const { unit, per } = MARKS[name];
  if (unit === 'mm') return `${trim(mm, per > 10 ? 2 : 1)} mm`;
  const count = Math.round((mm / MM_PER_INCH) * per);
  if (Math.abs(fromMarks(count, name) - mm) > 1e-6) return `${trim(mm / MM_PER_INCH, 3)} in`;
  return `${fraction(count, per)} in`;
}

/**
 * @param {number} count
 * @param {number} per a power of two
 * @returns {string} "12", "12 1/16" or "1/16"
 */
export function fraction(count, per) {
  const sign = count < 0 ? '−' : '';
  let top = Math.abs(count) % per;
  const whole = (Math.abs(count) - top) / per;
  let bottom = per;
  while (top > 0 && top % 2 === 0) {
    top /= 2;
    bottom /= 2;
  }
  const part = top ? `${top}/${bottom}` : '';
  if (!whole) return sign + (part || '0');
  return sign + (part ? `${whole} ${part}` : `${whole}`);
}

/**
 * Reads a plain length, for the few fields the engine takes in mm only.
 * @param {string} text "1.5", "1,5 mm", "-0.5", "1/16 in"
 * @param {'in'|'mm'} bare unit of a number without one
 * @returns {number} mm, NaN when it is not a length
 */
export function read(text, bare) {
  const match = /^\s*([-−]?)(?:(\d+)[ -]+(?=\d+\/))?(\d+(?:[.,]\d+)?)(?:\/([1-9]\d*))?\s*(mm|cm|in|")?\s*$/i.exec(text);
  if (!match) return NaN;
  const [, sign, whole, top, bottom, unit] = match;
  const value = Number(whole ?? 0) + Number(top.replace(',', '.')) / Number(bottom ?? 1);
  const per = { mm: 1, cm: 10, in: MM_PER_INCH, '"': MM_PER_INCH }[(unit ?? bare).toLowerCase()];
  return (sign ? -1 : 1) * value * Number(per);
}

/** @param {number} value @param {number} decimals */
function trim(value, decimals) {
  const text = value.toFixed(decimals);
  return localised(text.includes('.') ? text.replace(/\.?0+$/, '') : text);
}
