/**
 * A bike taken up for some work on it: a change of chain, its shopping list,
 * its costs, a reading to keep. Opens it, asks the engine, and keeps changes.
 */
import { html } from 'lit';
import { now, set } from '../app/store.js';
import { KeepError } from '../data/database.js';
import { openBike, save } from '../data/garage.js';
import { EngineFault } from '../engine/bridge.js';
import { engine } from '../engine/engine.js';
import { faultText } from '../words/engine.js';
import { t } from '../words/t.js';

/**
 * @typedef {import('../app/store.js').State} State
 * @typedef {import('../data/garage.js').BikeDetail} BikeDetail
 * @typedef {{status: 'waiting'|'ok'|'fault'|'crash', answer: any, fault: import('../data/request.js').Fault|null}} Asked
 * @typedef {{bike_id: string, detail: BikeDetail|null, status: 'loading'|'here'|'gone'|'failed',
 *   answers: Record<string, Asked>}} Work
 */

let turn = 0;

/**
 * @param {string} bike_id
 * @param {(detail: BikeDetail) => void} [then] once it is here
 */
export async function takeUp(bike_id, then) {
  const mine = ++turn;
  const { work } = now();
  const before = work?.bike_id === bike_id ? work.detail : null;
  set({ work: { bike_id, detail: before, status: before ? 'here' : 'loading', answers: {} }, refused: '' });
  try {
    const detail = bike_id ? await openBike(bike_id) : null;
    if (mine !== turn) return;
    set({ work: { bike_id, detail, status: detail ? 'here' : 'gone', answers: {} } });
    if (detail) then?.(detail);
  } catch (error) {
    if (mine !== turn) return;
    set({ work: { bike_id, detail: null, status: 'failed', answers: {} } });
    if (error instanceof KeepError) set({ trouble: error.reason });
  }
}

/**
 * Asks the engine; the answer is in the work's answers by this name, unless
 * another bike was taken up or it was asked again meanwhile.
 * @param {string} name
 * @param {string} calculation
 * @param {object} request
 * @returns {Promise<any>} the answer, null without one
 */
export async function askFor(name, calculation, request) {
  const mine = turn;
  const before = now().work?.answers[name];
  /** @type {Asked} */
  const waiting = { status: 'waiting', answer: before?.answer ?? null, fault: null };
  told(name, waiting);
  /** @type {Asked} */
  let next;
  try {
    next = { status: 'ok', answer: await engine.call(calculation, request), fault: null };
  } catch (error) {
    const fault = error instanceof EngineFault ? error.fault : null;
    next = { status: fault ? 'fault' : 'crash', answer: null, fault };
  }
  if (mine !== turn || now().work?.answers[name] !== waiting) return null;
  told(name, next);
  return next.answer;
}

/** @param {string} name @param {Asked} asked */
function told(name, asked) {
  const { work } = now();
  if (work) set({ work: { ...work, answers: { ...work.answers, [name]: asked } } });
}

/** Whether changes are on their way to the disk. */
let keeping = false;

/**
 * Keeps changes once, however often it is touched; what stands against it is in `trouble` or `refused`.
 * @param {import('../data/garage.js').Change[]} changes
 * @returns {Promise<string[]|null>} the records' ids once they are on the disk, null when nothing was kept
 */
export async function put(changes) {
  if (keeping) return null;
  keeping = true;
  try {
    const ids = await save(changes);
    set({ refused: '' });
    return ids;
  } catch (error) {
    if (error instanceof EngineFault) set({ refused: faultText(error.fault) });
    else set({ trouble: error instanceof KeepError ? error.reason : 'lost' });
    return null;
  } finally {
    keeping = false;
  }
}

/** @param {State} state what could not be kept, and why */
export function refusal({ refused }) {
  return html`<div role="alert">${refused ? html`<p class="fault">${refused}</p>` : ''}</div>`;
}

/**
 * What stands where a bike is not here (yet).
 * @param {State} state
 * @param {import('../words/t.js').Word} title
 */
export function standIn({ work }, title) {
  const status = work?.status ?? 'loading';
  return {
    body: html`<div class="sheets"><h1>${t(title)}</h1>
      <p role="status">${t(status === 'gone' ? 'work.gone' : status === 'failed' ? 'work.failed' : 'work.loading')}</p></div>`,
    bench: html`<a class="button main" href="#/bikes">${t('work.bikes')}</a>`,
  };
}
