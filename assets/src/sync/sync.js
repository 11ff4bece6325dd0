/**
 * When the phone talks to the server: on start, when there is signal again, on
 * return to the page, after every change of the rider's, and when the server
 * says that there is something new; after a failure ever more seldom.
 */
import { set } from '../app/store.js';
import { workAhead } from '../data/background.js';
import { watchSaves } from '../data/change.js';
import { KeepError } from '../data/database.js';
import { current, publish, tellSync } from '../data/garage-state.js';
import { refusedOps } from '../data/garage-read.js';
import { garages } from '../data/garage-store.js';
import { refreshAll } from '../data/refresh.js';
import { inTurn, tellTabs } from '../data/tabs.js';
import { NoSignal, ServerFault } from './client.js';
import { follow } from './events.js';
import { exchange } from './exchange.js';
import { nextTry } from './rhythm.js';

/** @typedef {import('../data/garage-store.js').Garage} Garage */

/** What the server would not take yet is sent again after this long, ms. */
const WAITING_MS = 10 * 60 * 1000;

let failures = 0;
let running = false;
let again = false;
/** @type {ReturnType<typeof setTimeout>|undefined} */
let timer;
let listening = new AbortController();
let listenFailures = 0;

/** Starts it; called once, when the garage is loaded. */
export function startSync() {
  watchSaves(() => void run());
  addEventListener('online', comeBack);
  addEventListener('offline', () => {
    listening.abort();
    tellSync({ state: 'offline' });
  });
  document.addEventListener('visibilitychange', () => (document.hidden ? listening.abort() : comeBack()));
  comeBack();
}

/** Tries at once, whatever failed before, and listens anew: the rider or the signal is back, or the garage is another. */
export function comeBack() {
  failures = 0;
  listenFailures = 0;
  listen();
  return run();
}

/** Exchanges with the server, once; what changes meanwhile is not left out. */
async function run() {
  if (running) {
    again = true;
    return;
  }
  running = true;
  clearTimeout(timer);
  try {
    do {
      again = false;
      await runOnce();
    } while (again);
  } catch (error) {
    set({ trouble: error instanceof KeepError ? error.reason : 'lost' }); // the phone itself; the server's faults are told where they arise
  } finally {
    running = false;
  }
}

async function runOnce() {
  const open = await current();
  const others = (await garages()).filter(({ key, token, shut }) => key !== open.key && token && !shut);
  if (open.token && !open.shut) await withServer(open);
  for (const { key } of others) await inTurn('sync', () => exchange(key)).catch(() => {}); // tried again at the next run
}

/** @param {Garage} garage the open one */
async function withServer({ key }) {
  if (!navigator.onLine) return tellSync({ state: 'offline' });
  tellSync({ state: 'busy' });
  try {
    await inTurn('sync', () => exchange(key));
    failures = 0;
    tellSync({ state: 'idle', trouble: null });
    if ((await refusedOps(key)).some(({ waits }) => waits)) runIn(WAITING_MS);
  } catch (error) {
    failed(error);
  }
  await refreshAll();
  await publish();
  tellTabs();
  void workAhead();
}

/** @param {unknown} error */
function failed(error) {
  failures++;
  const fault = error instanceof ServerFault ? error : null;
  if (error instanceof NoSignal) tellSync({ state: 'offline', trouble: null });
  else tellSync({ state: 'failed', trouble: fault?.fault ?? { code: 'internal', field: '', message: String(error) } });
  runIn(nextTry(failures, Math.random(), fault?.retryAfterMS));
}

/** @param {number} ms until the one next try */
function runIn(ms) {
  clearTimeout(timer);
  timer = setTimeout(run, ms);
}

/** Listens to the open garage's events, in one tab of the phone at a time. */
function listen() {
  listening.abort();
  const mine = new AbortController();
  listening = mine;
  if (document.hidden || !navigator.onLine) return;
  inTurn('events', () => followOnce(mine.signal)).catch(() => {});
}

/** @param {AbortSignal} signal */
async function followOnce(signal) {
  const garage = await current();
  if (signal.aborted || !garage.token || garage.shut) return;
  await follow(garage, signal, async (cursor) => {
    listenFailures = 0;
    const { cursor: had } = await current().catch(() => garage); // run says what is wrong
    if (cursor && cursor !== had) run();
  }).catch(() => {});
  if (signal.aborted) return;
  run(); // a stream ends when the phone was revoked, too
  setTimeout(() => !signal.aborted && listen(), nextTry(++listenFailures, Math.random()));
}
