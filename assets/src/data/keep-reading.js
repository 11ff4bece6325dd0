/**
 * A reading given to a bike: what is to be written down. Readings belong to a
 * chain, so a bike without one gets one.
 */

/**
 * @typedef {Record<string, any>} Fields
 * @typedef {import('./chain-change.js').Change} Change
 * @typedef {{at: string, requests: any[], counted: number, note: string, instrument_id?: string}} Source every place
 *   measured, which counted, and with what
 */

/**
 * A reading as a record takes it: a span typed as a plain number of mm goes as
 * that number, so that a slip of the pen in it can be found later.
 * @param {Fields} reading of a wear request
 * @returns {Fields}
 */
export function recorded({ span_text, ...reading }) {
  if (span_text === undefined) return reading;
  const plain = /^\s*(\d+(?:[.,]\d+)?)\s*mm\s*$/.exec(span_text);
  return plain ? { ...reading, span_mm: Number(plain[1].replace(',', '.')) } : { ...reading, span_text };
}

/**
 * @param {Source} source
 * @param {{bike_id: string, chain_id: string, distance: Fields|null, at_km: number, newChain: Fields|null, newBike: Fields|null}} to
 *   newChain, newBike: fields to add when they are not there yet
 * @param {string} [by]
 * @returns {Change[]} the counted reading first among the places, so that it can be found again
 */
export function readingChanges({ at, requests, counted, note, instrument_id }, to, by = '') {
  const { bike_id, chain_id, distance, at_km, newChain, newBike } = to;
  /** @type {Change[]} */
  const all = [];
  if (newBike) all.push({ table: 'bikes', record_id: bike_id, put: newBike });
  if (newChain) all.push({ table: 'chains', record_id: chain_id, put: { bike_id, ...newChain } });
  if (distance) all.push({ table: 'distances', put: { bike_id, at, ...distance } });
  const more = {
    ...(by ? { by } : {}),
    ...(note.trim() ? { note: note.trim() } : {}),
    ...(instrument_id ? { instrument_id } : {}),
  };
  all.push({
    table: 'readings',
    put: { chain_id, at, at_km, reading: recorded(requests[counted].reading), ...more },
  });
  return all;
}
