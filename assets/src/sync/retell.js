/**
 * A server that was set back to an earlier state, by a restore for instance, is
 * told again what it has lost. First all that it had is put aside, then what it
 * has now is heard from the beginning, and only then the phone sends: what is
 * missing, with the clocks of then, and what was unsent. Each step may be cut
 * short and begun again.
 */
import { EngineFault } from '../engine/bridge.js';
import { queued, stamp } from '../data/change.js';
import { scanRows } from '../data/garage-read.js';
import { commit, garageNamed, recall } from '../data/garage-store.js';
import { untilKept } from '../data/tabs.js';
import { BATCH } from '../data/whole.js';
import { kept, toTell } from './lost.js';
import { name, records, still } from './take.js';

/**
 * @typedef {import('../data/garage-store.js').Garage} Garage
 * @typedef {import('../data/garage-store.js').Stored} Stored
 * @typedef {import('../data/garage.js').Op} Op
 */

/**
 * Notes that the server was set back.
 * @param {Garage} asked the garage as it was when the server was asked
 * @param {string} cursor of the server's beginning
 */
export function setBack(asked, cursor) {
  return untilKept(async () => {
    const now = await garageNamed(asked.key);
    if (!still(asked, now)) return Infinity;
    return commit(now.key, now.turn, { garage: { cursor, past: (now.past ?? 0) + 1, retelling: 'aside' } });
  });
}

/** @param {string} key puts aside what the server had of each record: it counts as having nothing until it is heard */
export async function putAside(key) {
  await eachBatch(key, (garage, rows) => ({
    before: rows,
    rows: told(garage, rows).map((one) => ({
      ...place(one),
      knew: one.knew === undefined ? (one.base === undefined ? one.row : one.base) : one.knew,
      base: null,
    })),
  }));
  await step(key, 'hear');
}

/** @param {string} key queues what the server did not have any more, after all it has was heard */
export async function retell(key) {
  await eachBatch(key, async (garage, rows, unsent) => {
    const aside = told(garage, rows).filter(({ knew }) => knew !== undefined);
    const { ops, silent } = await again(garage, aside);
    const waiting = new Set([...unsent, ...ops].map(name));
    return {
      before: rows,
      rows: aside.map((one) => {
        const base = one.knew && silent.has(one) ? kept(one.knew, one.base ?? undefined) : (one.base ?? null);
        return { ...place(one), knew: undefined, ...(waiting.has(name(one)) ? { base } : {}) };
      }),
      unsent: ops.map((op) => ({ ...queued(op), again: true })),
    };
  });
  await step(key, '');
}

/**
 * @param {Garage} garage
 * @param {Stored[]} aside
 * @returns {Promise<{ops: Op[], silent: Set<Stored>}>} what to tell, and the records of which this phone may tell nothing
 */
async function again(garage, aside) {
  const silent = new Set(aside);
  let changes = aside.flatMap((one) => {
    const all = one.knew ? toTell(one.knew, one.base ?? undefined, garage) : [];
    if (all.length) silent.delete(one);
    return all.map((change) => ({ one, change: { table: one.table, record_id: one.record_id, ...change } }));
  });
  const bases = aside.flatMap(({ base }) => base ?? []);
  while (changes.length) {
    try {
      const { ops } = await stamp(garage, bases, /** @type {any[]} */ (changes.map(({ change }) => change)));
      return { ops, silent };
    } catch (error) {
      const place = error instanceof EngineFault && error.fault.field.match(/^changes\[(\d+)\]/);
      if (!place) throw error;
      const { one } = changes[Number(place[1])];
      silent.add(one); // of a version that this page does not know, for instance
      changes = changes.filter((other) => other.one !== one);
    }
  }
  return { ops: [], silent };
}

/** @param {Garage} garage @param {Map<string, Stored>} rows @returns {Stored[]} those its server was told of */
function told({ id }, rows) {
  return [...rows.values()].filter(({ server }) => server === id);
}

/** @param {Stored} stored */
function place({ table, record_id, row, server }) {
  return { table, record_id, row, server };
}

/**
 * @param {string} key
 * @param {(garage: Garage, rows: Map<string, Stored>, unsent: import('../data/garage-store.js').Unsent[]) =>
 *   import('../data/garage-store.js').Commit | Promise<import('../data/garage-store.js').Commit>} work
 */
async function eachBatch(key, work) {
  for (let last = ['']; ;) {
    const batch = await scanRows(key, last, BATCH);
    if (!batch.length) return;
    last = [batch[batch.length - 1].table, batch[batch.length - 1].record_id];
    await untilKept(async () => {
      const { garage, rows, unsent } = await recall(key, records(batch));
      return garage ? commit(key, garage.turn, await work(garage, rows, unsent)) : Infinity;
    });
  }
}

/** @param {string} key @param {''|'hear'} retelling */
function step(key, retelling) {
  return untilKept(async () => {
    const now = await garageNamed(key);
    return now ? commit(key, now.turn, { garage: { retelling } }) : Infinity;
  });
}
