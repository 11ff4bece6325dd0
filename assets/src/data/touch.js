/**
 * Where a record belongs and which summaries it is part of. Pure.
 */

/**
 * @typedef {import('./garage.js').EngineRow} EngineRow
 * @typedef {{kind: 'bike'|'round', id: string}} Target a summary
 */

/**
 * Whose record it is, which is what records are looked up by: its bike's, its
 * chain's, or its table's where there are few.
 * @param {EngineRow} row
 * @returns {string}
 */
export function home({ table, record_id, fields }) {
  switch (table) {
    case 'bikes':
    case 'rounds':
      return record_id;
    case 'readings':
    case 'care':
      return String(fields.chain_id);
    case 'instruments':
    case 'prices':
      return table;
    default:
      return String(fields.bike_id);
  }
}

/**
 * @param {EngineRow|undefined} a
 * @param {EngineRow} b the same record
 * @returns {boolean} whether summaries say the same of both; of chains it matters too when they were put on
 */
export function sameMeaning(a, b) {
  const meaning = (/** @type {EngineRow} */ row) => (row.table === 'chains' ? row : [row.removed, row.fields]);
  return a !== undefined && JSON.stringify(meaning(a)) === JSON.stringify(meaning(b));
}

/**
 * @param {EngineRow|undefined} row as it was or as it is now
 * @param {(chainId: string) => string|undefined} bikeOf
 * @param {() => string[]} openRounds ids of the rounds that are not finished
 * @returns {Target[]} the summaries it is part of
 */
export function targets(row, bikeOf, openRounds) {
  if (!row) return [];
  const { table, record_id, fields } = row;
  /** @param {string|undefined} id @returns {Target[]} */
  const bike = (id) => (id ? [{ kind: 'bike', id }] : []);
  switch (table) {
    case 'bikes':
      return [...bike(record_id), ...openRounds().map((id) => /** @type {Target} */ ({ kind: 'round', id }))];
    case 'chains':
    case 'distances':
      return bike(fields.bike_id);
    case 'readings':
    case 'care':
      return bike(bikeOf(fields.chain_id));
    case 'rounds':
      return [{ kind: 'round', id: record_id }];
    case 'round_checks':
      return [{ kind: 'round', id: String(fields.round_id) }];
    default:
      return [];
  }
}
