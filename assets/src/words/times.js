/** Moments of a round, in the language in use. */
import { dated, moment } from './numbers.js';

/**
 * @param {string} at RFC 3339
 * @param {Date} now
 * @returns {string} the time of day today, else day and time
 */
export function when(at, now) {
  const then = new Date(at);
  if (then.toDateString() !== now.toDateString()) return moment(at);
  return dated(at, { timeStyle: 'short' });
}

/** @param {Date} at @returns {string} "Saturday 7 March" */
export function weekday(at) {
  return dated(at, { weekday: 'long', day: 'numeric', month: 'long' });
}
