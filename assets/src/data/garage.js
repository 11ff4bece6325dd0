/**
 * The rider's garage on this phone: what screens read is `state.garage`, what
 * they change goes through `save`. It works with no server at all; what the
 * server has to do with it is in sync/.
 */
import { engine } from '../engine/engine.js';
import { askToPersist } from '../app/storage.js';
import { workAhead } from './background.js';
import { change } from './change.js';
import { answersFor } from './forecasts.js';
import { bikeRows, roundRows } from './garage-read.js';
import { current, load } from './garage-state.js';
import { roundValue, shown, wearRequest } from './meaning.js';
import { refreshTurn } from './refresh.js';
import { watchTabs } from './tabs.js';

/**
 * @typedef {{table: string, record_id: string, removed: boolean, fields: Record<string, any>,
 *   stamps: Record<string, string>, removed_at?: string}} EngineRow a record as the engine merges it; a field that
 *   was cleared is null
 * @typedef {{op_id: string, hlc: string, device_id: string, table: string, record_id: string,
 *   put?: Record<string, any>, remove?: true}} Op as the server takes it
 * @typedef {{code: string, field: string, message: string}} Refusal why the server did not take an operation
 * @typedef {Refusal & {op_id: string, table: string, record_id: string, waits: boolean}} Rejected `waits`: it is
 *   sent again by itself
 * @typedef {Record<string, any>} Fields of a record, as the contract names them; what is not set is left out
 * @typedef {{table: string, record_id: string, fields: Fields}} Row
 * @typedef {{table: string, record_id?: string, put?: Fields, remove?: true}} Change no record_id: a new record;
 *   null in put clears a field; a put after a remove brings the record back
 *
 * @typedef {{p05: number, p25: number, p50: number, p75: number, p95: number}} Quantiles
 * @typedef {{limit_percent: number, elongation_now_percent: Quantiles, km_to_limit: Quantiles,
 *   probability_past_limit_now: number, check_again_in_km: number, check_again_in_days: number|null}} Forecast
 * @typedef {{verdict: string, elongation_percent: number, limit_percent: number, probability_past_limit: number,
 *   interval95_percent: [number, number]}} Judged what the last reading said on the day it was taken
 * @typedef {{bike_id: string, fields: Fields, km: number, doubtful: number, fitted_chain_id: string|null,
 *   chain: Fields|null, chain_km: number|null, last_reading: (Fields & {record_id: string})|null,
 *   last_care: Fields|null, asked?: string,
 *   forecast?: Forecast|null, judged?: Judged|null}} BikeValue `doubtful`: entries at which the odometer fell;
 *   `forecast` is null while it is worked out, and where there is no chain; `asked` is the phone's own
 * @typedef {BikeValue & {round: {round_id: string, state: 'cleared'|'held'|'not_seen', check: Fields|null}|null}}
 *   BikeSummary `round`: how it stands in the latest round that is not finished
 * @typedef {{bike_id: string, state: 'cleared'|'held'|'not_seen', check_id: string|null, check: Fields|null,
 *   hold_id: string|null, hold: Fields|null, vain_ids: string[]}} Stand `hold`: the last check that held it, also when
 *   it is cleared since; `vain_ids`: checks that clear a held bike with neither a reading nor a reason
 * @typedef {{round_id: string, fields: Fields, stands: Stand[], cleared: number, held: number, not_seen: number}}
 *   RoundSummary stands by the bike's name
 *
 * @typedef {{state: 'local'|'idle'|'busy'|'offline'|'revoked'|'gone'|'failed', unsent: number, rejected: Rejected[],
 *   at: string|null, trouble: Refusal|null}} SyncState `local`: on this phone only; `unsent` counts what waits for the
 *   server, `rejected` lists what it did not take; `at`: when phone and server last agreed; `gone`: the garage is not on the server any more; `trouble` says why it failed
 * @typedef {{key: string, id: string, name: string, role: import('./garage-store.js').Garage['role'],
 *   device_id: string, bikes: BikeSummary[], rounds: RoundSummary[], instruments: Row[], prices: Row|null,
 *   sync: SyncState, others: Pick<import('./garage-store.js').Garage, 'key'|'id'|'name'|'role'>[]}} GarageState
 *   bikes by name, the latest round first; `id` is '' while the garage is on this phone only, `key` is its name on
 *   this phone; `others` are the other garages on it
 * @typedef {{bike_id: string, km: number, doubtful_distance_ids: string[], fitted_chain_id?: string,
 *   chains: {chain_id: string, place: 'on_bike'|'resting'|'retired', km: number, reading_ids: string[],
 *     last_reading_id?: string, care_ids: string[], forecast_request: object, care_request: object}[]}} BikeMeaning see internal/garage/door.go
 * @typedef {{bike: Row, meaning: BikeMeaning, chains: Record<string, Row>, readings: Record<string, Row>,
 *   distances: Record<string, Row>, care: Record<string, Row>, checks: Record<string, Row>,
 *   forecasts: Record<string, any>, judged: Record<string, Judged>}} BikeDetail rows by id; the forecast's whole
 *   answer and the last reading's judgement by chain_id, of chains that are not retired
 */

