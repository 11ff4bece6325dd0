/** Numbers as Fit writes them. */
import { MM_PER_INCH } from '../data/lengths.js';
import { fixed } from '../words/numbers.js';
import { t } from '../words/t.js';
import { kmPerUnit } from './distances.js';

/** @typedef {import('../data/settings.js').Settings['units']} Units */

/** @param {number} probability 0 to 1 @returns {string} never a round 0 or 100 % */
export function share(probability) {
  if (probability < 0.01) return t('share.under');
  if (probability > 0.99) return t('share.over');
  return t('share.is', { percent: Math.round(100 * probability) });
}

/** @param {number} mm @param {Units} units @returns {string} to a tenth of a millimetre, or decimals of an inch */
export function length(mm, units) {
  return units === 'imperial' ? `${fixed(mm / MM_PER_INCH, 2)} in` : `${fixed(mm, 1)} mm`;
}

/** @param {number} kmh @param {Units} units @returns {string} without its unit */
export function speed(kmh, units) {
  return fixed(kmh / kmPerUnit(units), 1);
}
