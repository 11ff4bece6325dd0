/** Changes of the rider's, stamped by the engine and kept as a whole. */
import { engine } from '../engine/engine.js';
import { commit, recall } from './garage-store.js';
import { currentKept } from './garage-state.js';
import { newId } from './ids.js';
import { inTurn } from './tabs.js';

/**
 * @typedef {import('./garage.js').Change} Change
 * @typedef {import('./garage.js').EngineRow} EngineRow
 * @typedef {import('./garage-store.js').Garage} Garage
 * @typedef {import('./garage-store.js').Stored} Stored
 */

/**
 * @param {Change[]} changes
 * @returns {Promise<{ids: string[], turn: number, first: boolean}>} the records' ids, the garage's turn that holds
 *   them, and whether it is its first
 */
export function change(changes) {
  const named = changes.map((one) => ({ ...one, record_id: one.record_id ?? newId() }));
  return inTurn('records', async () => {
    const { key } = await currentKept();
    for (;;) {
      const turn = await attempt(key, named);
      if (!turn) continue;
      return { ids: named.map(({ record_id }) => record_id), turn, first: turn === 1 };
    }
  });
}

/**
 * @param {string} key
 * @param {(Change & {record_id: string})[]} changes
 * @returns {Promise<number>} the turn, 0 when another tab was quicker
 */
async function attempt(key, changes) {
  const { garage, rows } = await recall(
    key,
    changes.map(({ table, record_id }) => [table, record_id]),
  );
  const answer = await stamp(
    garage,
    [...rows.values()].map(({ row }) => row),
    changes,
  );
  return commit(key, garage.turn, {
    rows: answer.rows.map((row) => kept(garage, row, rows.get(`${row.table}/${row.record_id}`))),
    unsent: garage.token ? answer.ops.map(queued) : [],
    garage: { clock: answer.hlc },
  });
}

/**
 * @param {Garage} garage
 * @param {EngineRow[]} rows those that are to be changed, as far as they are there
 * @param {(Change & {record_id: string, whole?: boolean})[]} changes
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
 * @returns {Omit<Stored, 'home'|'round'|'garage'>}
 */
function kept({ token }, row, before) {
  const place = { table: row.table, record_id: row.record_id, row };
  if (!token) return { ...place, local: true };
  return { ...place, base: before ? (before.base === undefined ? before.row : before.base) : null };
}
