/** Numbers as Fit writes them. */
import { MM_PER_INCH } from '../data/lengths.js';
import { fixed } from '../words/numbers.js';
import { t } from '../words/t.js';

/** @typedef {import('../data/settings.js').Settings['units']} Units */

/** One statute mile in km, exact by definition. */
const KM_PER_MILE = 1.609344;

/** @param {number} value @param {number} decimals @returns {string} with a true minus sign, never "−0" */
export function plain(value, decimals) {
  return fixed(value, decimals);
}

/** @param {number} value @param {number} decimals @returns {string} with its sign */
export function signed(value, decimals) {
  const text = plain(value, decimals);
  return /^−|^0([.,]0+)?$/.test(text) ? text : `+${text}`;
}

/** @param {number} probability 0 to 1 @returns {string} never a round 0 or 100 % */
export function share(probability) {
  if (probability < 0.01) return t('share.under');
  if (probability > 0.99) return t('share.over');
  return t('share.is', { percent: Math.round(100 * probability) });
}

/** @param {number} mm @param {Units} units @returns {string} to a tenth of a millimetre, or decimals of an inch */
export function length(mm, units) {
  return units === 'imperial' ? `${plain(mm / MM_PER_INCH, 2)} in` : `${plain(mm, 1)} mm`;
}

/** @param {number} kmh @param {Units} units @returns {string} without its unit */
export function speed(kmh, units) {
  return plain(units === 'imperial' ? kmh / KM_PER_MILE : kmh, 1);
}
