/** What can be done about bikes: opening one, changing it, and taking that back. */
import { focusNext } from '../app/focus.js';
import { drop } from '../app/forms.js';
import { cameFrom, leave } from '../app/leave.js';
import { now, set, watch } from '../app/store.js';
import { KeepError } from '../data/database.js';
import { glance } from '../data/bike-glance.js';
import { openBike, save } from '../data/garage.js';
import { inverse } from '../data/undo.js';
import { EngineFault } from '../engine/bridge.js';
import { engine } from '../engine/engine.js';
import { judgeShown } from './bike-judge.js';

/**
 * @typedef {import('../data/garage.js').BikeDetail} BikeDetail
 * @typedef {import('../data/garage.js').Change} Change
 * @typedef {import('../data/request.js').Fault} Fault
 * @typedef {{id: string, status: 'none'|'loading'|'ok'|'missing'|'failed', detail: BikeDetail|null, glance: BikeDetail|null,
 *   care: any, shown: number, of: import('../data/garage.js').BikeSummary|null}} OpenBike `glance`: what is known of it at
 *   once; `care`: the engine's answer about the chain on it; `shown`: how many entries of its log; `of`: the summary it was opened beside
 * @typedef {{text: string, undo: Change[], at: number}} Did what was done last, what takes it back, and when
 * @typedef {{forms: Record<string, import('../app/forms.js').Form>, bikes: {query: string, live: number[]},
 *   bike: OpenBike, judged: Record<string, {verdict: string, elongation_percent: number}>, careFirst: any,
 *   rideFile: {name: string, share: number}|null, rideFault: string, fault: Fault|null, did: Did|null}} BikesPart
 *   of the state: `judged` readings by id; `careFirst` the engine's answer about care to be noted; `rideFile` being
 *   read; `fault`: what the engine refused to keep
 */

/** So many entries of the log are shown at a time. */
export const LOG_PAGE = 12;

/** @type {OpenBike} */
const NO_BIKE = { id: '', status: 'none', detail: null, glance: null, care: null, shown: LOG_PAGE, of: null };

let turn = 0;
let saving = false;
let undoing = false;

/** @param {string} argument an address's: the bike's id, and perhaps more after a slash */
export async function openBikePlace(argument) {
  const [id] = argument.split('/');
  const { bike } = now();
  if (bike.id !== id) {
    set({ bike: { ...NO_BIKE, id, status: 'loading' } });
    glanceAt(id);
  }
  forgetOld();
  await refreshBike();
}

/** Shows what is known of a bike at once, while it is looked up. @param {string} id */
async function glanceAt(id) {
  const summary = summaryOf(now(), id);
  const seen = summary && (await glance(summary).catch(() => null)); // looking it up says what is wrong
  const { bike } = now();
  if (seen && bike.id === id && !bike.detail) set({ bike: { ...bike, glance: seen } });
}

/** Comes to the list of bikes; back from a bike, to where it stands. */
export function openBikes() {
  forgetOld();
  const { id } = now().bike;
  if (!id || !cameFrom().endsWith(`/${id}`)) return;
  requestAnimationFrame(() => {
    const link = document.querySelector(`[href="#/bike/${CSS.escape(id)}"]`);
    if (!(link instanceof HTMLElement)) return;
    link.scrollIntoView({ block: 'center' });
    link.focus({ preventScroll: true });
  });
}

/** Where what was done last is said; a form is no place for it. */
const SAY = ['bikes', 'bike', 'chains'];

/** For so long what was done last is news when another screen is come to, ms. */
const NEWS_MS = 20_000;

function forgetOld() {
  const { did, place } = now();
  const news = did && SAY.includes(place) && Date.now() - did.at < NEWS_MS;
  set({ fault: null, did: news ? did : null });
}

/** @param {import('../app/store.js').State} state @param {string} id @returns {import('../data/garage.js').BikeSummary|undefined} */
export function summaryOf({ garage }, id) {
  return garage?.bikes.find((bike) => bike.bike_id === id);
}

