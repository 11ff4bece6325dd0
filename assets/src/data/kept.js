/**
 * Readings kept on this phone with no bike. They have no chain to belong to, so
 * no server would take them; giving one to a chain later makes it a reading
 * there.
 */
import { rows, write } from './database.js';

/**
 * @typedef {{at: string, requests: any[], counted: number, answer: import('./request.js').Answer,
 *   note: string}} KeptFields every place measured, the index of the one that counted, its answer
 * @typedef {{table: 'loose_readings', record_id: string, removed?: boolean, fields: KeptFields}} Kept
 */

/** @returns {Promise<Kept[]>} newest first */
export async function recallKept() {
  const all = /** @type {Kept[]} */ (await rows('loose_readings'));
  return all.sort((a, b) => b.fields.at.localeCompare(a.fields.at));
}

/**
 * @param {KeptFields} fields
 * @param {string} id a UUID
 * @returns {Promise<Kept>} once it is on the disk
 */
export async function keepReading(fields, id) {
  /** @type {Kept} */
  const kept = { table: 'loose_readings', record_id: id, fields };
  await write([kept]);
  return kept;
}

/**
 * @param {Kept} kept
 * @returns {Promise<Kept>} the same once written: a new note, removed, or back again
 */
export async function rewrite(kept) {
  await write([kept]);
  return kept;
}
