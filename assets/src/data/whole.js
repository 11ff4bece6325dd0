/**
 * Whole records put anew: into a garage that a server is told of for the first
 * time, from one garage of the phone into another, from a file.
 */
import { kept, queued, stamp } from './change.js';
import { scanRows } from './garage-read.js';
import { commit, forget, garageNamed, recall } from './garage-store.js';
import { shown } from './meaning.js';
import { untilKept } from './tabs.js';

/**
 * @typedef {import('./garage-store.js').Stored} Stored
 * @typedef {{table: string, record_id: string, put: Record<string, any>}} Whole
 */

/** So many records go through the engine and into the database at once, so that no task is long. */
export const BATCH = 100;

/**
 * Puts records that the garage does not have, or has removed. What is there
 * stays as it is. A power cut may undo that until `settle` was called.
 * @param {string} key of the garage
 * @param {Whole[]} records any number
 * @returns {Promise<number>} how many were put
 * @throws {import('../engine/bridge.js').EngineFault|import('./database.js').KeepError} what was put before stays
 */
export async function putWhole(key, records) {
  let put = 0;
  for (let i = 0; i < records.length; i += BATCH) {
    let missing = 0;
    await untilKept(async () => {
      const found = await putBatch(key, records.slice(i, i + BATCH));
      missing = found.missing;
      return found.turn;
    });
    put += missing;
  }
  return put;
}

/** Makes sure that what was put outlives a power cut. @param {string} key of the garage */
export function settle(key) {
  return untilKept(async () => {
    const now = await garageNamed(key);
    return now ? commit(key, now.turn, {}) : Infinity;
  });
}

/** @param {string} key @param {Whole[]} records */
async function putBatch(key, records) {
  const { garage, rows } = await recall(
    key,
    records.map(({ table, record_id }) => [table, record_id]),
  );
  const name = (/** @type {Whole|import('./garage.js').EngineRow} */ one) => `${one.table}/${one.record_id}`;
  const wanted = new Map(records.map((one) => [name(one), one]));
  const missing = [...wanted.values()].filter((one) => rows.get(name(one))?.row.removed ?? true);
  if (!missing.length) return { missing: 0, turn: garage.turn };
  const hidden = missing.flatMap((one) => rows.get(name(one))?.row ?? []);
  const changes = missing.map(({ table, record_id, put }) => ({ table, record_id, put, whole: true }));
  const answer = await stamp(garage, hidden, changes);
  const turn = await commit(key, garage.turn, {
    before: rows,
    rows: answer.rows.map((row) => kept(garage, row, rows.get(name(row)))),
    unsent: garage.token ? answer.ops.map(queued) : [],
    garage: { clock: answer.hlc },
    lax: true,
  });
  return { missing: missing.length, turn };
}

/**
 * Queues every record the garage's server was never told of. May be cut short
 * and begun again.
 * @param {string} key
 * @returns {Promise<void>}
 */
export async function adopt(key) {
  const garage = await garageNamed(key);
  if (!garage?.adopting) return;
  for (let last = ['']; ;) {
    const batch = await scanRows(key, last, BATCH);
    if (!batch.length) break;
    last = [batch[batch.length - 1].table, batch[batch.length - 1].record_id];
    await untilKept(() => adoptBatch(key, batch));
  }
  await untilKept(async () => {
    const now = await garageNamed(key);
    return now ? commit(key, now.turn, { garage: { adopting: false } }) : Infinity;
  });
}

/** @param {string} key @param {Stored[]} batch */
async function adoptBatch(key, batch) {
  const { garage, rows } = await recall(
    key,
    batch.map(({ table, record_id }) => [table, record_id]),
  );
  const untold = [...rows.values()].filter((one) => one.server !== garage.id);
  const visible = untold.filter(({ row }) => !row.removed);
  const gone = untold.filter(({ row }) => row.removed);
  if (!untold.length) return garage.turn;
  const changes = visible.map(({ table, record_id, row }) => ({ table, record_id, put: shown(row), whole: true }));
  const answer = changes.length ? await stamp(garage, [], changes) : { rows: [], ops: [], hlc: garage.clock };
  return commit(key, garage.turn, {
    before: rows,
    rows: answer.rows.map((row) => kept(garage, row, undefined)),
    gone: gone.map(({ table, record_id }) => [table, record_id]),
    unsent: answer.ops.map(queued),
    garage: { clock: answer.hlc },
  });
}

/**
 * Moves a garage of this phone into another one; the records keep their ids.
 * It is taken off the phone once all of it is in the other.
 * @param {string} from
 * @param {string} into
 * @returns {Promise<number>} how many records were put
 */
export async function bringIn(from, into) {
  let put = 0;
  for (let last = ['']; ;) {
    const batch = await scanRows(from, last, BATCH);
    if (!batch.length) break;
    last = [batch[batch.length - 1].table, batch[batch.length - 1].record_id];
    const visible = batch.filter(({ row }) => !row.removed);
    put += await putWhole(
      into,
      visible.map(({ table, record_id, row }) => ({ table, record_id, put: shown(row) })),
    );
  }
  await settle(into);
  await forget(from);
  return put;
}
