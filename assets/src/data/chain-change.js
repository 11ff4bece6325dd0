/**
 * Another chain on a bike: what is to be written down, and what to ask about
 * the life of a new one.
 */
import { MOST_SPROCKETS } from './meaning.js';

/**
 * @typedef {Record<string, any>} Fields
 * @typedef {{chain_id: string, place: 'on_bike'|'resting'|'retired', km: number, reading_ids: string[],
 *   forecast_request: Fields}} ChainMeaning
 * @typedef {{bike_id: string, old: 'retire'|'rest', next: string, mode: 'odometer'|'since', text: string,
 *   class: string, pitches: string, name: string, closure: string, done: string[]}} Draft
 *   next: id of a resting chain, empty for a new one; mode and text: how far the bike has gone
 * @typedef {{table: string, record_id?: string, put?: Fields, remove?: true}} Change
 */

/** As many finished chains as the forecast takes. */
const MOST_EARLIER = 12;

/**
 * @param {string} bike_id
 * @param {Fields|null} old fields of the chain that comes off
 * @param {Draft['mode']} mode
 * @returns {Draft}
 */
export function emptyChange(bike_id, old, mode) {
  return {
    bike_id,
    old: 'retire',
    next: '',
    mode,
    text: '',
    class: old?.class ?? '',
    pitches: old?.pitches ? String(old.pitches) : '',
    name: '',
    closure: '',
    done: [],
  };
}

/**
 * What is written down. A chain that rests needs nothing: the one put on after
 * it says that it is off.
 * @param {Draft} draft
 * @param {{fitted: ChainMeaning|null, next: ChainMeaning|null, km: number, distance: Fields|null, pitches: number|null}} known
 *   km: the bike's count now; distance: what to add to its distances; pitches: as read
 * @param {string} at
 * @returns {Change[]}
 */
export function changesFor(draft, { fitted, next, km, distance, pitches }, at) {
  /** @type {Change[]} */
  const all = [];
  if (distance) all.push({ table: 'distances', put: { bike_id: draft.bike_id, at, ...distance } });
  if (fitted && draft.old === 'retire') {
    all.push({ table: 'chains', record_id: fitted.chain_id, put: { retired_at: at } });
  }
  if (next) all.push({ table: 'chains', record_id: next.chain_id, put: { fitted_at_km: km, km_before: next.km } });
  else all.push({ table: 'chains', put: newChain(draft, km, pitches) });
  return all;
}

/** @param {Draft} draft @param {number} km @param {number|null} pitches @returns {Fields} */
function newChain({ bike_id, class: family, name, closure }, km, pitches) {
  const told = { name: name.trim(), class: family, pitches, closure };
  const filled = Object.entries(told).filter(([, value]) => value !== '' && value !== null);
  return { bike_id, fitted_at_km: km, km_before: 0, ...Object.fromEntries(filled) };
}

/**
 * A request for the forecast of a chain not yet on: no readings of its own, and
 * the finished chains of this bike, the one that comes off for good among them.
 * @param {Fields} bike
 * @param {ChainMeaning|null} fitted
 * @param {boolean} retires
 * @param {ChainMeaning|undefined} any another chain of the bike, which knows the finished ones
 * @returns {Fields}
 */
export function lifeRequest(bike, fitted, retires, any) {
  const asked = (fitted ?? any)?.forecast_request ?? {};
  const last = fitted && retires && asked.readings?.length ? [{ readings: asked.readings }] : [];
  const { drive, rear_sprockets, care, km_per_week } = bike;
  return {
    drive,
    ...(drive === 'derailleur' ? { rear_sprockets: rear_sprockets ?? MOST_SPROCKETS } : {}),
    ...(care ? { care } : {}),
    ...(km_per_week >= 0.1 ? { km_per_week } : {}),
    readings: [],
    now_km: 0,
    earlier_chains: [...last, ...(asked.earlier_chains ?? [])].slice(0, MOST_EARLIER),
  };
}
