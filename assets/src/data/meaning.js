/** Summaries for the lists, out of rows and what the engine says they mean. Pure. */

/**
 * @typedef {import('./garage.js').EngineRow} EngineRow
 * @typedef {import('./garage.js').BikeValue} BikeValue
 * @typedef {import('./garage.js').RoundSummary} RoundSummary
 */

/** @param {EngineRow[]} rows @returns {(table: string, id: string) => Record<string, any>|null} fields, null without */
function finder(rows) {
  const all = new Map(rows.map((row) => [`${row.table}/${row.record_id}`, row]));
  return (table, id) => {
    const row = all.get(`${table}/${id}`);
    return row ? shown(row) : null;
  };
}

/** @param {EngineRow} row @returns {Record<string, any>} its fields that are set */
export function shown({ fields }) {
  return Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== null));
}

/**
 * @param {EngineRow[]} rows of the bike
 * @param {any} meaning of the bike, as the engine's `garage` gave it
 * @returns {BikeValue & {ask: import('./forecasts.js').Ask|null}} with what to ask about the chain on it
 */
export function bikeValue(rows, meaning) {
  const find = finder(rows);
  const bike = find('bikes', meaning.bike_id) ?? {};
  const fitted = meaning.chains.find((/** @type {any} */ one) => one.chain_id === meaning.fitted_chain_id);
  const base = {
    bike_id: meaning.bike_id,
    fields: bike,
    km: meaning.km,
    doubtful: meaning.doubtful_distance_ids.length,
  };
  if (!fitted) {
    return {
      ...base,
      fitted_chain_id: null,
      chain: null,
      chain_km: null,
      last_reading: null,
      last_care: null,
      ask: null,
    };
  }
  const chain = find('chains', fitted.chain_id) ?? {};
  const care = fitted.care_ids.at(-1);
  const reading = fitted.last_reading_id ? find('readings', fitted.last_reading_id) : null;
  return {
    ...base,
    fitted_chain_id: fitted.chain_id,
    chain,
    chain_km: fitted.km,
    last_reading: reading && { record_id: fitted.last_reading_id, ...reading },
    last_care: care ? find('care', care) : null,
    ask: { forecast: fitted.forecast_request, wear: reading && wearRequest(bike, chain, reading) },
  };
}

/** Where nobody has said how many sprockets there are, the limit of the most is taken, as the forecast does. */
export const MOST_SPROCKETS = 12;

/**
 * @param {Record<string, any>} bike
 * @param {Record<string, any>} chain
 * @param {Record<string, any>} reading
 * @returns {object} what to ask the calculation wear about a reading
 */
export function wearRequest(bike, chain, reading) {
  const sprockets = bike.drive === 'derailleur' ? { rear_sprockets: bike.rear_sprockets ?? MOST_SPROCKETS } : {};
  const limit = chain.limit_percent === undefined ? {} : { limit_percent: chain.limit_percent };
  return { drive: bike.drive, ...sprockets, ...limit, reading: reading.reading };
}

/**
 * @param {EngineRow[]} rows of the round
 * @param {any} meaning of the round, as the engine's `garage` gave it
 * @returns {RoundSummary}
 */
export function roundValue(rows, meaning) {
  const find = finder(rows);
  const stands = meaning.bikes.map((/** @type {any} */ one) => {
    const {
      bike_id,
      state,
      round_check_id: check_id = null,
      hold_check_id: hold_id = null,
      vain_check_ids: vain_ids,
    } = one;
    const check = check_id && find('round_checks', check_id);
    return { bike_id, state, check_id, check, hold_id, hold: hold_id && find('round_checks', hold_id), vain_ids };
  });
  const count = (/** @type {string} */ state) => stands.filter((/** @type {any} */ one) => one.state === state).length;
  return {
    round_id: meaning.round_id,
    fields: find('rounds', meaning.round_id) ?? {},
    stands,
    cleared: count('cleared'),
    held: count('held'),
    not_seen: count('not_seen'),
  };
}
