/**
 * The phone's database. `records` holds readings kept with no bike. A phone may
 * hold several garages; each has a line in `garages`, its records in `rows`,
 * the operations no server has taken yet in `unsent`, and what the screens list
 * in `summaries`. `forecasts` holds the engine's answers about a chain.
 *
 * To change the layout: add a step to UPGRADES; never edit a step that was
 * released.
 */
import { openDB, unwrap, wrap } from 'idb';
import { trouble } from './local.js';

/**
 * @typedef {{table: string, record_id: string, removed?: boolean, fields: Record<string, any>}} Row
 * @typedef {import('./local.js').Trouble} Trouble
 */

const NAME = 'tautspan';

/**
 * @typedef {import('idb').IDBPDatabase} Database
 * @typedef {import('idb').IDBPTransaction<any, any, 'versionchange'>} Upgrade
 * @typedef {import('idb').IDBPTransaction<any, any, 'readwrite'>} Change
 */

/** @type {((db: Database, tx: Upgrade) => void)[]} step n leads to version n + 1 */
const UPGRADES = [
  (db) => {
    db.createObjectStore('records', { keyPath: ['table', 'record_id'] }).createIndex('table', 'table');
    db.createObjectStore('unsent', { keyPath: 'op_id' }).createIndex('hlc', 'hlc');
  },
  (db, tx) => {
    db.createObjectStore('garages', { keyPath: 'key' });
    const rows = db.createObjectStore('rows', { keyPath: ['garage', 'table', 'record_id'] });
    rows.createIndex('home', ['garage', 'home']);
    rows.createIndex('round', ['garage', 'round']);
    const unsent = tx.objectStore('unsent');
    unsent.deleteIndex('hlc');
    unsent.createIndex('order', ['garage', 'hlc']);
    unsent.createIndex('record', ['garage', 'table', 'record_id']);
    unsent.createIndex('refused', ['garage', 'refused.code']);
    const summaries = db.createObjectStore('summaries', { keyPath: ['garage', 'kind', 'id'] });
    summaries.createIndex('due', ['garage', 'due']);
    db.createObjectStore('forecasts', { keyPath: 'chain_id' });
  },
];

/** Something the phone could not keep or find again, with the reason. */
export class KeepError extends Error {
  /** @param {Trouble} reason @param {unknown} cause */
  constructor(reason, cause) {
    super(`the phone could not keep or read this: ${reason}`, { cause });
    this.reason = reason;
  }
}

/** @type {Promise<Database>|null} */
let opening = null;

/** @type {(reason: Trouble) => void} */
let onTrouble = () => {};

/** @param {(reason: Trouble) => void} listener told when another tab stands in the way */
export function watchTrouble(listener) {
  onTrouble = listener;
}

function open() {
  opening ??= openDB(NAME, UPGRADES.length, {
    upgrade(db, from, _, tx) {
      for (const step of UPGRADES.slice(from)) step(db, /** @type {any} */ (tx));
    },
    blocked() {
      onTrouble('blocked');
    },
    async blocking() {
      (await opening)?.close();
      opening = null;
      onTrouble('newer');
    },
    terminated() {
      opening = null;
    },
  });
  opening.catch(() => {
    opening = null;
  });
  return opening;
}

/**
 * @template T
 * @param {(db: Database) => Promise<T>} work
 * @returns {Promise<T>}
 * @throws {KeepError}
 */
export async function using(work) {
  try {
    return await work(await open());
  } catch (error) {
    throw new KeepError(trouble(error), error);
  }
}

/**
 * Changes what is kept: as a whole, or not at all when the work throws, for a
 * transaction by itself would keep what was put before that.
 * @template T
 * @param {string[]} stores
 * @param {(tx: Change) => Promise<T>} work
 * @param {IDBTransactionDurability} [durability] 'strict': on the disk when the promise is fulfilled
 * @returns {Promise<T>}
 * @throws {KeepError}
 */
export function changing(stores, work, durability = 'default') {
  return using(async (db) => {
    const tx = db.transaction(stores, 'readwrite', { durability });
    tx.done.catch(() => {}); // thrown below
    try {
      const result = await work(tx);
      await tx.done;
      return result;
    } catch (error) {
      const cause = tx.error ?? error;
      try {
        tx.abort();
      } catch {
        // It has ended by itself.
      }
      throw cause;
    }
  });
}

/** So many values are put before the page may answer. */
const SLICE = 50;

/**
 * Puts any number of values as part of a transaction, whose end says whether it
 * went well: no promise for each, and no long task.
 * @param {import('idb').IDBPObjectStore<any, any, any, 'readwrite'>} store
 * @param {object[]} values
 */
export async function putAll(store, values) {
  const plain = unwrap(store);
  for (let i = 0; i < values.length; i += SLICE) {
    const [first] = values.slice(i, i + SLICE).map((value) => plain.put(value));
    if (i + SLICE < values.length) await wrap(first); // the others are under way meanwhile
  }
}

/**
 * @param {import('idb').IDBPObjectStore<any, any, any, any>} store
 * @param {string[][]} keys any number
 * @returns {Promise<any[]>} what is there, undefined where nothing is
 */
export async function getEach(store, keys) {
  const plain = unwrap(store);
  const requests = keys.map((key) => plain.get(key));
  if (requests.length) await wrap(requests[requests.length - 1]); // they are answered in their order
  return requests.map(({ result }) => result);
}

/**
 * Keeps readings that have no bike. They are on the disk when the promise is
 * fulfilled.
 * @param {Row[]} rows
 * @returns {Promise<void>}
 * @throws {KeepError}
 */
export function write(rows) {
  return changing(['records'], (tx) => putAll(tx.objectStore('records'), rows), 'strict');
}

/**
 * @param {string} table
 * @returns {Promise<Row[]>} every row of it that is not removed
 * @throws {KeepError}
 */
export function rows(table) {
  return using(async (db) => {
    const all = await db.getAllFromIndex('records', 'table', table);
    return all.filter((row) => !row.removed);
  });
}
