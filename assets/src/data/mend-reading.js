/**
 * A reading that was set aside, put right: readings are never changed, so the
 * wrong one is voided with the reason and the right one is added beside it.
 */

/**
 * @typedef {Record<string, any>} Fields
 * @typedef {import('./chain-change.js').Change} Change
 */

/**
 * @param {Fields} reading as it was measured
 * @param {{slip: string, fits_entered: number|null}} aside the slip the engine offers
 * @returns {Fields} the reading without the slip
 */
export function mendedReading(reading, { slip, fits_entered }) {
  if (slip === 'pitches_off') return { ...reading, pitches: fits_entered };
  const field = { rule: 'span_mm', compare: 'growth_mm', caliper: 'inside_mm' }[String(reading.kind)];
  return field ? { ...reading, [field]: fits_entered } : reading;
}

/**
 * @param {{record_id: string, fields: Fields}} row of the wrong reading
 * @param {Fields|null} right the reading as it should be; null to leave it out
 * @param {string} reason in the rider's language
 * @param {string} id of the reading to add
 * @returns {Change[]}
 */
export function mendChanges({ record_id, fields }, right, reason, id) {
  /** @type {Change[]} */
  const all = [{ table: 'readings', record_id, put: { void_reason: reason } }];
  if (right) all.push({ table: 'readings', record_id: id, put: { ...fields, reading: right } });
  return all;
}

/** As many readings as the forecast is asked with. */
const MOST_READINGS = 200;

/**
 * The readings of a chain in the order in which the forecast was asked: those
 * that count, the latest ones.
 * @param {import('./garage.js').BikeDetail} detail
 * @param {string} chain_id
 * @returns {string[]} ids
 */
export function counted({ meaning, readings }, chain_id) {
  const chain = meaning.chains.find((one) => one.chain_id === chain_id);
  const ids = chain?.reading_ids.filter((id) => readings[id] && !readings[id].fields.void_reason) ?? [];
  return ids.slice(-MOST_READINGS);
}