/** Fills `state.garage`; called once, when the page starts. Trouble with the database is in `state.trouble`. */
export async function loadGarage() {
  watchTabs(load);
  await load();
  workAhead();
}

/**
 * Changes the garage. What was changed is on the disk when the promise is
 * fulfilled, with the operations that say the same to the server, and
 * `state.garage` shows it.
 * @param {Change[]} changes all of them are kept, or none
 * @param {string} [only] key of the garage they are for: nothing is kept when another one is open
 * @returns {Promise<string[]>} the records' ids, in their order; none when nothing was kept
 * @throws {import('../engine/bridge.js').EngineFault|import('../engine/bridge.js').EngineCrash|import('./database.js').KeepError} a fault names
 *   the field as `changes[0].put.name`
 */
export async function save(changes, only) {
  const { ids, turn, first } = await change(changes, only);
  if (!turn) return [];
  if (first) askToPersist();
  await refreshTurn(turn);
  workAhead();
  return ids;
}

/**
 * @param {string} bikeId
 * @returns {Promise<BikeDetail|null>} null when there is no such bike
 * @throws {import('../engine/bridge.js').EngineCrash|import('./database.js').KeepError}
 */
export async function openBike(bikeId) {
  const garage = await current();
  const rows = await bikeRows(garage.key, bikeId);
  const { bikes } = await engine.records('garage', { rows });
  /** @type {BikeMeaning|undefined} */
  const meaning = bikes.find((/** @type {BikeMeaning} */ one) => one.bike_id === bikeId);
  if (!meaning) return null;
  const of = (/** @type {string} */ table) => byId(rows.filter((row) => row.table === table));
  const [chains, readings] = [of('chains'), of('readings')];
  const bike = of('bikes')[bikeId];
  /** @type {Record<string, any>} */
  const forecasts = {};
  /** @type {Record<string, Judged>} */
  const judged = {};
  for (const one of meaning.chains) {
    if (one.place === 'retired') continue;
    const last = readings[one.last_reading_id ?? ''];
    const wear = last ? wearRequest(bike.fields, chains[one.chain_id].fields, last.fields) : null;
    const kept = await answersFor(one.chain_id, { forecast: one.forecast_request, wear });
    if (kept.forecast) forecasts[one.chain_id] = kept.forecast;
    if (kept.judged) judged[one.chain_id] = kept.judged;
  }
  const [distances, care, checks] = [of('distances'), of('care'), of('round_checks')];
  return { bike, meaning, chains, readings, distances, care, checks, forecasts, judged };
}

/**
 * @param {string} roundId
 * @returns {Promise<{round: RoundSummary, checks: Record<string, Row>}|null>} the round with every check of it
 * @throws {import('../engine/bridge.js').EngineCrash|import('./database.js').KeepError}
 */
export async function openRound(roundId) {
  const { key } = await current();
  const rows = await roundRows(key, roundId);
  const { rounds } = await engine.records('garage', { rows });
  if (!rounds.length) return null;
  return { round: roundValue(rows, rounds[0]), checks: byId(rows.filter((row) => row.table === 'round_checks')) };
}

/** @param {EngineRow[]} rows @returns {Record<string, Row>} those that are not removed */
function byId(rows) {
  const there = rows.filter((row) => !row.removed);
  return Object.fromEntries(
    there.map((row) => [row.record_id, { table: row.table, record_id: row.record_id, fields: shown(row) }]),
  );
}
