/**
 * The phone's database. `records` holds everything the rider has, `unsent` the
 * operations no server has answered yet; both change in one transaction, so
 * that a record and its operation are kept together or not at all.
 *
 * To change the layout: raise VERSION and add a step to UPGRADES; never edit a
 * step that was released.
 */
import { openDB } from 'idb';
import { trouble } from './local.js';

/**
 * @typedef {{table: string, record_id: string, removed?: boolean, fields: Record<string, any>}} Row
 * @typedef {{op_id: string, hlc: string, device_id: string, table: string, record_id: string,
 *   put?: Record<string, any>, remove?: true}} Op
 * @typedef {import('./local.js').Trouble} Trouble
 */

const NAME = 'tautspan';

/** @type {((db: import('idb').IDBPDatabase) => void)[]} step n leads to version n + 1 */
const UPGRADES = [
  (db) => {
    db.createObjectStore('records', { keyPath: ['table', 'record_id'] }).createIndex('table', 'table');
    db.createObjectStore('unsent', { keyPath: 'op_id' }).createIndex('hlc', 'hlc');
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

/** @type {Promise<import('idb').IDBPDatabase>|null} */
let opening = null;

/** @type {(reason: Trouble) => void} */
let onTrouble = () => {};

/** @param {(reason: Trouble) => void} listener told when another tab stands in the way */
export function watchTrouble(listener) {
  onTrouble = listener;
}

function open() {
  opening ??= openDB(NAME, UPGRADES.length, {
    upgrade(db, from) {
      for (const step of UPGRADES.slice(from)) step(db);
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
 * @param {(db: import('idb').IDBPDatabase) => Promise<T>} work
 * @returns {Promise<T>}
 * @throws {KeepError}
 */
async function using(work) {
  try {
    return await work(await open());
  } catch (error) {
    throw new KeepError(trouble(error), error);
  }
}

/**
 * Keeps rows, and the operations that say the same to the server, at once. They
 * are on the disk when the promise is fulfilled.
 * @param {Row[]} rows
 * @param {Op[]} [ops]
 * @returns {Promise<void>}
 * @throws {KeepError}
 */
export function write(rows, ops = []) {
  return using(async (db) => {
    const tx = db.transaction(['records', 'unsent'], 'readwrite', { durability: 'strict' });
    for (const row of rows) tx.objectStore('records').put(row);
    for (const op of ops) tx.objectStore('unsent').put(op);
    await tx.done;
  });
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
