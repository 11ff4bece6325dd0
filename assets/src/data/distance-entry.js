/**
 * How far a bike has gone, asked where a reading or a new chain needs it: what
 * the odometer shows, or what was ridden since the last entry.
 */
import { readFar } from '../parts/distances.js';
import { metre } from './chain-moves.js';

/**
 * @typedef {{mode: 'odometer'|'since', text: string}} Entered text is empty until something is typed
 * @typedef {{km: number, shown: number|null, chainKM: number}} Known the bike's count, what its odometer showed
 *   then, null while none was ever entered, and what the chain had run
 * @typedef {{fault: ''|'unreadable'|'before'|'far', km: number, chainKM: number, earlier: boolean,
 *   put: {odometer_km: number}|{add_km: number}|null}} Gone `km` and `chainKM` then; earlier: than the last
 *   entry; put: what is to be added to the distances
 */

/** The most one entry adds, km: more is a slip. A record takes no more either. */
const MOST_ADDED = 100_000;

/**
 * What the odometer shows at the bike's count: the latest odometer entry and
 * the rides after it. A bike that had a new odometer shows less than its count.
 * @param {{at: string, odometer_km?: number, add_km?: number}[]} distances in any order
 * @returns {number|null} null while no odometer was ever entered: a first figure tells nothing of what was
 *   ridden since the chain was put on
 */
export function shownAt(distances) {
  const byTime = [...distances].sort((a, b) => Date.parse(a.at) - Date.parse(b.at));
  const last = byTime.findLastIndex((one) => one.odometer_km !== undefined);
  if (last < 0) return null;
  return byTime.slice(last + 1).reduce((sum, one) => sum + (one.add_km ?? 0), Number(byTime[last].odometer_km));
}

/**
 * @template {{at: string}} D
 * @param {D[]} distances
 * @param {string} at
 * @returns {D[]} those noted by then
 */
export function entriesUntil(distances, at) {
  const end = Date.parse(at);
  return distances.filter((one) => end >= Date.parse(one.at));
}

/**
 * How far the bike went after an instant, by the entries noted since.
 * @param {{at: string, odometer_km?: number, add_km?: number}[]} distances in any order
 * @param {string} at
 * @returns {number} km, 0 where the odometer fell in between
 */
export function goneSince(distances, at) {
  const until = entriesUntil(distances, at);
  if (until.length === distances.length) return 0;
  const [now, then] = [shownAt(distances), shownAt(until)];
  if (now !== null && then !== null) return Math.max(0, now - then);
  const later = distances.filter((one) => !until.includes(one));
  return later.reduce((sum, one) => sum + (one.add_km ?? 0), 0);
}

/**
 * @param {Entered} entered
 * @param {Known} known
 * @param {import('../parts/distances.js').Units} units of a bare number
 * @returns {Gone}
 */
export function gone({ mode, text }, known, units) {
  const read = readFar(text, units);
  const same = { fault: /** @type {const} */ (''), km: known.km, chainKM: known.chainKM, earlier: false, put: null };
  if (read === null) return known.chainKM < 0 ? { ...same, fault: 'before' } : same;
  if (Number.isNaN(read)) return { ...same, fault: 'unreadable' };
  const value = metre(read);
  const added = mode === 'since' ? value : value - (known.shown ?? 0);
  if (added > MOST_ADDED) return { ...same, fault: 'far' };
  if (known.chainKM + added < 0) return { ...same, fault: 'before' };
  const put = mode === 'since' ? { add_km: value } : { odometer_km: value };
  return {
    fault: '',
    km: metre(known.km + added),
    chainKM: metre(known.chainKM + added),
    earlier: added < 0,
    put: added > 0 ? put : null,
  };
}
