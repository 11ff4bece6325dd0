/** Reads a garage from the phone's database, only as much of it as is asked for. */
import { unwrap } from 'idb';
import { changing, using } from './database.js';

/**
 * @typedef {import('./garage.js').EngineRow} EngineRow
 * @typedef {import('./garage-store.js').Stored} Stored
 * @typedef {import('./garage-store.js').Unsent} Unsent
 * @typedef {{garage: string, kind: 'bike'|'round', id: string, value: any, due?: number}} Summary `due` while it is
 *   older than its records; value is null when there is no such bike or round (any more)
 */

/** @param {string[]} begin of a key */
function from(...begin) {
  return IDBKeyRange.bound(begin, [...begin, []]);
}

/**
 * @param {string} key of the garage
 * @param {string} bikeId
 * @returns {Promise<EngineRow[]>} the bike with its chains, readings, care, distances and round checks
 */
export async function bikeRows(key, bikeId) {
  return (await eachBikeRows(key, [bikeId]))[0];
}

/** @param {string} key of the garage @param {string[]} bikeIds @returns {Promise<EngineRow[][]>} of each bike, of one moment */
export function eachBikeRows(key, bikeIds) {
  return using((db) => {
    const index = db.transaction('rows').store.index('home');
    const one = async (/** @type {string} */ id) => {
      /** @type {Stored[]} */
      const ofBike = await index.getAll([key, id]);
      const chains = ofBike.filter(({ table }) => table === 'chains');
      const ofChains = await Promise.all(chains.map((chain) => index.getAll([key, chain.record_id])));
      return [...ofBike, ...ofChains.flat()].map(({ row }) => row);
    };
    return Promise.all(bikeIds.map(one));
  });
}

/**
 * @param {string} key of the garage
 * @param {string} roundId
 * @returns {Promise<EngineRow[]>} the round with its checks and every bike
 */
export function roundRows(key, roundId) {
  return using(async (db) => {
    const { store } = db.transaction('rows');
    const all = await Promise.all([
      store.get([key, 'rounds', roundId]),
      store.index('round').getAll([key, roundId]),
      store.getAll(from(key, 'bikes')),
    ]);
    return all.flat().flatMap((one) => (one ? [one.row] : []));
  });
}

/**
 * @param {string} key of the garage
 * @param {string} table
 * @returns {Promise<EngineRow[]>} every record of it, removed ones too
 */
export function tableRows(key, table) {
  return using(async (db) => (await db.getAll('rows', from(key, table))).map(({ row }) => row));
}

/**
 * Every record of a garage, bit by bit.
 * @param {string} key of the garage
 * @param {string[]} after table and id of the last one before; [''] for the beginning
 * @param {number} most
 * @returns {Promise<Stored[]>}
 */
export function scanRows(key, after, most) {
  return using((db) => db.getAll('rows', IDBKeyRange.bound([key, ...after], [key, []], true), most));
}

/**
 * @param {string} key of the garage
 * @param {number} most
 * @returns {Promise<{garage: import('./garage-store.js').Garage|undefined, names: [table: string, record_id: string][]}>}
 *   the garage, and of its records' names so many at most, of one moment
 */
export function rowNames(key, most) {
  return using(async (db) => {
    const tx = db.transaction(['garages', 'rows']);
    const [garage, keys] = await Promise.all([
      tx.objectStore('garages').get(key),
      tx.objectStore('rows').getAllKeys(from(key), most),
    ]);
    return { garage, names: /** @type {string[][]} */ (keys).map(([, table, record_id]) => [table, record_id]) };
  });
}

/** So many summaries are read at once, so that no task is long. */
const SOME = 100;

/** @param {string} key of the garage @returns {Promise<Summary[]>} all of one moment */
export function summaries(key) {
  return using(async (db) => {
    const { store } = db.transaction('summaries');
    /** @type {Summary[]} */
    const all = [];
    for (let last = [key, 'bike']; ;) {
      const some = await store.getAll(IDBKeyRange.bound(last, [key, 'round', []], true), SOME);
      all.push(...some);
      if (some.length < SOME) return all;
      const { kind, id } = some[SOME - 1];
      last = [key, kind, id];
    }
  });
}

/**
 * @param {string} key of the garage
 * @param {{turn?: number, most?: number}} which only what that turn has touched; no more than so many
 * @returns {Promise<Summary[]>} those that are due to be made anew
 */
export function dueSummaries(key, { turn, most }) {
  const range = turn === undefined ? from(key) : IDBKeyRange.only([key, turn]);
  return using((db) => db.getAllFromIndex('summaries', 'due', range, most));
}

/**
 * Keeps summaries, except those whose records have changed since they were due.
 * @param {{made: Summary, ask: import('./forecasts.js').Ask|null}[]} all `ask`: what to ask about a bike's chain;
 *   beside the summary, for it may be much larger
 * @returns {Promise<void>}
 */
export function keepSummaries(all) {
  return changing(['summaries'], async (tx) => {
    const store = tx.objectStore('summaries');
    const there = await Promise.all(all.map(({ made }) => store.get([made.garage, made.kind, made.id])));
    for (const [i, { made, ask }] of all.entries()) {
      const { due, ...kept } = made;
      if (there[i]?.due !== due) continue;
      unwrap(store).put(kept);
      if (made.kind === 'bike') unwrap(store).put({ garage: made.garage, kind: 'ask', id: made.id, value: ask });
    }
  });
}

/** @param {string} key of the garage @param {string} bikeId @returns {Promise<import('./forecasts.js').Ask|null>} as kept with its summary */
export function keptAsk(key, bikeId) {
  return using(async (db) => (await db.get('summaries', [key, 'ask', bikeId]))?.value ?? null);
}

/** @param {string} key of the garage @param {string} bikeId marks its summary as due, for news that is no record */
export function dueBike(key, bikeId) {
  return changing(['summaries'], async (tx) => {
    const store = tx.objectStore('summaries');
    const now = await store.get([key, 'bike', bikeId]);
    if (now && now.due === undefined) await store.put({ ...now, due: 0 });
  });
}

/**
 * @param {string} key of the garage
 * @param {string} after only later clocks
 * @param {number} [most]
 * @returns {Promise<Unsent[]>} in the order in which they were made
 */
export function unsentAfter(key, after, most) {
  const range = IDBKeyRange.bound([key, after], [key, []], true);
  return using((db) => db.getAllFromIndex('unsent', 'order', range, most));
}

/** @param {string} key of the garage @returns {Promise<Unsent[]>} those the server did not take */
export function refusedOps(key) {
  return using((db) => db.getAllFromIndex('unsent', 'refused', from(key)));
}

/** @param {string} key of the garage @returns {Promise<number>} */
export function countUnsent(key) {
  return using((db) => db.countFromIndex('unsent', 'order', from(key)));
}

/**
 * @typedef {{chain_id: string, asked: string, forecast: any, judged: any}} Kept the engine's answers about a chain,
 *   and what it was asked for them: its build and the request
 */

/** @param {string} chainId @returns {Promise<Kept|undefined>} */
export function keptForecast(chainId) {
  return using((db) => db.get('forecasts', chainId));
}

/** @param {Kept} kept */
export function keepForecast(kept) {
  return using((db) => db.put('forecasts', kept));
}
