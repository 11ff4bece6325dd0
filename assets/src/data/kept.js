/**
 * Readings kept on this phone with no bike. They have no chain to belong to, so
 * no server would take them; giving one to a chain later makes it a reading
 * there.
 */
import { rows, write } from './database.js';
import { forget, keep, recall } from './local.js';

/**
 * @typedef {{at: string, requests: any[], counted: number, answer: import('./request.js').Answer,
 *   note: string, instrument_id?: string}} KeptFields every place measured, the index of the one that counted, its answer
 * @typedef {{table: 'loose_readings', record_id: string, removed?: boolean, fields: KeptFields}} Kept
 */

/** @typedef {{id: string, note: string}} Typed a note as typed, kept until it is in the database */

/** @returns {Promise<Kept[]>} newest first, with what was typed last, if a reload cut it short */
export async function recallKept() {
  const all = /** @type {Kept[]} */ (await rows('loose_readings'));
  const typed = recall('note', NOTHING_TYPED);
  const cut = all.find((one) => one.record_id === typed.id);
  if (cut) {
    cut.fields.note = typed.note;
    await writeNote(cut);
  }
  return all.sort((a, b) => b.fields.at.localeCompare(a.fields.at));
}

/** @type {Typed} */
const NOTHING_TYPED = { id: '', note: '' };

/**
 * Writes a note letter by letter: at once where a reload cannot overtake it,
 * then in the database.
 * @param {Kept} kept
 * @returns {Promise<void>}
 */
export async function writeNote(kept) {
  /** @type {Typed} */
  const typed = { id: kept.record_id, note: kept.fields.note };
  keep('note', typed);
  await write([kept]);
  if (recall('note', NOTHING_TYPED).note === typed.note) forget('note');
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
