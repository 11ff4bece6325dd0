/**
 * Readings put aside: Check's own while a bike of a round is read, and a bike's
 * while another one is. Nothing entered is lost by looking at another bike first.
 */
import { cleared, entered } from './draft.js';
import { keep, recall } from './local.js';

/** @typedef {import('./draft.js').Draft} Draft */

/** Older ones go first; a round has rarely more than one or two half read. */
const MOST = 40;

/**
 * @param {Draft} draft the one in hand
 * @param {string} wanted whose is to be taken up: a bike of a round, or '' for Check's own
 * @param {Pick<Draft, 'drive'|'bike'>} [own] of that bike
 * @returns {Draft} that draft, or an empty one with the same instrument
 */
export function swapped(draft, wanted, own = { drive: draft.drive }) {
  const asides = /** @type {Record<string, Draft>} */ ({ ...recall('aside', {}) });
  const mine = draft.for ?? '';
  delete asides[mine];
  if (entered(draft) || !mine) asides[mine] = draft;
  const found = asides[wanted];
  delete asides[wanted];
  const names = Object.keys(asides).filter((name) => name !== '');
  for (const name of names.slice(0, Math.max(0, names.length - MOST))) delete asides[name];
  keep('aside', asides);
  const next = wanted || !found ? { ...(found ?? cleared(draft)), bike: undefined, ...own } : found;
  return { ...next, ...(entered(next) ? {} : { instrument: draft.instrument }), for: wanted };
}
