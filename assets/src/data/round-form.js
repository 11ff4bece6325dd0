/**
 * What is half typed in Round, so that a reload, the way back or a crash loses
 * nothing: the name of the round to come, and for each bike its reasons and note.
 */
import { forget, keep, recall } from './local.js';

/**
 * @typedef {{reasons: string[], text: string, ran: string}} Form ticked reasons by their code, own words, and what
 *   a chain nobody knew has run, as typed
 * @typedef {{name: string|null, pick: number}} Start
 */

/** @type {Form} */
export const EMPTY = { reasons: [], text: '', ran: '' };

/** @type {Start} */
export const START = { name: null, pick: 0 };

/** @param {string} key round, bike and step @returns {Form} */
export function recallForm(key) {
  const kept = /** @type {any} */ (recall(`round.${key}`, EMPTY));
  const reasons = Array.isArray(kept.reasons)
    ? kept.reasons.filter((/** @type {unknown} */ one) => typeof one === 'string')
    : [];
  const text = (/** @type {unknown} */ one) => (typeof one === 'string' ? one : '');
  return { reasons, text: text(kept.text), ran: text(kept.ran) };
}

/** @param {string} key @param {Form} form @returns {import('./local.js').Trouble|null} null when it is kept */
export function keepForm(key, form) {
  if (form.text || form.ran || form.reasons.length) return keep(`round.${key}`, form);
  forget(`round.${key}`);
  return null;
}

/**
 * @param {Form} form
 * @param {(code: string) => string} words for a ticked reason
 * @returns {string} all of it in one line, empty without a reason
 */
export function reasonText({ reasons, text }, words) {
  return [...reasons.map(words), text.trim()].filter(Boolean).join('; ');
}

/** @returns {Start} */
export function recallStart() {
  const { name, pick } = recall('round-start', START);
  return { name: typeof name === 'string' ? name : null, pick: Number.isInteger(pick) && pick >= 0 ? pick : 0 };
}

/** @param {Start} start */
export function keepStart(start) {
  return keep('round-start', start);
}
