/** Rounds out of what the phone knows of its garage. */
import { engine } from '../engine/engine.js';
import { urgency } from './bike-order.js';
import { roundRows } from './garage-read.js';

/**
 * @typedef {import('./garage.js').GarageState} Garage
 * @typedef {import('./garage.js').BikeSummary} BikeSummary
 * @typedef {import('./rounds.js').Round} Round
 * @typedef {import('./rounds.js').Check} Check
 * @typedef {{id: string, checks: Check[], holds: Map<string, string>, vain: Set<string>}} Detail all checks of one
 *   round, and for each bike that was held the check that last did
 */

/** @type {WeakMap<Garage, Round[]>} */
const made = new WeakMap();

/** @param {Garage} garage @returns {Round[]} the latest first */
export function roundsOf(garage) {
  let rounds = made.get(garage);
  if (!rounds) {
    const bikes = new Map(garage.bikes.map((bike) => [bike.bike_id, bike]));
    rounds = garage.rounds.map((one) => fromSummary(one, bikes));
    rounds.sort((a, b) => Date.parse(b.started_at) - Date.parse(a.started_at) || a.id.localeCompare(b.id));
    made.set(garage, rounds);
  }
  return rounds;
}

/**
 * @param {import('./garage.js').RoundSummary} summary
 * @param {Map<string, BikeSummary>} bikes
 * @returns {Round}
 */
function fromSummary({ round_id, fields, stands }, bikes) {
  const known = stands.flatMap((stand) => {
    const bike = bikes.get(stand.bike_id);
    const check = stand.check_id && stand.check ? /** @type {Check} */ ({ ...stand.check, id: stand.check_id }) : null;
    return bike ? [{ bike, state: stand.state, check, held: null }] : [];
  });
  const checks = known.flatMap(({ check }) => check ?? []);
  return /** @type {Round} */ ({ ...fields, id: round_id, stands: known, checks, vain: new Set() });
}

/**
 * @param {Garage} garage
 * @param {string} id
 * @param {Detail|null} detail of this or another round
 * @returns {Round|undefined}
 */
export function roundOf(garage, id, detail) {
  const round = roundsOf(garage).find((one) => one.id === id);
  if (!round || detail?.id !== id) return round;
  const checks = new Map(detail.checks.map((check) => [check.id, check]));
  const stands = round.stands.map((stand) => ({
    ...stand,
    held: checks.get(detail.holds.get(stand.bike.bike_id) ?? '') ?? null,
  }));
  return { ...round, stands, checks: detail.checks, vain: detail.vain };
}

/**
 * @param {string} key of the garage on this phone
 * @param {string} id of the round
 * @returns {Promise<Detail>}
 */
export async function lookUp(key, id) {
  const rows = await roundRows(key, id);
  const { rounds } = await engine.records('garage', { rows });
  const stands = rounds.find((/** @type {any} */ one) => one.round_id === id)?.bikes ?? [];
  return {
    id,
    checks: rows
      .filter(({ table, removed }) => table === 'round_checks' && !removed)
      .map(({ record_id, fields }) => /** @type {Check} */ ({ ...fields, id: record_id })),
    holds: new Map(stands.map((/** @type {any} */ one) => [one.bike_id, one.hold_check_id])),
    vain: new Set(stands.flatMap((/** @type {any} */ one) => one.vain_check_ids)),
  };
}

/**
 * @typedef {{bike: BikeSummary, why: 'held'|import('./bike-order.js').Urgency, held: Check|null}} Due
 */

/** From the most urgent. @type {Due['why'][]} */
const OVERDUE = ['held', 'past', 'again', 'due', 'unread'];

/**
 * @param {Garage} garage
 * @returns {Due[]} bikes that nobody should lend as they are: still held from the last round they were in, past
 *   their limit, to be measured again, due for a check, or never measured
 */
export function overdue(garage) {
  /** @type {Map<string, Check|null>} */
  const last = new Map();
  for (const round of roundsOf(garage)) {
    for (const { bike, state, check } of round.stands) {
      if (state !== 'not_seen' && !last.has(bike.bike_id)) last.set(bike.bike_id, state === 'held' ? check : null);
    }
  }
  return garage.bikes
    .map((bike) => {
      const held = last.get(bike.bike_id) ?? null;
      return { bike, held, why: held ? /** @type {const} */ ('held') : urgency(bike) };
    })
    .filter(({ why }) => OVERDUE.includes(why))
    .sort((a, b) => OVERDUE.indexOf(a.why) - OVERDUE.indexOf(b.why));
}
