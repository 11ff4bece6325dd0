/**
 * What the app knows right now, in one place. Screens read it; actions change
 * it with `set`; whoever watches is told once per frame at most by the frame.
 */
import { emptyDraft } from '../data/draft.js';
import { restored } from '../data/fit-draft.js';
import { recall } from '../data/local.js';
import { recallPerson } from '../data/person.js';
import { EMPTY, recallStart } from '../data/round-form.js';
import { NO_PICTURE, recallPhoto } from '../data/photo.js';
import { recallSettings } from '../data/settings.js';
import { recallKit } from './kit-state.js';
import { NO_WORK } from './work.js';

/**
 * @typedef {import('../data/request.js').Answer} Answer
 * @typedef {import('../data/request.js').Fault} Fault
 * @typedef {{status: 'none'|'waiting'|'ok'|'fault'|'crash', answers: Answer[], requests: object[],
 *   counted: number, fault: Fault|null, late: boolean}} Result the answers to the draft's places; late: long waited for
 * @typedef {{place: string, argument: string, settings: import('../data/settings.js').Settings,
 *   draft: import('../data/draft.js').Draft, panel: ''|'drive'|'setup', result: Result,
 *   base: {limit: number, correction: number}|null,
 *   trouble: import('../data/local.js').Trouble|null, flash: ''|'kept'|'cleared'|'old',
 *   before: import('../data/draft.js').Draft|null, kept: import('../data/kept.js').Kept[]|null,
 *   crashed: boolean, offline: import('../sync/updates.js').Offline, online: boolean,
 *   update: 'none'|'waiting'|'later', fetching: ''|'busy'|'failed',
 *   installable: boolean, persisted: boolean|null, estimate: {used: number, quota: number}|null,
 *   photo: import('../screens/photo-actions.js').Photo,
 *   stepFault: boolean, glass: import('../screens/glass-actions.js').Glass|null,
 *   person: string, round: RoundState,
 *   fit: import('../data/fit-draft.js').Fit, fitBefore: import('../data/fit-draft.js').Fit|null,
 *   fitResults: Record<import('../data/fit-draft.js').Question, FitResult>,
 *   garage: import('../data/garage.js').GarageState|null,
 *   join: import('../screens/join-actions.js').Join} & import('../screens/bike-actions.js').BikesPart &
 *   import('./work.js').WorkState & import('./kit-state.js').KitState} State
 * @typedef {{start: import('../data/round-form.js').Start, form: import('../data/round-form.js').Form,
 *   find: string, rows: number, paper: number, log: number, opened: string[], nameless: boolean, tagPick: number, tagsDrawn: number, fault: string, trouble: ''|'none'|'other',
 *   flash: import('../screens/round-actions.js').Done|null,
 *   detail: import('../data/round-view.js').Detail|null}} RoundState `rows` of each list, of the sheet on `paper`, of the `log`: so many
 *   are drawn; `opened`: what is folded out
 * @typedef {{status: 'none'|'waiting'|'ok'|'fault'|'crash', answer: any, fault: Fault|null, missing: string[],
 *   unreadable: string[]}} FitResult the engine's answer to one of Fit's questions, or what stands in the way of one
 */

/** @type {Result} */
export const NO_RESULT = { status: 'none', answers: [], requests: [], counted: 0, fault: null, late: false };

/** @type {FitResult} */
export const NO_FIT = { status: 'none', answer: null, fault: null, missing: [], unreadable: [] };

const settings = recallSettings();

/** @type {State} */
let state = {
  place: 'check',
  argument: '',
  settings,
  draft: recall('draft', emptyDraft(settings.units)),
  panel: '',
  result: NO_RESULT,
  base: null,
  trouble: null,
  flash: '',
  before: null,
  kept: null,
  crashed: false,
  offline: 'checking',
  online: navigator.onLine,
  update: 'none',
  fetching: '',
  installable: false,
  persisted: null,
  estimate: null,
  stepFault: false,
  glass: null,
  photo: { ...recallPhoto(), kept: '', ...NO_PICTURE },
  person: recallPerson(),
  round: {
    start: recallStart(),
    form: EMPTY,
    find: '',
    rows: 0,
    paper: 0,
    log: 0,
    opened: [],
    nameless: false,
    tagPick: 0,
    tagsDrawn: 0,
    fault: '',
    trouble: '',
    flash: null,
    detail: null,
  },
  fit: restored(recall('fit', {}), settings.units),
  fitBefore: null,
  fitResults: { which: NO_FIT, length: NO_FIT, centre: NO_FIT, gears: NO_FIT },
  garage: null,
  join: { status: 'ask', told: null, wrong: '', fault: null },
  forms: recall('forms', {}),
  bikes: { query: '', live: [0, 1] },
  bike: { id: '', status: 'none', detail: null, glance: null, care: null, shown: 12, of: null },
  judged: {},
  careFirst: null,
  rideFile: null,
  rideFault: '',
  fault: null,
  did: null,
  ...NO_WORK,
  ...recallKit(),
};

/** @type {Set<() => void>} */
const watchers = new Set();

/** @returns {State} */
export function now() {
  return state;
}

/** @param {Partial<State>} change */
export function set(change) {
  state = { ...state, ...change };
  for (const watcher of watchers) watcher();
}

/** @param {() => void} watcher called after every change */
export function watch(watcher) {
  watchers.add(watcher);
}
