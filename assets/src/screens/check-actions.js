/**
 * What can be done on Check. Every change of the draft is on the phone before
 * the screen shows it, and asks the engine anew.
 */
import { focusLine, focusNext } from '../app/focus.js';
import { askToPersist } from '../app/storage.js';
import { NO_RESULT, now, set } from '../app/store.js';
import { cleared, entered, entry, spanDraft, withEntry } from '../data/draft.js';
import { newId } from '../data/ids.js';
import { instrumentOf } from '../data/instruments.js';
import { keepReading } from '../data/kept.js';
import { keep } from '../data/local.js';
import { Unsendable, largest, probe, requests, shownMM } from '../data/request.js';
import { KeepError } from '../data/database.js';
import { EngineFault } from '../engine/bridge.js';
import { engine } from '../engine/engine.js';
import { t } from '../words/t.js';

/** @typedef {import('../data/draft.js').Draft} Draft */

let turn = 0;

/** The evaluation under way or done last. */
let latest = Promise.resolve();

let keeping = false;

/**
 * @param {Draft} draft
 * @param {Partial<import('../app/store.js').State>} [also] changed in the same breath
 */
export function change(draft, also = {}) {
  const stamped = { ...draft, at: Date.now() };
  const trouble = keep('draft', stamped);
  set({ draft: stamped, trouble, flash: '', before: null, ...also });
  latest = evaluate();
}

/** After this long a reading may be of another bike or another day, ms. */
const OLD_MS = 60 * 60 * 1000;

/** @param {Draft} draft */
export function isOld(draft) {
  return entered(draft) && Date.now() - (draft.at ?? 0) > OLD_MS;
}

/** Takes up the draft of an earlier visit, and says so when it is an old one. */
export function resume() {
  const { draft } = now();
  if (isOld(draft)) set({ flash: 'old' });
  latest = evaluate();
}

/** An answer that takes longer than this is seen to be worked on, ms. */
const LATE_MS = 200;

/** Asks the engine about the draft; only the newest question's answer is shown. */
async function evaluate() {
  const mine = ++turn;
  const { draft, result } = now();
  set({ result: entered(draft) ? { ...result, status: 'waiting', late: false } : NO_RESULT });
  const slow = setTimeout(() => mine === turn && set({ result: { ...now().result, late: true } }), LATE_MS);
  const [base, next] = await Promise.all([learnBase(draft), judge(draft)]);
  clearTimeout(slow);
  if (mine !== turn) return;
  set({ base: base ?? now().base, result: next, draft: located(draft, next) });
}

/** @type {{of: string, base: import('../app/store.js').State['base']}} what was learnt last, and from what */
let learnt = { of: '', base: null };

/** @param {Draft} draft */
async function learnBase(draft) {
  try {
    const asked = probe(draft);
    const of = JSON.stringify(asked);
    if (of === learnt.of) return learnt.base;
    const answer = await engine.call('wear', asked);
    const base = { limit: answer.limit_percent, correction: answer.correction_percent };
    learnt = { of, base };
    return base;
  } catch {
    return null;
  }
}

/**
 * @param {Draft} draft
 * @returns {Promise<import('../app/store.js').Result>}
 */
async function judge(draft) {
  try {
    const asked = requests(draft);
    if (!asked.length) return NO_RESULT;
    const answers = await Promise.all(asked.map((request) => engine.call('wear', request)));
    return { ...NO_RESULT, status: 'ok', answers, requests: asked, counted: largest(answers) };
  } catch (error) {
    return { ...NO_RESULT, ...failure(error) };
  }
}

/**
 * @param {unknown} error
 * @returns {{status: 'fault'|'crash', fault: import('../data/request.js').Fault|null}}
 */
function failure(error) {
  if (error instanceof EngineFault) return { status: 'fault', fault: error.fault };
  if (error instanceof Unsendable) {
    return { status: 'fault', fault: { code: 'unreadable', field: error.field, message: t('value.unreadable') } };
  }
  return { status: 'crash', fault: null };
}

/**
 * Typed text has no length until the engine has read it; then the pin and the
 * next nudge start from there.
 * @param {Draft} draft
 * @param {import('../app/store.js').Result} result
 * @returns {Draft}
 */
function located(draft, result) {
  const here = entry(draft);
  if (result.status !== 'ok' || !here || here.mm !== null) return draft;
  return withEntry(draft, { ...here, mm: shownMM(draft, result.answers[place(draft)]) });
}

/** @param {Draft} draft @returns {number} index among the answers of the place in use */
export function place(draft) {
  const part = spanDraft(draft);
  return part ? part.places.slice(0, part.active).filter(Boolean).length : 0;
}

/** Waits until what is entered is answered. */
export async function settled() {
  while (now().result.status === 'waiting') await latest;
}

/** Keeps the reading on the phone, once it is answered, then makes room for the next one. */
export async function keepDraft() {
  if (keeping) return;
  keeping = true;
  try {
    await settled();
    await keepAnswered(now());
  } finally {
    keeping = false;
  }
}

/** @param {import('../app/store.js').State} state */
async function keepAnswered({ draft, result }) {
  if (result.status !== 'ok') return;
  const fields = {
    at: new Date().toISOString(),
    requests: result.requests,
    counted: result.counted,
    answer: result.answers[result.counted],
    note: '',
    ...instrumentOf(draft),
  };
  const id = newId();
  try {
    await keepReading(fields, id);
  } catch (error) {
    set({ trouble: error instanceof KeepError ? error.reason : 'lost' });
    return;
  }
  change(cleared(draft), { flash: 'kept', keptId: id });
  scrollTo(0, 0); // the next one begins with its instrument
  askToPersist();
}

/** Empties the reading; can be undone until the next change. */
export function clearDraft() {
  const { draft } = now();
  change(cleared(draft), { flash: 'cleared', before: draft });
  focusLine('undo');
}

/**
 * A change that empties what was entered, such as another span; it can be undone.
 * @param {Draft} next
 */
export function changeAndEmpty(next) {
  const { draft, before } = now();
  const back = entered(draft) ? draft : before;
  change(next, back ? { flash: 'cleared', before: back } : {});
}

/** Brings back what was emptied. */
export function undoClear() {
  const { before } = now();
  if (before) change(before);
  focusNext('place');
}
