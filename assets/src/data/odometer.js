/** What an odometer's figure means for a bike that was counted without one until now. */
import { metre, rest } from './chain-moves.js';

/**
 * @typedef {import('./chain-moves.js').Change} Change
 * @typedef {'now'|'zero'|'at'} Since when the chain on the bike was put on: nobody knows, at 0, at a known figure
 */

/**
 * The bike's count jumps to the first figure. So that the chain on it does not
 * run that leap too, it was put on as far before the figure as it has run; or
 * the rider knows better.
 * @param {import('./chain-moves.js').BikeState} bike
 * @param {import('./chain-moves.js').ChainRow[]} rows of its chains
 * @param {number} shown km
 * @param {Since} since
 * @param {number} putOn km, for `at`
 * @returns {Change[]}
 */
export function firstOdometer(bike, rows, shown, since, putOn) {
  const fitted = bike.chains.find((chain) => chain.place === 'on_bike');
  const row = rows.find((one) => one.record_id === fitted?.chain_id);
  if (!fitted || !row) return [];
  const others = rest(bike, rows).filter((change) => change.record_id !== fitted.chain_id);
  const put = (/** @type {Record<string, number>} */ fields) => [
    ...others,
    { table: 'chains', record_id: fitted.chain_id, put: fields },
  ];
  if (since === 'zero') return put({ fitted_at_km: 0, km_before: 0 });
  if (since === 'at') return put({ fitted_at_km: putOn, km_before: 0 });
  const leap = shown - bike.km;
  return leap > 0 ? put({ fitted_at_km: metre(row.fields.fitted_at_km + leap) }) : [];
}

/** The longest way anybody rides in a day, km: beyond it a figure is asked about. From memory. */
const FAR_A_DAY = 500;

/**
 * @param {number} more km since the last entry
 * @param {number} days since then
 * @returns {boolean} whether it is likelier a slip than a distance
 */
export function leaps(more, days) {
  return more > FAR_A_DAY * Math.max(1, days);
}
