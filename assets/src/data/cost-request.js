/** From prices as typed to a request for the calculation cost, and to the prices' record. */
import { readMoney } from '../parts/money.js';

/**
 * @typedef {Record<string, any>} Fields
 * @typedef {{currency: string, chain: string, sprockets: string, chainring: string}} Prices as typed
 */

const PARTS = /** @type {const} */ (['chain', 'sprockets', 'chainring']);

/** Limits that are compared, percent, the bike's own beside them. */
const LIMITS = [0.5, 0.75, 1];

/**
 * @param {Prices} prices
 * @returns {{put: Fields, missing: string[], unreadable: string[]}} what the record takes, and what stands in the
 *   way of working it out
 */
export function readPrices(prices) {
  const currency = prices.currency.trim().toUpperCase();
  /** @type {Fields} */
  const put = { currency };
  const unreadable = /^[A-Z]{3}$/.test(currency) ? [] : ['currency'];
  /** @type {string[]} */
  const missing = [];
  for (const part of PARTS) {
    const minor = readMoney(prices[part], currency);
    if (minor === null || (minor === 0 && part === 'chain')) missing.push(part);
    if (Number.isNaN(minor)) unreadable.push(part);
    put[part] = Number.isNaN(minor) ? null : minor;
  }
  return { put, missing, unreadable };
}

/**
 * @param {Fields} put prices, complete
 * @param {Fields} forecast a request for it
 * @param {number|undefined} limit of the bike, percent
 * @returns {Fields}
 */
export function costRequest({ currency, chain, sprockets, chainring }, forecast, limit) {
  const limits = limit === undefined || LIMITS.includes(limit) ? LIMITS : [...LIMITS, limit].sort((a, b) => a - b);
  return { currency, prices: { chain, sprockets, chainring }, forecast, change_at_percent: limits };
}
