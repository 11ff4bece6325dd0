/** Everything of a garage as one file, unsent work included, made on the phone and with no server. */
import { refusedOps, scanRows } from '../data/garage-read.js';
import { shown } from '../data/meaning.js';

/** Names the form of a file. */
export const FORMAT = 'tautspan-garage-1';

/** So many records are read and written at once. */
const BATCH = 200;

/**
 * @param {import('../data/garage-store.js').Garage} garage
 * @param {Date} now
 * @returns {Promise<Blob>} the file; any garage takes it in again
 */
export async function exported(garage, now) {
  const about = { format: FORMAT, garage_id: garage.id, name: garage.name, exported_at: now.toISOString() };
  const refused = await refusedOps(garage.key);
  /** @type {BlobPart[]} */
  const parts = [JSON.stringify({ ...about, refused }).slice(0, -1), ',"tables":{'];
  let table = '';
  for (let last = ['']; ;) {
    const batch = await scanRows(garage.key, last, BATCH);
    if (!batch.length) break;
    last = [batch[batch.length - 1].table, batch[batch.length - 1].record_id];
    let text = '';
    for (const { row } of batch) {
      if (row.removed) continue;
      text += table === row.table ? ',' : `${table ? '],' : ''}${JSON.stringify(row.table)}:[`;
      text += JSON.stringify({ record_id: row.record_id, fields: shown(row) });
      table = row.table;
    }
    parts.push(new Blob([text])); // made at once at the end, it would take long
  }
  return new Blob([...parts, table ? ']}}' : '}}'], { type: 'application/json' });
}
