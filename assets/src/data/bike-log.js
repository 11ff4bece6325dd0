/**
 * What happened to a bike in one stream: readings, distance, care, and chains
 * taken off for good, the latest first.
 */

/**
 * @typedef {{table: string, record_id: string, fields: Record<string, any>, stamps?: Record<string, string>}} Row
 * @typedef {{chains: Row[], readings: Row[], distances: Row[], care: Row[]}} Rows of one bike, removed ones left out
 * @typedef {{kind: 'reading'|'distance'|'care'|'retired', at: string, row: Row, chain: Row|null}} Entry
 */

/**
 * @param {Rows} rows
 * @returns {Entry[]}
 */
export function stream({ chains, readings, distances, care }) {
  const named = new Map(chains.map((row) => [row.record_id, row]));
  /** @type {Entry[]} */
  const all = [
    ...entries('reading', readings, named),
    ...entries('distance', distances, named),
    ...entries('care', care, named),
    ...chains
      .filter((row) => typeof row.fields.retired_at === 'string')
      .map((row) => ({ kind: /** @type {const} */ ('retired'), at: row.fields.retired_at, row, chain: row })),
  ];
  const when = new Map(all.map((entry) => [entry, Date.parse(entry.at) || 0]));
  return all.sort(
    (a, b) => Number(when.get(b)) - Number(when.get(a)) || b.row.record_id.localeCompare(a.row.record_id),
  );
}

/** @param {Entry['kind']} kind @param {Row[]} rows @param {Map<string, Row>} chains @returns {Entry[]} */
function entries(kind, rows, chains) {
  return rows.map((row) => ({ kind, at: row.fields.at, row, chain: chains.get(row.fields.chain_id) ?? null }));
}

/**
 * @param {Row[]} distances
 * @returns {Row|null} the latest odometer entry
 */
export function lastOdometer(distances) {
  const odometers = distances.filter((row) => typeof row.fields.odometer_km === 'number');
  return odometers.reduce(
    (/** @type {Row|null} */ last, row) =>
      last && Date.parse(last.fields.at) >= Date.parse(row.fields.at) ? last : row,
    null,
  );
}

/**
 * @param {Row[]} distances
 * @returns {string|null} when the last entry of any kind was
 */
export function lastDistanceAt(distances) {
  const latest = Math.max(...distances.map((row) => Date.parse(row.fields.at) || 0));
  return distances.length && latest > 0 ? new Date(latest).toISOString() : null;
}
