/**
 * Garages in the phone's database. Whatever changes a garage's records does it
 * in one transaction, `commit`, which refuses when another tab was quicker:
 * every commit counts the garage's `turn` up, and names the turn it was worked
 * out from.
 */
import { unwrap } from 'idb';
import { changing, getEach, putAll, using } from './database.js';
import { home, sameMeaning, targets } from './touch.js';

/**
 * @typedef {import('./garage.js').EngineRow} EngineRow
 * @typedef {import('./garage.js').Op} Op
 * @typedef {{key: string, id: string, name: string, role: 'owner'|'leader'|'checker'|'viewer', device_id: string,
 *   token: string, cursor: string, clock: string, seen: string, turn: number, shut: ''|'revoked'|'gone',
 *   at: string|null, adopting?: boolean, former?: string[], past?: number, retelling?: ''|'aside'|'hear'}} Garage
 *   `key` is its name on this phone; id and token are empty while no server has it; `clock` is the latest known,
 *   own or seen, `seen` the latest the server has; `shut` says why the server does not talk to this phone any
 *   more; `adopting` while records from before are still to be told to the server; `former`: device ids from before
 *   it joined again; `past`: how often the server was set back to an earlier state, `retelling` while it is told again
 * @typedef {{garage: string, table: string, record_id: string, home: string, round?: string, row: EngineRow,
 *   base?: EngineRow|null, knew?: EngineRow|null, server?: string}} Stored `row` is what the rider sees; `base` what the server has, kept
 *   while operations are unsent, null for nothing; `knew` what it had before it was set back; `server`: the id of the garage that was told of it, or will be
 * @typedef {{op_id: string, garage: string, hlc: string, table: string, record_id: string, op: Op,
 *   refused?: import('./garage.js').Refusal, waits?: boolean, again?: boolean}} Unsent `refused` says why the server
 *   did not take it; with `waits` it is sent again all the same; `again`: the server had it before it was set back
 * @typedef {Omit<Stored, 'home'|'round'|'garage'>} Keep
 * @typedef {{before?: Map<string, Stored>, rows?: Keep[], gone?: [string, string][], unsent?: Omit<Unsent, 'garage'>[],
 *   sent?: string[], garage?: Partial<Garage>, lax?: boolean}} Commit what was there as `recall` gave it, rows to keep and to drop, operations to keep and, by id,
 *   to drop; a base that no unsent operation needs any more is dropped too; `lax`: need not survive a power cut that
 *   comes before the next commit, because the server has it
 */

/** @returns {Promise<Garage[]>} in the order in which they came to this phone */
export function garages() {
  return using((db) => db.getAll('garages'));
}

/** @param {string} key @returns {Promise<Garage|undefined>} */
export function garageNamed(key) {
  return using((db) => db.get('garages', key));
}

/** @param {Garage} garage a new one; one of this key that is there already stays, for another tab may have been quicker */
export function addGarage(garage) {
  return changing(['garages'], async (tx) => {
    const store = tx.objectStore('garages');
    if (!(await store.get(garage.key))) await store.add(garage);
  });
}

/**
 * @param {string} key of the garage
 * @param {[table: string, record_id: string][]} ids
 * @returns {Promise<{garage: Garage, rows: Map<string, Stored>, unsent: Unsent[]}>} by `table/record_id`, those
 *   that are there, and the operations on them that no server has taken
 */
export function recall(key, ids) {
  return using(async (db) => {
    const tx = db.transaction(['garages', 'rows', 'unsent']);
    const garage = await tx.objectStore('garages').get(key);
    const found = await getEach(
      tx.objectStore('rows'),
      ids.map((id) => [key, ...id]),
    );
    /** @type {Map<string, Stored>} */
    const rows = new Map();
    for (const one of found) if (one) rows.set(`${one.table}/${one.record_id}`, one);
    const index = tx.objectStore('unsent').index('record');
    const based = found.filter((one) => one && one.base !== undefined);
    const lists = await Promise.all(based.map((one) => index.getAll([key, one.table, one.record_id])));
    return { garage, rows, unsent: lists.flat() };
  });
}

/**
 * Changes a garage as a whole, or not at all.
 * @param {string} key
 * @param {number} turn of the garage the change was worked out from
 * @param {Commit} change
 * @returns {Promise<number>} the new turn; 0 when another tab was quicker: work it out anew
 */
