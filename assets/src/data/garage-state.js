/** `state.garage`: which garage is open, and what the screens list of it. */
import { now, set } from '../app/store.js';
import { KeepError } from './database.js';
import { countUnsent, refusedOps, summaries, tableRows } from './garage-read.js';
import { addGarage, garages } from './garage-store.js';
import { newId } from './ids.js';
import { keep, recall } from './local.js';
import { shown } from './meaning.js';
import { tellTabs } from './tabs.js';

/**
 * @typedef {import('./garage-store.js').Garage} Garage
 * @typedef {import('./garage.js').GarageState} GarageState
 * @typedef {import('./garage.js').BikeValue} BikeValue
 * @typedef {import('./garage.js').RoundSummary} RoundSummary
 */

/** The first garage of a phone, the rider's own. */
const OWN = 'own';

/** The invented garage, which goes to no server and into no other garage. */
export const DEMO = 'demo';

/** @type {{key: string, bikes: Map<string, BikeValue>, rounds: Map<string, RoundSummary>}} of the garage that is open */
let lists = { key: '', bikes: new Map(), rounds: new Map() };

/** @type {Promise<void>} */
let loading = Promise.resolve();
let waiting = false;

/** @returns {Garage} as a phone has it before anything is kept */
export function fresh() {
  return {
    ...{ key: OWN, id: '', name: '', role: 'owner', device_id: newId(), token: '' },
    ...{ cursor: '', clock: '', seen: '', turn: 0, shut: '', at: null },
  };
}

/** @returns {Promise<Garage>} the one that is open; the phone's own, not kept yet, where there is none */
export async function current() {
  const all = await garages();
  const { key } = recall('garage', { key: OWN });
  return all.find((one) => one.key === key) ?? all[0] ?? fresh();
}

/** @returns {Promise<Garage>} the one that is open, on the disk */
export async function currentKept() {
  const garage = await current();
  if (garage.turn === 0) await addGarage(garage);
  return garage;
}

/** @param {string} key opens another garage of this phone */
export async function switchTo(key) {
  keep('garage', { key });
  await load();
  tellTabs();
}

/** Reads the lists of the open garage anew. Trouble with the database goes to `state.trouble`. */
export function load() {
  if (!waiting) loading = loading.then(read);
  waiting = true;
  return loading;
}

async function read() {
  waiting = false;
  try {
    const { key } = await current();
    const all = await summaries(key);
    lists = { key, bikes: new Map(), rounds: new Map() };
    for (const { kind, id, value } of all) if (value) lists[kind === 'bike' ? 'bikes' : 'rounds'].set(id, value);
    await publish();
  } catch (error) {
    set({ trouble: error instanceof KeepError ? error.reason : 'lost' });
  }
}

/**
 * Takes up summaries that were just made.
 * @param {import('./garage-read.js').Summary[]} made
 */
export function took(made) {
  for (const { garage, kind, id, value } of made) {
    if (garage !== lists.key) continue;
    const list = /** @type {Map<string, any>} */ (kind === 'bike' ? lists.bikes : lists.rounds);
    if (value) list.set(id, value);
    else list.delete(id);
  }
}

/** Shows the lists, and how things stand with the server. */
export async function publish() {
  const garage = await current();
  const [all, instruments, prices, sync] = await Promise.all([
    garages(),
    tableRows(garage.key, 'instruments'),
    tableRows(garage.key, 'prices'),
    syncState(garage),
  ]);
  const rounds = [...lists.rounds.values()].sort((a, b) => b.fields.started_at.localeCompare(a.fields.started_at));
  const { key, id, name, role, device_id } = garage;
  set({
    garage: {
      ...{ key, id, name, role, device_id, rounds },
      bikes: bikes(rounds.find(({ fields }) => !fields.finished_at)),
      instruments: there(instruments),
      prices: there(prices)[0] ?? null,
      sync,
      others: all
        .filter((one) => one.key !== key)
        .map((one) => ({ key: one.key, id: one.id, name: one.name, role: one.role })),
    },
  });
}

/** @type {Intl.Collator|undefined} the order people expect, 2 before 10; made when first needed, for that takes a while */
let names;

/** @param {RoundSummary|undefined} round the latest that is not finished */
function bikes(round) {
  const { compare } = (names ??= new Intl.Collator(undefined, { numeric: true }));
  const stands = new Map(round?.stands.map((one) => [one.bike_id, one]));
  return [...lists.bikes.values()]
    .map((value) => {
      const stand = stands.get(value.bike_id);
      const { state, check } = stand ?? { state: null, check: null };
      return { ...value, round: round && state ? { round_id: round.round_id, state, check } : null };
    })
    .sort((a, b) => compare(a.fields.name, b.fields.name) || (a.bike_id < b.bike_id ? -1 : 1));
}

/** @param {import('./garage.js').EngineRow[]} rows @returns {import('./garage.js').Row[]} those not removed */
function there(rows) {
  const left = rows.filter((row) => !row.removed);
  return left.map((row) => ({ table: row.table, record_id: row.record_id, fields: shown(row) }));
}

/** @type {Pick<import('./garage.js').SyncState, 'trouble'> & {state: 'idle'|'busy'|'offline'|'failed'}} */
let sync = { state: 'idle', trouble: null };

/** @param {Partial<typeof sync>} news how it goes with the server; shown at once */
export function tellSync(news) {
  sync = { ...sync, ...news };
  const { garage } = now();
  if (garage && garage.id && !['revoked', 'gone'].includes(garage.sync.state)) {
    set({ garage: { ...garage, sync: { ...garage.sync, ...sync } } });
  }
}

/** @param {Garage} garage @returns {Promise<import('./garage.js').SyncState>} */
async function syncState(garage) {
  const [unsent, refused] = await Promise.all([countUnsent(garage.key), refusedOps(garage.key)]);
  const rejected = refused.map(({ op_id, table, record_id, refused: why, waits = false }) => ({
    ...{ op_id, table, record_id, waits },
    .../** @type {import('./garage.js').Refusal} */ (why),
  }));
  const state = garage.shut || (garage.token ? sync.state : 'local');
  return {
    state,
    unsent: unsent - rejected.filter(({ waits }) => !waits).length,
    rejected,
    at: garage.at,
    trouble: sync.trouble,
  };
}
