/** Distances ridden, as the screens write and read them. */
import { t } from '../words/t.js';

/** @typedef {import('../data/settings.js').Settings['units']} Units */

/** One statute mile in km, exact by definition. */
const KM_PER_MILE = 1.609344;

/** @param {Units} units @returns {number} km in the unit of this setting */
export function kmPerUnit(units) {
  return units === 'imperial' ? KM_PER_MILE : 1;
}

/**
 * @param {number} km
 * @param {Units} units
 * @returns {string} whole units, thousands set apart: "1 240 km"
 */
export function far(km, units) {
  const n = figure(km, units);
  return t(units === 'imperial' ? 'far.mi' : 'far.km', { n });
}

/** @param {number} km @param {Units} units @returns {string} the same without its unit */
export function figure(km, units) {
  return grouped(Math.round(km / kmPerUnit(units)));
}

/**
 * A forecast in km is no surer than two figures, so it is written with two.
 * @param {number} km
 * @param {Units} units
 * @returns {string}
 */
export function about(km, units) {
  const per = kmPerUnit(units);
  return far(Number((km / per).toPrecision(2)) * per, units);
}

/**
 * Rounded down, for a distance that is not to be gone past.
 * @param {number} km
 * @param {Units} units
 * @returns {string}
 */
export function within(km, units) {
  const per = kmPerUnit(units);
  const value = km / per;
  const step = 10 ** Math.max(0, Math.floor(Math.log10(Math.max(value, 1))) - 1);
  return far(Math.floor(value / step) * step * per, units);
}

/** @param {number} whole */
function grouped(whole) {
  return String(whole)
    .replace('-', '−')
    .replace(/\B(?=(\d{3})+(?!\d))/g, '\u202f');
}

/**
 * @param {string} text as typed: "1240", "1 240,5", "1240.5"
 * @param {Units} units of a bare number
 * @returns {number|null} km; null when empty, NaN when it is not a distance
 */
export function readFar(text, units) {
  const bare = text.replace(/[\s\u202f]/g, '');
  if (!bare) return null;
  const match = /^(\d+(?:[.,]\d+)?)(km|mi)?$/i.exec(bare);
  if (!match) return NaN;
  const [, number, unit] = match;
  const per = unit ? (unit.toLowerCase() === 'mi' ? KM_PER_MILE : 1) : kmPerUnit(units);
  return Number(number.replace(',', '.')) * per;
}
