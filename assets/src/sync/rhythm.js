/** When to try again. Pure: time and chance are arguments. */

const FIRST_MS = 1000;
const MOST_MS = 5 * 60 * 1000;

/**
 * Doubles with every failure in a row up to five minutes, and is spread over
 * its second half, so that many phones that lost one server do not come back
 * at once.
 * @param {number} failures in a row, from 1
 * @param {number} chance from 0 to 1
 * @param {number} [atLeastMS] what the server asked for
 * @returns {number} ms until the next try
 */
export function nextTry(failures, chance, atLeastMS = 0) {
  const full = Math.min(MOST_MS, FIRST_MS * 2 ** Math.max(0, failures - 1));
  return Math.max(atLeastMS, full * (0.5 + 0.5 * chance));
}

/**
 * @template T
 * @param {T[]} list
 * @param {number} most how many at once
 * @returns {T[][]}
 */
export function chunks(list, most) {
  return Array.from({ length: Math.ceil(list.length / most) }, (_, i) => list.slice(i * most, (i + 1) * most));
}

/** Refusals after which an operation is sent again: the cause may pass by itself. */
const PASSING = ['clock_ahead', 'too_many', 'storage_full', 'unavailable', 'internal'];

/** @param {string} code @returns {boolean} */
export function passes(code) {
  return PASSING.includes(code);
}

/** How far phone and server may differ for the phone's clock to be right, ms. */
const RIGHT_MS = 60 * 60 * 1000;

/** @param {number} phoneMS @param {number} serverMS NaN when not known @returns {boolean} */
export function clockIsRight(phoneMS, serverMS) {
  return Math.abs(phoneMS - serverMS) < RIGHT_MS;
}