export function commit(key, turn, { before, rows = [], gone = [], unsent = [], sent = [], garage, lax }) {
  /** @param {import('./database.js').Change} tx */
  async function work(tx) {
    const now = await tx.objectStore('garages').get(key);
    if (now?.turn !== turn) return 0;
    const store = tx.objectStore('rows');
    const next = { ...now, ...garage, turn: turn + 1 };
    const was = (/** @type {Named} */ one) => before?.get(name(one));
    await tx.objectStore('garages').put(next);
    const queue = tx.objectStore('unsent');
    if (sent.length && (await queue.count())) for (const id of sent) unwrap(queue).delete(id);
    for (const id of gone) unwrap(store).delete([key, ...id]);
    const queued = unsent.map((op) => ({ ...op, garage: key }));
    await putAll(queue, queued);
    const told = new Set(queued.filter(open).map(name));
    const based = await Promise.all(
      rows.map(async (one) => {
        return one.base !== undefined && (next.retelling || told.has(name(one)) || awaited(tx, [key, ...place(one)]));
      }),
    );
    await putAll(
      store,
      rows.map(({ base, ...rest }, i) => {
        const { table, row } = rest;
        const round = table === 'round_checks' ? { round: String(row.fields.round_id) } : {};
        const aside = next.retelling ? { knew: was(rest)?.knew } : {};
        return { garage: key, ...aside, ...rest, ...round, ...(based[i] ? { base } : {}), home: home(row) };
      }),
    );
    const changed = rows.filter((one) => !sameMeaning(was(one)?.row, one.row));
    const touched = [...changed, ...gone.map(([table, record_id]) => ({ table, record_id }))];
    const old = touched.flatMap((one) => was(one)?.row ?? []);
    await mark(tx, key, turn + 1, [...old, ...changed.map(({ row }) => row)]);
    return turn + 1;
  }
  return changing(['garages', 'rows', 'unsent', 'summaries'], work, lax ? 'relaxed' : 'strict');
}

/**
 * @param {import('./database.js').Change} tx
 * @param {string[]} record
 * @returns {Promise<boolean>} whether operations on it are still to be sent
 */
async function awaited(tx, record) {
  /** @type {Unsent[]} */
  const all = await tx.objectStore('unsent').index('record').getAll(record);
  return all.some(open);
}

/** @param {Pick<Unsent, 'refused'|'waits'>} op @returns {boolean} whether it is still to be sent */
function open({ refused, waits }) {
  return !refused || waits === true;
}

/** @typedef {{table: string, record_id: string}} Named */

/** @param {Named} one @returns {[table: string, record_id: string]} */
const place = ({ table, record_id }) => [table, record_id];

/** @param {Named} one */
const name = (one) => place(one).join('/');

/**
 * Marks the summaries that records are part of as due to be made anew.
 * @param {import('./database.js').Change} tx
 * @param {string} key
 * @param {number} due the turn that made them so
 * @param {EngineRow[]} touched
 */
async function mark(tx, key, due, touched) {
  const chainIds = [...new Set(touched.flatMap(({ fields }) => fields.chain_id ?? []))];
  const chains = await getEach(
    tx.objectStore('rows'),
    chainIds.map((id) => [key, 'chains', String(id)]),
  );
  /** @type {Map<string, string>} */
  const bikes = new Map(chains.flatMap((chain) => (chain ? [[chain.record_id, chain.row.fields.bike_id]] : [])));
  const range = IDBKeyRange.bound([key, 'round'], [key, 'round', []]);
  const rounds = touched.some(({ table }) => table === 'bikes') ? await tx.objectStore('summaries').getAll(range) : [];
  const open = rounds.filter(({ value }) => value && !value.fields.finished_at).map(({ id }) => id);
  /** @type {Map<string, import('./touch.js').Target>} */
  const all = new Map();
  for (const row of touched) {
    for (const one of targets(
      row,
      (id) => bikes.get(id),
      () => open,
    ))
      all.set(one.kind + one.id, one);
  }
  const store = tx.objectStore('summaries');
  const wanted = [...all.values()];
  const before = await getEach(
    store,
    wanted.map(({ kind, id }) => [key, kind, id]),
  );
  await putAll(
    store,
    wanted.map(({ kind, id }, i) => ({ value: null, ...before[i], garage: key, kind, id, due })),
  );
}

/**
 * Makes a garage this phone's own again. Its records show what was unsent
 * already; what the server did not take stays beside them.
 * @param {string} key
 * @param {string} device_id of the phone from now on
 */
export function detach(key, device_id) {
  /** @param {import('./database.js').Change} tx */
  async function work(tx) {
    const garage = await tx.objectStore('garages').get(key);
    /** @type {Unsent[]} */
    const unsent = await tx
      .objectStore('unsent')
      .index('order')
      .getAll(IDBKeyRange.bound([key], [key, []]));
    const local = {
      id: '',
      device_id,
      token: '',
      role: 'owner',
      cursor: '',
      seen: '',
      shut: '',
      adopting: false,
      retelling: '',
    };
    const merged = unsent.filter(({ refused, waits }) => !refused || waits);
    await tx.objectStore('garages').put({ ...garage, ...local, turn: garage.turn + 1 });
    for (const { op_id } of merged) unwrap(tx.objectStore('unsent')).delete(op_id);
  }
  return changing(['garages', 'unsent'], work, 'strict');
}

/** @param {string} key of a garage that is taken off this phone, with all it holds and all that was worked out of it */
export function forget(key) {
  return changing(['garages', 'rows', 'unsent', 'summaries', 'forecasts'], async (tx) => {
    const all = IDBKeyRange.bound([key], [key, []]);
    const unsent = await tx.objectStore('unsent').index('order').getAllKeys(all);
    const chains = await tx.objectStore('rows').getAllKeys(IDBKeyRange.bound([key, 'chains'], [key, 'chains', []]));
    const store = (/** @type {string} */ name) => unwrap(tx.objectStore(name));
    for (const row of chains) store('forecasts').delete(/** @type {string[]} */ (row)[2]);
    for (const id of unsent) store('unsent').delete(id);
    store('garages').delete(key);
    store('rows').delete(all);
    store('summaries').delete(all);
  });
}
