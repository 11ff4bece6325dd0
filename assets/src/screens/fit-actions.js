/**
 * What can be done on Fit. Every change is on the phone before the screen shows
 * it, and asks the engine anew.
 */
import { NO_FIT, now, set } from '../app/store.js';
import { asked, emptied } from '../data/fit-draft.js';
import { question } from '../data/fit-request.js';
import { keep } from '../data/local.js';
import { EngineFault } from '../engine/bridge.js';
import { engine } from '../engine/engine.js';

/**
 * @typedef {import('../data/fit-draft.js').Fit} Fit
 * @typedef {import('../data/fit-draft.js').Question} Question
 * @typedef {import('../app/store.js').FitResult} FitResult
 */

/** The calculation that answers each question. */
const CALCULATIONS = { which: 'identify', length: 'length', centre: 'centre', gears: 'gears' };

let turn = 0;

/** @param {Partial<Fit>} part @param {Partial<import('../app/store.js').State>} [also] */
export function changeFit(part, also = {}) {
  const fit = { ...now().fit, ...part };
  set({ fit, trouble: keep('fit', fit), fitBefore: null, ...also });
  evaluateFit();
}

/**
 * @template {Question} Q
 * @param {Q} name
 * @param {Partial<Fit[Q]>} part of that question
 */
export function put(name, part) {
  changeFit(/** @type {any} */ ({ [name]: { ...now().fit[name], ...part } }));
}

/** Keeps how far the fitting has come; no calculation depends on it. @param {Partial<Fit['steps']>} part */
export function putSteps(part) {
  const { fit } = now();
  const next = { ...fit, steps: { ...fit.steps, ...part } };
  set({ fit: next, trouble: keep('fit', next) });
}

/** Empties the open question; can be undone until the next change. */
export function emptyFitQuestion() {
  const { fit, settings } = now();
  changeFit(emptied(fit, settings.units), { fitBefore: fit });
}

/** Brings back what was emptied. */
export function undoFit() {
  const { fitBefore } = now();
  if (fitBefore) changeFit(fitBefore);
}

/** Asks the engine about the open question; only the newest asking's answer is shown. */
export async function evaluateFit() {
  const mine = ++turn;
  const { fit, fitResults } = now();
  const name = asked(fit);
  const { request, missing, unreadable } = question(fit);
  if (missing.length || unreadable.length) return show(name, { ...NO_FIT, missing, unreadable });
  show(name, { ...fitResults[name], status: 'waiting', missing, unreadable });
  const result = await ask(name, request);
  if (mine === turn) show(name, result);
}

/** @param {Question} name @param {FitResult} result */
function show(name, result) {
  set({ fitResults: { ...now().fitResults, [name]: result } });
}

/**
 * @param {Question} name
 * @param {object} request
 * @returns {Promise<FitResult>}
 */
async function ask(name, request) {
  try {
    return { ...NO_FIT, status: 'ok', answer: await engine.call(CALCULATIONS[name], request) };
  } catch (error) {
    if (error instanceof EngineFault) return { ...NO_FIT, status: 'fault', fault: error.fault };
    return { ...NO_FIT, status: 'crash' };
  }
}
