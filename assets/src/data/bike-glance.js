/**
 * A bike as far as it is known before its records are read: what the list says
 * of it, and the forecast that was worked out for that. The engine, which may be
 * busy, is not asked.
 */
import { build } from '../sync/build.js';
import { keptForecast } from './garage-read.js';

/**
 * @typedef {import('./garage.js').BikeSummary} BikeSummary
 * @typedef {import('./garage.js').BikeDetail} BikeDetail
 */

/**
 * @param {BikeSummary} summary
 * @returns {Promise<BikeDetail|null>} with the chain that is on it and its last reading alone; null where there is no
 *   forecast of them
 */
export async function glance(summary) {
  if (!summary.fitted_chain_id || !summary.last_reading || !summary.forecast) return null;
  const kept = await keptForecast(summary.fitted_chain_id);
  return kept?.forecast && kept.asked.startsWith(build.wasm) ? glanced(summary, kept.forecast) : null;
}

/** @param {BikeSummary} summary @param {any} forecast the engine's whole answer @returns {BikeDetail} */
function glanced({ bike_id, fields, km, fitted_chain_id, chain, chain_km, last_reading, judged }, forecast) {
  const chain_id = String(fitted_chain_id);
  const { record_id, ...reading } = /** @type {import('./garage.js').Fields & {record_id: string}} */ (last_reading);
  const mine = { chain_id, place: /** @type {const} */ ('on_bike'), km: chain_km ?? 0, care_ids: [] };
  const asked = { forecast_request: {}, care_request: {} };
  return {
    bike: { table: 'bikes', record_id: bike_id, fields },
    meaning: {
      ...{ bike_id, km, doubtful_distance_ids: [], fitted_chain_id: chain_id },
      chains: [{ ...mine, reading_ids: [record_id], last_reading_id: record_id, ...asked }],
    },
    chains: { [chain_id]: { table: 'chains', record_id: chain_id, fields: chain ?? {} } },
    readings: { [record_id]: { table: 'readings', record_id, fields: reading } },
    ...{ distances: {}, care: {}, checks: {} },
    forecasts: { [chain_id]: forecast },
    judged: judged ? { [chain_id]: judged } : {},
  };
}
