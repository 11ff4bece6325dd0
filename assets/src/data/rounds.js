/**
 * Rounds as the screens show them. Which state a bike is in comes from the
 * engine (internal/garage); here it is counted, sorted and asked about.
 */
import { plain } from './tag-code.js';

/**
 * @typedef {'cleared'|'held'|'not_seen'} BikeState
 * @typedef {import('./request.js').Verdict} Verdict
 * @typedef {{id: string, bike_id: string, at: string, state: 'cleared'|'held', reading_id?: string,
 *   reason?: string, by?: string, note?: string}} Check
 * @typedef {import('./garage.js').BikeSummary} Bike
 * @typedef {{bike: Bike, state: BikeState, check: Check|null, held: Check|null}} Stand
 *   `check` is what the state rests on, `held` the last hold of this round, also when it is cleared since
 * @typedef {{id: string, name: string, started_at: string, finished_at?: string, set?: string,
 *   tag_start?: string, care?: string, stands: Stand[], checks: Check[], vain: Set<string>}} Round
 *   `checks` are all of them once they were looked up, till then those that count; `vain` those that do not
 */

/** @type {BikeState[]} */
export const STATES = ['not_seen', 'held', 'cleared'];

/**
 * @param {Stand[]} stands
 * @returns {Record<BikeState, number>}
 */
export function counts(stands) {
  const all = { cleared: 0, held: 0, not_seen: 0 };
  for (const { state } of stands) all[state]++;
  return all;
}

/**
 * @param {Check[]} checks
 * @returns {Check[]} the latest check of each person, the latest first
 */
export function whoIsWhere(checks) {
  /** @type {Map<string, Check>} */
  const latest = new Map();
  for (const check of checks) {
    const last = latest.get(check.by ?? '');
    if (check.by && (!last || inTime(last, check) < 0)) latest.set(check.by, check);
  }
  return byTime([...latest.values()]).reverse();
}

/**
 * @param {Check[]} checks
 * @returns {Check[]} a copy, the earliest first
 */
export function byTime(checks) {
  return [...checks].sort(inTime);
}

/** @param {Check} a @param {Check} b */
function inTime(a, b) {
  return Date.parse(a.at) - Date.parse(b.at) || a.id.localeCompare(b.id);
}

/**
 * @typedef {{set?: string, tag_start?: string, care?: string}} Pick which bikes a round takes; none of them: all
 * @typedef {{pick: Pick, count: number}} Offer
 */

/**
 * @param {Bike[]} bikes
 * @returns {Offer[]} the ways to pick bikes that these bikes allow, all of them first
 */
export function offers(bikes) {
  const by = (/** @type {(bike: Bike) => Pick|null} */ key) => {
    /** @type {Map<string, Offer>} */
    const found = new Map();
    for (const bike of bikes) {
      const pick = key(bike);
      const name = JSON.stringify(pick);
      if (pick) found.set(name, { pick, count: (found.get(name)?.count ?? 0) + 1 });
    }
    return [...found.values()].sort((a, b) => text(a.pick).localeCompare(text(b.pick)));
  };
  const sets = by(({ fields: { set } }) => (set ? { set } : null));
  const tags = by(({ fields: { tag } }) => (series(tag) ? { tag_start: series(tag) } : null));
  const cares = by(({ fields: { care } }) => (care ? { care } : null));
  const some = [...sets, ...tags.filter(({ count }) => count > 1), ...cares];
  return [{ pick: {}, count: bikes.length }, ...some.filter(({ count }) => count < bikes.length)];
}

/**
 * @template {Bike} B
 * @param {B[]} bikes
 * @param {Pick} pick
 * @returns {B[]} those that meet all of it
 */
export function picked(bikes, { set, tag_start, care }) {
  return bikes.filter(
    ({ fields }) =>
      (!set || fields.set === set) &&
      (!tag_start || (fields.tag ?? '').startsWith(tag_start)) &&
      (!care || fields.care === care),
  );
}

/** @param {Pick} pick */
function text({ set, tag_start, care }) {
  return set ?? tag_start ?? care ?? '';
}

/** @param {string} [tag] @returns {string} the letters before a tag's number, K of K-07 */
function series(tag = '') {
  return /^(\p{L}+)[\s._-]*\d+$/u.exec(tag)?.[1] ?? '';
}

/**
 * @template {Bike} B
 * @param {B[]} bikes
 * @param {string} typed a tag code, part of a name, or a tag's address
 * @returns {B[]} the bike with that tag alone, else all whose name, tag or set contains it
 */
export function findBikes(bikes, typed) {
  const id = bikeInAddress(typed);
  if (id) return bikes.filter((bike) => bike.bike_id === id);
  const wanted = plain(typed);
  if (!wanted) return bikes;
  const tagged = bikes.filter((bike) => plain(bike.fields.tag ?? '') === wanted);
  if (tagged.length) return tagged;
  return bikes.filter(({ fields: { name, tag = '', set = '' } }) =>
    [name, tag, set].some((part) => plain(part).includes(wanted)),
  );
}

/**
 * @param {string} address as a tag's code holds it
 * @returns {string} the bike's id, empty when it is no bike's address
 */
export function bikeInAddress(address) {
  return /#\/bike\/([0-9a-f-]{36})$/.exec(address.trim())?.[1] ?? '';
}

/**
 * @param {string} origin of this server, https://bikes.example
 * @param {string} id
 * @returns {string} what a tag's code holds
 */
export function bikeAddress(origin, id) {
  return `${origin}/#/bike/${id}`;
}

/**
 * Whether a bike may be cleared as things stand. A verdict against riding, or a
 * hold for anything but a chain's reading, is overruled by a named reason only;
 * never by silence.
 * @param {{stand: Stand, verdict: Verdict|null, keeps?: boolean}} now `verdict` of the reading just taken, null
 *   without one; `keeps`: it can be kept, for one that cannot clears nothing
 * @returns {'yes'|'reading'|'reason'} what it takes: nothing more, a reading or a reason, a reason
 */
export function clearing({ stand, verdict, keeps = true }) {
  const strict = Boolean(stand.bike.fields.bears?.length);
  if (verdict && !fit(verdict, strict)) return 'reason';
  if (stand.state !== 'held') return 'yes';
  if (stand.check?.reason) return 'reason';
  return verdict && keeps ? 'yes' : 'reading';
}

/**
 * @param {Verdict} verdict
 * @param {boolean} strict an e-drive, a child seat or a load: a chain due for a change stays in
 */
export function fit(verdict, strict) {
  return verdict === 'ride' || (verdict === 'plan' && !strict);
}
