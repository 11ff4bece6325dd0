/** The changes that take other changes back. */

/**
 * @typedef {{table: string, record_id?: string, put?: Record<string, any>, remove?: true}} Change as `save` takes it
 * @typedef {{table: string, record_id: string, fields: Record<string, any>}} Row
 */

/**
 * @param {Change[]} changes
 * @param {string[]} ids of the records, as `save` returned them
 * @param {Row[]} before the rows of the records that were there
 * @returns {Change[]} in the order in which they must be made; without voided readings, which stay voided
 */
export function inverse(changes, ids, before) {
  const rows = new Map(before.map((row) => [`${row.table} ${row.record_id}`, row]));
  return changes
    .map((change, i) => back(change, ids[i], rows.get(`${change.table} ${ids[i]}`)))
    .filter((change) => change !== null)
    .reverse();
}

/** @param {Change} change @param {string} id @param {Row|undefined} row @returns {Change|null} */
function back(change, id, row) {
  const { table } = change;
  if (table === 'readings') return null;
  if (!row) return { table, record_id: id, remove: true };
  if (change.remove) {
    const [name, value] = Object.entries(row.fields).find(([, one]) => one !== null) ?? [];
    return name ? { table, record_id: id, put: { [name]: value } } : null;
  }
  const put = Object.fromEntries(Object.keys(change.put ?? {}).map((name) => [name, row.fields[name] ?? null]));
  return { table, record_id: id, put };
}
