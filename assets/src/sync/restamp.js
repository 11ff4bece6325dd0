/** Unsent operations made anew: with a clock that was put right, or as another device. */
import { EngineFault } from '../engine/bridge.js';
import { queued, stamp } from '../data/change.js';
import { refusedOps, unsentAfter } from '../data/garage-read.js';
import { commit, recall } from '../data/garage-store.js';
import { untilKept } from '../data/tabs.js';
import { merge, records } from './take.js';

/**
 * @typedef {import('../data/garage.js').EngineRow} EngineRow
 * @typedef {import('../data/garage-store.js').Garage} Garage
 * @typedef {import('../data/garage-store.js').Stored} Stored
 * @typedef {import('../data/garage-store.js').Unsent} Unsent
 */

/** So many operations are made anew at once. */
const BATCH = 200;

/**
 * Gives operations that were stamped ahead of the server's clock the time it
 * is now.
 * @param {string} key of the garage
 */
export async function restampAhead(key) {
  const ahead = (await refusedOps(key)).filter(({ refused }) => refused?.code === 'clock_ahead');
  ahead.sort((a, b) => (a.hlc < b.hlc ? -1 : 1));
  for (let i = 0; i < ahead.length; i += BATCH) await restamp(key, ahead.slice(i, i + BATCH), {});
}

/**
 * Gives whatever is unsent to another device of the same garage: this phone,
 * which has joined it again. What is told again keeps its clocks.
 * @param {Garage} before
 * @param {Partial<Garage>} device
 */
export async function restampAs({ key, device_id, former = [] }, device) {
  const all = (await unsentAfter(key, '')).filter((one) => !one.refused || one.waits);
  const again = all.filter((one) => one.again);
  const mine = again.filter(({ op }) => op.device_id === device_id);
  const renamed = mine.map((one) => ({ ...one, op: { ...one.op, device_id: device.device_id ?? device_id } }));
  const garage = { ...device, former: [...former, device_id] };
  const fresh = all.filter((one) => !one.again);
  await restamp(key, fresh, garage, renamed);
}

/**
 * @param {string} key
 * @param {Unsent[]} old in their order; no server has them
 * @param {Partial<Garage>} device what changes about the garage
 * @param {Unsent[]} [also] to keep as they are
 */
function restamp(key, old, device, also = []) {
  return untilKept(async () => {
    const { garage, rows, unsent } = await recall(key, records(old));
    if (!old.length) return commit(key, garage.turn, { garage: device, unsent: also });
    const bases = [...rows.values()].flatMap(({ base }) => base ?? []);
    const { answer, lost } = await stampMost({ ...garage, ...device, clock: garage.seen }, bases, old);
    const out = new Set(old.map(({ op_id }) => op_id));
    const others = unsent.filter((one) => !out.has(one.op_id) && (!one.refused || one.waits)).map(({ op }) => op);
    const { rows: now } = await merge(answer.rows, others);
    const shown = new Set(now.map(({ table, record_id }) => `${table}/${record_id}`));
    const gone = [...rows.values()].filter(({ table, record_id }) => !shown.has(`${table}/${record_id}`));
    return commit(key, garage.turn, {
      before: rows,
      rows: now.map((row) => {
        const { base, server, knew, row: was } = /** @type {Stored} */ (rows.get(`${row.table}/${row.record_id}`));
        return { table: row.table, record_id: row.record_id, row: knew ? was : row, base, server };
      }),
      gone: gone.map(({ table, record_id }) => [table, record_id]),
      unsent: [...lost, ...also, ...answer.ops.map(queued)],
      sent: [...out],
      garage: { ...device, clock: answer.hlc },
    });
  });
}

/**
 * Stamps what the engine lets through; another role may do less than before.
 * @param {Garage} garage
 * @param {EngineRow[]} bases
 * @param {Unsent[]} old
 * @returns {Promise<{answer: {ops: import('../data/garage.js').Op[], rows: EngineRow[], hlc: string}, lost: Unsent[]}>}
 */
async function stampMost(garage, bases, old) {
  const left = [...old];
  /** @type {Unsent[]} */
  const lost = [];
  while (left.length) {
    try {
      const changes = left.map(({ op: { table, record_id, put, remove } }) => ({ table, record_id, put, remove }));
      return { answer: await stamp(garage, bases, changes), lost };
    } catch (error) {
      const place = error instanceof EngineFault && error.fault.field.match(/^changes\[(\d+)\]\.?(.*)/);
      if (!place) throw error;
      const [one] = left.splice(Number(place[1]), 1);
      lost.push({ ...one, refused: { ...error.fault, field: place[2] }, waits: false });
    }
  }
  return { answer: { ops: [], rows: bases, hlc: garage.clock }, lost };
}
