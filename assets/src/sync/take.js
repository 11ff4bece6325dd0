/**
 * Takes an answer of the server's into the phone. Applying it again, or only
 * its beginning, does no harm: merging is idempotent, and the cursor moves last.
 */
import { engine } from '../engine/engine.js';
import { commit, recall } from '../data/garage-store.js';
import { untilKept } from '../data/tabs.js';
import { chunks, passes } from './rhythm.js';

/**
 * @typedef {import('../data/garage.js').Op} Op
 * @typedef {import('../data/garage.js').EngineRow} EngineRow
 * @typedef {import('../data/garage-store.js').Stored} Stored
 * @typedef {import('../data/garage-store.js').Unsent} Unsent
 * @typedef {import('../data/garage-store.js').Garage} Garage
 * @typedef {import('./known.js').Known} Known
 * @typedef {import('../data/garage.js').Refusal & {op_id: string}} Rejection
 * @typedef {{cursor: string, ops: Op[], more: boolean, set_back: boolean, rejected: Rejection[],
 *   role?: Garage['role']}} Answer an older server tells no role
 */

/** So many operations are merged and written at once, so that the screen stays quick. */
const BATCH = 250;

/** @param {Answer} answer that comes next: the engine begins with it while what came before is written @param {Known} known */
export function prepare({ ops }, known) {
  if (ops.length) known.prepare(ops.slice(0, BATCH));
}

/** @param {{table: string, record_id: string}} one */
export const name = ({ table, record_id }) => `${table}/${record_id}`;

/**
 * @param {Garage} asked the garage as it was when the server was asked; when another tab was quicker the answer,
 *   which may be one from before the server was set back, is not taken
 * @param {Unsent[]} sent
 * @param {Answer} answer to them
 * @param {Known|null} known
 * @returns {Promise<boolean>} whether it was taken
 */
export async function take(asked, sent, answer, known) {
  const parts = chunks(answer.ops, BATCH);
  for (const [i, ops] of parts.entries()) {
    const made = known?.prepared(ops) ?? null;
    if (i + 1 < parts.length) known?.prepare(parts[i + 1]);
    await untilKept(() => pulled(asked, ops, known, made));
  }
  const refused = new Map(answer.rejected.map((one) => [one.op_id, one]));
  let turn = 0;
  const batches = sent.length ? chunks(sent, BATCH) : [[]];
  for (const [i, batch] of batches.entries()) {
    const last = i === batches.length - 1;
    const { cursor, role = asked.role } = answer;
    const also = last ? { cursor, role, at: new Date().toISOString() } : {};
    turn = await untilKept(() => answered(asked, batch, refused, also, known));
  }
  return turn !== Infinity;
}

/**
 * @param {Garage} asked
 * @param {Garage|undefined} now
 * @returns {now is Garage} whether an answer to what was asked then counts now
 */
export function still(asked, now) {
  return now !== undefined && now.cursor === asked.cursor && now.past === asked.past;
}

/**
 * @param {string} key
 * @param {[table: string, record_id: string][]} places
 * @param {Known|null} known
 * @returns {ReturnType<typeof recall>} of the garage as it is now
 */
async function there(key, places, known) {
  const some = known?.among(places) ?? places;
  const found = await recall(key, some);
  return some.length === places.length || (found.garage && known?.holds(found.garage.turn))
    ? found
    : recall(key, places);
}

/**
 * Merges operations from the server.
 * @param {Garage} asked
 * @param {Op[]} ops
 * @param {Known|null} known
 * @param {ReturnType<typeof merge>|null} made of records that are not there yet
 */
async function pulled(asked, ops, known, made) {
  const { key } = asked;
  const { garage, rows } = await there(key, records(ops), known);
  if (!still(asked, garage)) return Infinity;
  const old = [...rows.values()].map(({ row }) => row);
  const merged = await ((!old.length && made) || merge(old, ops));
  const bases = await mergedBases([...rows.values()], ops);
  const knew = await mergedBases(
    [...rows.values()].map((one) => ({ ...one, base: one.knew })),
    ops,
  );
  const turn = await commit(key, garage.turn, {
    before: rows,
    rows: merged.rows.map((row) => {
      const before = rows.get(name(row));
      const base = before?.base === undefined ? {} : { base: bases.get(name(row)) ?? null };
      const aside = before?.knew === undefined ? {} : { knew: knew.get(name(row)) ?? null };
      return { table: row.table, record_id: row.record_id, row, server: garage.id, ...base, ...aside };
    }),
    sent: ops.map(({ op_id }) => op_id), // what comes back is on the server, whatever was answered before
    garage: { clock: later(garage.clock, merged.hlc), seen: later(garage.seen, merged.hlc) },
    lax: true, // the cursor moves last, and not laxly
  });
  known?.changed(garage.turn, turn, records(ops));
  return turn;
}

