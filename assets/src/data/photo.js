/**
 * What lies on the chain in a photograph and shows the scale: how thick it is,
 * since its marks lie over the rivets, and of the printed frame its check line,
 * nominally 240 mm, as a steel rule reads it. A home printer is some percent off,
 * so there is no measuring without it.
 *
 * Budget of one reading (JCGM 100:2008): both ends to the nearest half
 * millimetre, 0.5/√6; the mean of n readings, that over √n; and a plain steel
 * rule within 0.1 mm, 0.1/√3 (common practice, no source).
 */
import { read } from './lengths.js';
import { keep, recall } from './local.js';

/** Nominal length of the check line, mm. */
export const LINE_MM = 240;

/** So many readings are asked for; one is the least. */
export const READINGS = 4;

const READ_MM = 0.5 / Math.sqrt(6);
const RULE_MM = 0.1 / Math.sqrt(3);

/** What a print with its card, and a steel rule, may be thick, mm; the nearest is near enough (common practice, no source). */
export const THICK = { frame: ['0.1', '0.3', '0.5', '1'], rule: ['0.5', '0.8', '1', '1.2'] };

/** Readings further apart than this are not of one line, mm. */
const WILD_MM = 1;

/** No printer is further off than this part. */
const MOST_OFF = 0.05;

/**
 * @typedef {{status: 'none'|'unreadable'|'far'|'wild'} | {status: 'ok', mm: number, standard_uncertainty: number}} Line
 * @typedef {{on: boolean, readings: string[], reference: 'frame'|'rule', thick: {frame: string, rule: string}}} PhotoKept
 *   readings: of the frame's check line as typed, mm; thick: of each, of THICK, empty while it is not known
 */

/** What is known of a picture while there is none. */
export const NO_PICTURE = {
  busy: false,
  picture: null,
  answer: null,
  fault: '',
  seen: false,
  taut: false,
  flat: false,
};

/** @param {string[]} readings as typed, empty where there is none @returns {Line} */
export function checkLine(readings) {
  const all = readings.filter((text) => text.trim()).map((text) => read(text, 'mm'));
  if (!all.length) return { status: 'none' };
  if (all.some(Number.isNaN)) return { status: 'unreadable' };
  if (all.some((mm) => Math.abs(mm / LINE_MM - 1) > MOST_OFF)) return { status: 'far' };
  if (Math.max(...all) - Math.min(...all) > WILD_MM) return { status: 'wild' };
  const mm = all.reduce((sum, one) => sum + one, 0) / all.length;
  return { status: 'ok', mm, standard_uncertainty: Math.hypot(READ_MM / Math.sqrt(all.length), RULE_MM) };
}

/** @param {PhotoKept} kept @returns {object|null} what is known of it, as the photo engine takes it; null: too little */
export function known({ reference, readings, thick }) {
  if (!thick[reference]) return null;
  const thickness_mm = Number(thick[reference]);
  if (reference === 'rule') return { reference, thickness_mm };
  const line = checkLine(readings);
  if (line.status !== 'ok') return null;
  return { thickness_mm, check_line_mm: line.mm, check_line_standard_uncertainty_mm: line.standard_uncertainty };
}

/** @returns {PhotoKept} */
export function recallPhoto() {
  /** @type {any} */
  const { on, readings, reference, thick } = recall('photo', { on: false, readings: [], reference: '', thick: {} });
  const one = (/** @type {'frame'|'rule'} */ of) => (THICK[of].includes(thick?.[of]) ? thick[of] : '');
  const texts = /** @type {unknown[]} */ (Array.isArray(readings) ? readings : []);
  return {
    on: on === true,
    readings: Array.from({ length: READINGS }, (_, i) => String(texts[i] ?? '')),
    reference: reference === 'rule' ? 'rule' : 'frame',
    thick: { frame: one('frame'), rule: one('rule') },
  };
}

/** @param {PhotoKept} kept @returns {import('./local.js').Trouble|null} */
export function keepPhoto({ on, readings, reference, thick }) {
  return keep('photo', { on, readings, reference, thick });
}
