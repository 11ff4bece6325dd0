/** Rounds out of what the phone knows of its garage. */
import { urgency } from './bike-order.js';
import { openRound } from './garage.js';

/**
 * @typedef {import('./garage.js').GarageState} Garage
 * @typedef {import('./garage.js').BikeSummary} BikeSummary
 * @typedef {import('./rounds.js').Round} Round
 * @typedef {import('./rounds.js').Check} Check
 * @typedef {{id: string, checks: Check[]}} Detail all checks of one round
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
    const held = named(stand.hold_id, stand.hold);
    return bike ? [{ bike, state: stand.state, check: named(stand.check_id, stand.check), held }] : [];
  });
  const checks = known.flatMap(({ check }) => check ?? []);
  const vain = new Set(stands.flatMap(({ vain_ids }) => vain_ids));
  return /** @type {Round} */ ({ ...fields, id: round_id, stands: known, checks, vain });
}

/** @param {string|null} id @param {import('./garage.js').Fields|null} fields @returns {Check|null} */
function named(id, fields) {
  return id && fields ? /** @type {Check} */ ({ ...fields, id }) : null;
}

/**
 * @param {Garage} garage
 * @param {string} id
 * @param {Detail|null} detail of this or another round
 * @returns {Round|undefined}
 */
export function roundOf(garage, id, detail) {
  const round = roundsOf(garage).find((one) => one.id === id);
  return round && detail?.id === id ? { ...round, checks: detail.checks } : round;
}

/** @param {string} id of a round @returns {Promise<Detail|null>} null when there is no such round */
export async function lookUp(id) {
  const found = await openRound(id);
  if (!found) return null;
  const checks = Object.entries(found.checks).map(
    ([check, { fields }]) => /** @type {Check} */ ({ ...fields, id: check }),
  );
  return { id, checks };
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
