/** Sums of money as people write them; records hold whole minor units (ISO 4217). */
import { localised } from '../words/numbers.js';

/** @param {string} currency @returns {number} digits after the point: 2 for EUR, 0 for JPY */
export function digits(currency) {
  try {
    return Number(new Intl.NumberFormat('en', { style: 'currency', currency }).resolvedOptions().maximumFractionDigits);
  } catch {
    return 2;
  }
}

/** @param {number} minor @param {string} currency @returns {string} "35.00 EUR" */
export function money(minor, currency) {
  return `${amount(minor, currency)}\u00a0${currency}`;
}

/** @param {number} minor @param {string} currency @returns {string} the same without the currency, as it is typed */
export function amount(minor, currency) {
  const after = digits(currency);
  return localised((minor / 10 ** after).toFixed(after));
}

/**
 * @param {string} text as typed: "35", "35,50", "1 200.00"
 * @param {string} currency
 * @returns {number|null} minor units; null when empty, NaN when it is no sum of that currency
 */
export function readMoney(text, currency) {
  const bare = text.replace(/[\s\u202f\u00a0]/g, '');
  if (!bare) return null;
  const match = /^(\d{1,9})(?:[.,](\d+))?$/.exec(bare);
  const after = digits(currency);
  if (!match || (match[2]?.length ?? 0) > after) return NaN;
  return Number(match[1]) * 10 ** after + Number((match[2] ?? '').padEnd(after, '0') || 0);
}
