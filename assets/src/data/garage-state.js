/** `state.garage`: which garage is open, and what the screens list of it. */
import { now, set } from '../app/store.js';
import { KeepError } from './database.js';
import { countUnsent, summaries, tableRows, unsentOps } from './garage-read.js';
import { garages, putGarage } from './garage-store.js';
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

/** @type {{bikes: Map<string, BikeValue>, rounds: Map<string, RoundSummary>}} of the garage that is open */
let lists = { bikes: new Map(), rounds: new Map() };

/** @type {Promise<void>} */
let loading = Promise.resolve();
let waiting = false;

/** @returns {Garage} as a phone has it before anything is kept */
function fresh() {
  return {
    ...{ key: OWN, id: '', name: '', role: 'owner', device_id: newId(), token: '' },
    ...{ cursor: '', clock: '', turn: 0, shut: '', at: null },
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
  if (garage.turn === 0 && !(await garages()).some(({ key }) => key === garage.key)) await putGarage(garage);
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
    const all = await summaries((await current()).key);
    lists = { bikes: new Map(), rounds: new Map() };
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
  for (const { kind, id, value } of made) {
    const list = /** @type {Map<string, any>} */ (kind === 'bike' ? lists.bikes : lists.rounds);
    if (value) list.set(id, value);
    else list.delete(id);
  }
}

/** Shows the lists, and how things stand with the server. */
export async function publish() {
  const garage = await current();
  const [instruments, prices, unsent] = await Promise.all([
    tableRows(garage.key, 'instruments'),
    tableRows(garage.key, 'prices'),
    countUnsent(garage.key),
  ]);
  const rounds = [...lists.rounds.values()].sort((a, b) => b.fields.started_at.localeCompare(a.fields.started_at));
  const { key, id, name, role, device_id } = garage;
  set({
    garage: {
      ...{ key, id, name, role, device_id, rounds },
      bikes: bikes(rounds.find(({ fields }) => !fields.finished_at)),
      instruments: there(instruments),
      prices: there(prices)[0] ?? null,
      sync: await syncState(garage, unsent),
    },
  });
}

/** @param {RoundSummary|undefined} round the latest that is not finished */
function bikes(round) {
  const stands = new Map(round?.stands.map((one) => [one.bike_id, one]));
  const names = new Intl.Collator(undefined, { numeric: true });
  return [...lists.bikes.values()]
    .map((value) => {
      const stand = stands.get(value.bike_id);
      const { state, check } = stand ?? { state: null, check: null };
      return { ...value, round: round && state ? { round_id: round.round_id, state, check } : null };
    })
    .sort((a, b) => names.compare(a.fields.name, b.fields.name) || (a.bike_id < b.bike_id ? -1 : 1));
}

/** @param {import('./garage.js').EngineRow[]} rows @returns {import('./garage.js').Row[]} those not removed */
function there(rows) {
  const left = rows.filter((row) => !row.removed);
  return left.map((row) => ({ table: row.table, record_id: row.record_id, fields: shown(row) }));
}

/**
 * @param {Garage} garage
 * @param {number} unsent
 * @returns {Promise<import('./garage.js').SyncState>}
 */
async function syncState(garage, unsent) {
  const before = now().garage?.sync;
  const refused = unsent ? (await unsentOps(garage.key)).filter((one) => one.refused) : [];
  const rejected = refused.map(({ op_id, table, record_id, refused: why, waits = false }) => ({
    ...{ op_id, table, record_id, waits },
    ...(why ?? { code: '', field: '', message: '' }),
  }));
  const known = before && before.state !== 'local' ? before.state : 'idle';
  const state = garage.shut || (garage.token ? known : 'local');
  return { state, unsent, rejected, at: garage.at, trouble: before?.trouble ?? null };
}
