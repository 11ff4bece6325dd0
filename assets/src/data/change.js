/** Changes of the rider's, stamped by the engine and kept as a whole. */
import { engine } from '../engine/engine.js';
import { commit, recall } from './garage-store.js';
import { currentKept } from './garage-state.js';
import { newId } from './ids.js';
import { shown } from './meaning.js';
import { untilKept } from './tabs.js';

/**
 * @typedef {import('./garage.js').Change} Change
 * @typedef {import('./garage.js').EngineRow} EngineRow
 * @typedef {import('./garage-store.js').Garage} Garage
 * @typedef {import('./garage-store.js').Stored} Stored
 * @typedef {Change & {record_id: string}} Named
 */

/** @type {() => void} */
let onSaved = () => {};

/** @param {() => void} listener called when something was kept that a server may want to know */
export function watchSaves(listener) {
  onSaved = listener;
}

/**
 * @param {Change[]} changes
 * @param {string} [only] key of the garage they are for
 * @returns {Promise<{ids: string[], turn: number, first: boolean}>} the records' ids, the garage's turn that holds
 *   them, and whether it is its first; turn 0 and nothing kept when another garage than `only` is open
 */
export async function change(changes, only) {
  const named = changes.map((one) => ({ ...one, record_id: one.record_id ?? newId() }));
  const { key } = await currentKept();
  if (only && key !== only) return { ids: [], turn: 0, first: false };
  const turn = await untilKept(() => attempt(key, named));
  onSaved();
  return { ids: named.map(({ record_id }) => record_id), turn, first: turn === 1 };
}

/**
 * @param {string} key
 * @param {Named[]} changes
 * @returns {Promise<number>} the turn, 0 when another tab was quicker
 */
async function attempt(key, changes) {
  const { garage, rows } = await recall(
    key,
    changes.map(({ table, record_id }) => [table, record_id]),
  );
  const known = [...rows.values()].filter((one) => !untold(garage, one));
  const whole = changes.flatMap((one) => wholly(one, rows.get(`${one.table}/${one.record_id}`), garage));
  const answer = await stamp(
    garage,
    known.map(({ row }) => row),
    whole,
  );
  return commit(key, garage.turn, {
    before: rows,
    rows: answer.rows.map((row) => kept(garage, row, rows.get(`${row.table}/${row.record_id}`))),
    unsent: garage.token ? answer.ops.map(queued) : [],
    garage: { clock: answer.hlc },
  });
}

/** @param {Garage} garage @param {Stored} stored @returns {boolean} whether its server was never told of it */
function untold({ token, id }, { server }) {
  return token !== '' && server !== id;
}

/**
 * A record the server was never told of is told whole, at its first change.
 * @param {Named} change
 * @param {Stored|undefined} stored
 * @param {Garage} garage
 * @returns {(Named & {whole?: boolean})[]}
 */
function wholly(change, stored, garage) {
  if (!stored || !untold(garage, stored)) return [change];
  const { table, record_id, put } = change;
  const told = { table, record_id, put: { ...shown(stored.row), ...put }, whole: true };
  return change.remove ? [told, change] : [told];
}

/**
 * @param {Garage} garage
 * @param {EngineRow[]} rows those that are to be changed, as far as they are there
 * @param {(Named & {whole?: boolean})[]} changes
 * @returns {Promise<{ops: import('./garage.js').Op[], rows: EngineRow[], hlc: string}>}
 */
export function stamp({ clock, role, device_id }, rows, changes) {
  return engine.records('change', {
    ...{ rows, last_hlc: clock, now_ms: Date.now(), role, device_id },
    changes: changes.map((one) => ({ ...one, random: random() })),
  });
}

/** @returns {string} ten random bytes in hexadecimal */
function random() {
  const bytes = crypto.getRandomValues(new Uint8Array(10));
  return Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('');
}

/** @param {import('./garage.js').Op} op */
export function queued(op) {
  return { op_id: op.op_id, hlc: op.hlc, table: op.table, record_id: op.record_id, op };
}

/**
 * @param {Garage} garage
 * @param {EngineRow} row as it is now
 * @param {Stored|undefined} before
 * @returns {import('./garage-store.js').Keep}
 */
export function kept(garage, row, before) {
  const place = { table: row.table, record_id: row.record_id, row };
  if (!garage.token) return place;
  const known = before && !untold(garage, before) ? before : undefined;
  return { ...place, server: garage.id, base: known ? (known.base === undefined ? known.row : known.base) : null };
}