/**
 * Notes what became of operations that were sent. A record loses what was
 * refused for good, and keeps what waits.
 * @param {Garage} asked
 * @param {Unsent[]} batch
 * @param {Map<string, Rejection>} refusals
 * @param {Partial<Garage>} also
 * @param {Known|null} known
 */
async function answered(asked, batch, refusals, also, known) {
  const { key } = asked;
  const { garage, rows, unsent } = await recall(key, records(batch));
  if (!still(asked, garage)) return Infinity;
  const refused = new Map(refusals);
  for (const one of batch) if (covered(one, rows.get(name(one))?.base)) refused.delete(one.op_id);
  const accepted = batch.filter(({ op_id }) => !refused.has(op_id));
  const lost = batch.filter(({ op_id }) => refused.has(op_id) && !passes(refused.get(op_id)?.code ?? ''));
  const bases = await mergedBases(
    [...rows.values()],
    accepted.map(({ op }) => op),
  );
  const out = new Set([...accepted, ...lost].map(({ op_id }) => op_id));
  const left = unsent.filter((one) => !out.has(one.op_id) && (!one.refused || one.waits)).map(({ op }) => op);
  const redone = new Set(lost.map(name));
  const undone = await merge(
    [...redone].flatMap((one) => bases.get(one) ?? []),
    left.filter((op) => redone.has(name(op))),
  );
  const shown = new Map(undone.rows.map((row) => [name(row), row]));
  const kept = [...rows.values()].filter((one) => !redone.has(name(one)) || shown.has(name(one)));
  const turn = await commit(key, garage.turn, {
    before: rows,
    rows: kept.map(({ table, record_id, row, base, server }) => ({
      ...{ table, record_id, row: shown.get(`${table}/${record_id}`) ?? row, ...(server ? { server } : {}) },
      ...(base === undefined ? {} : { base: bases.get(`${table}/${record_id}`) ?? null }),
    })),
    gone: [...rows.values()].filter((one) => !kept.includes(one)).map((one) => [one.table, one.record_id]),
    unsent: batch.flatMap((one) => {
      const why = refused.get(one.op_id);
      if (!why) return [];
      const { code, field, message } = why;
      return [{ ...one, refused: { code, field, message }, waits: passes(code) }];
    }),
    sent: accepted.map(({ op_id }) => op_id),
    garage: also,
  });
  known?.changed(garage.turn, turn);
  return turn;
}

/**
 * @param {Unsent} unsent
 * @param {EngineRow|null|undefined} base
 * @returns {boolean} whether the server has all it says: the same, told by another phone or, of what is told again,
 *   something later
 */
function covered({ op, again }, base) {
  if (!base) return false;
  const made = `${op.hlc} ${op.device_id}`;
  const has = (stamp = '') => (again ? stamp >= op.hlc : stamp.startsWith(made));
  return op.put ? Object.keys(op.put).every((field) => has(base.stamps[field])) : has(base.removed_at ?? '');
}

/**
 * @param {Stored[]} stored
 * @param {Op[]} ops that the server has
 * @returns {Promise<Map<string, EngineRow>>} the records as the server has them, those it has
 */
async function mergedBases(stored, ops) {
  const based = stored.filter(({ base }) => base !== undefined);
  const named = new Set(based.map(name));
  const { rows } = await merge(
    based.flatMap(({ base }) => base ?? []),
    ops.filter((op) => named.has(name(op))),
  );
  return new Map(rows.map((row) => [name(row), row]));
}

/**
 * @param {EngineRow[]} rows
 * @param {Op[]} ops
 * @returns {Promise<{rows: EngineRow[], hlc: string}>}
 */
export async function merge(rows, ops) {
  return ops.length ? engine.records('merge', { rows, ops }) : { rows, hlc: '' };
}

/** @param {{table: string, record_id: string}[]} list @returns {[string, string][]} each record once */
export function records(list) {
  return [
    ...new Map(list.map((one) => [name(one), /** @type {[string, string]} */ ([one.table, one.record_id])])).values(),
  ];
}

/** @param {string} a @param {string} b clocks @returns {string} */
function later(a, b) {
  return a > b ? a : b;
}