/** Reads the open bike anew; only the newest reading is shown. */
async function refreshBike() {
  const mine = ++turn;
  const state = now();
  const { id } = state.bike;
  const of = summaryOf(state, id) ?? null;
  set({ bike: { ...state.bike, of } });
  try {
    const detail = await openBike(id);
    if (mine !== turn) return;
    set({ bike: { ...now().bike, status: detail ? 'ok' : 'missing', detail, of } });
    if (detail) learnMore(detail, mine);
  } catch (error) {
    if (mine === turn && !now().bike.detail) set({ bike: { ...now().bike, status: 'failed' } });
    if (error instanceof KeepError) set({ trouble: error.reason });
  }
}

/** What may come a moment later. @param {BikeDetail} detail @param {number} mine the turn it belongs to */
async function learnMore(detail, mine) {
  const care = await careOf(detail);
  if (mine !== turn) return;
  set({ bike: { ...now().bike, care } });
  await judgeShown();
}

/** @param {BikeDetail} detail @returns {Promise<any>} what the engine says about the care of the chain on it */
function careOf({ meaning }) {
  const fitted = meaning.chains.find((chain) => chain.chain_id === meaning.fitted_chain_id);
  return fitted ? engine.call('care', fitted.care_request).catch(() => null) : Promise.resolve(null);
}

/** Follows what other phones and the background change about the open bike. */
function followBike() {
  const state = now();
  const { id, of, status } = state.bike;
  if (!of || status !== 'ok' || saving || !state.place.startsWith('bike')) return;
  const summary = summaryOf(state, id);
  if (!summary || NEWS.every((part) => summary[part] === of[part])) return;
  refreshBike();
}

/** Parts of a summary that are made anew when a record of the bike or a forecast changes. */
const NEWS = /** @type {const} */ (['fields', 'forecast', 'judged']);

watch(followBike);

/**
 * @param {Change[]} changes
 * @param {{text: string, form?: string, to?: string, undo?: Change[]}} done `text` says that it is done; `form` is
 *   forgotten; `to` is gone to; `undo` replaces what takes the changes back
 * @returns {Promise<boolean>} whether it is kept
 */
export async function commit(changes, { text, form, to, undo }) {
  if (saving || !changes.length) return false;
  saving = true;
  try {
    const before = rowsNow();
    const ids = await save(changes);
    if (form) drop(form);
    const away = to && location.hash !== to;
    if (!away && now().bike.id) await refreshBike(); // said once it stands there: the next touch is about that
    set({ did: { text, undo: undo ?? inverse(changes, ids, before), at: Date.now() }, fault: null, trouble: null });
    if (away) leave(to);
    return true;
  } catch (error) {
    set(failure(error));
    return false;
  } finally {
    saving = false;
  }
}

/** @returns {import('../data/undo.js').Row[]} every row of the open bike */
function rowsNow() {
  const { detail } = now().bike;
  if (!detail) return [];
  const { bike, chains, readings, distances, care } = detail;
  return [bike, ...[chains, readings, distances, care].flatMap((table) => Object.values(table))];
}

/** @param {unknown} error @returns {Partial<import('../app/store.js').State>} */
function failure(error) {
  if (error instanceof EngineFault) return { fault: error.fault };
  if (error instanceof KeepError) return { trouble: error.reason };
  return { fault: { code: 'crash', field: '', message: '' } };
}

/** Takes back what was done last, once that is shown. */
export async function undo() {
  const { did } = now();
  if (!did?.undo.length || undoing) return;
  undoing = true;
  while (saving) await new Promise((again) => setTimeout(again, 50));
  saving = true;
  try {
    await save(did.undo);
    if (now().bike.id) await refreshBike();
    set({ did: { text: '', undo: [], at: Date.now() } });
    focusNext('place');
  } catch (error) {
    set(failure(error));
  } finally {
    saving = undoing = false;
  }
}
