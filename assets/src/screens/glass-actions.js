/** What can be done on the glass: moving the line, taking settings, leaving with a result. */
import { cameFrom, leave } from '../app/leave.js';
import { now, set } from '../app/store.js';
import { CARD_MM, SETTINGS, SPANS, calibrated, fitting, measured, roundLength, standing } from '../data/glass.js';
import { forget, keep, recall } from '../data/local.js';
import { MM_PER_INCH, PITCH_MM, show } from '../data/lengths.js';
import { withSpan } from '../data/draft.js';
import { change } from './check-actions.js';

/**
 * @typedef {import('../data/glass.js').Calibration} Calibration
 * @typedef {'measure'|'rule'|'card'} Task
 * @typedef {{mm: number, pitches: number, all: number, text: string}} Aim what the lines are set to
 * @typedef {{task: Task, shown: boolean, at: number, taken: number[], why: ''|'wild'|'implausible', aim: Aim,
 *   on: import('../data/glass.js').Display}} Glass
 *   shown: the lines, else how to; at: px from line to line; taken: px; aim, on: as they were when the lines
 *   were shown, since what a window has room for may change under the rider's hands
 */

/** px per mm before anything is known: 160 to the inch is what phones aim at, 96 elsewhere (W3C CSS Values 3). */
const GUESS = matchMedia('(pointer: coarse)').matches ? 160 / MM_PER_INCH : 96 / MM_PER_INCH;

/** Px above the upper and below the lower line. */
export const EDGE = 28;

/** The line starts this far off, now long, now short, so that each setting is a new one. */
const OFF = 0.012;

/** Fewer pitches than this make too rough a span. */
export const LEAST_PITCHES = 6;

const NONE = /** @type {any} */ ({ px_per_mm: 0 });

/** @returns {Calibration|null} */
export function calibration() {
  const kept = recall('calibration', NONE);
  return kept.px_per_mm ? kept : null;
}

/** @returns {import('../data/glass.js').Display} as it is now */
export function display() {
  const { width, height } = screen;
  return {
    ratio: devicePixelRatio,
    zoom: visualViewport?.scale ?? 1,
    width: Math.min(width, height),
    height: Math.max(width, height),
    page: innerWidth,
    upright: innerHeight > innerWidth,
  };
}

/** @returns {ReturnType<typeof standing>} whether this screen may measure now */
export function glassStands() {
  return standing(calibration(), display());
}

const room = () => innerHeight - 2 * EDGE;

/** @param {Task} task @returns {Aim} as long as there is room for now */
export function target(task) {
  const pxPerMM = calibration()?.px_per_mm ?? GUESS;
  if (task === 'measure') {
    const pitches = Math.max(0, fitting(room(), pxPerMM, PITCH_MM));
    return { mm: pitches * PITCH_MM, pitches, all: SPANS, text: '' };
  }
  if (task === 'card') return { mm: CARD_MM, pitches: 0, all: SETTINGS, text: '' };
  const inches = now().settings.units === 'imperial';
  const mm = roundLength(room(), pxPerMM, inches ? MM_PER_INCH / 2 : 10);
  return { mm, pitches: 0, all: SETTINGS, text: show(mm, inches ? 'in16' : 'mm1') };
}

/** @param {Task} task @param {number} taken how many there are @returns {number} px where the line starts */
function start(task, taken) {
  const pxPerMM = calibration()?.px_per_mm ?? GUESS;
  return target(task).mm * pxPerMM * (1 + (taken % 2 ? -OFF / 2 : OFF));
}

/** @param {string} argument of the address: what is to be done @returns {void} */
export function openGlass(argument) {
  const task = argument === 'rule' || argument === 'card' ? argument : 'measure';
  const kept = recall('glass', /** @type {any} */ ({ task: '' }));
  put(kept.task === task && kept.aim ? kept : fresh(task));
}

/** @param {Task} task @returns {Glass} */
function fresh(task) {
  return { task, shown: false, at: start(task, 0), taken: [], why: '', aim: target(task), on: display() };
}

/** @param {Glass} glass @returns {boolean} whether the lines still mean what they meant when they were shown */
export function lasts({ task, aim, on }) {
  return standing({ ...NONE, display: on }, display()) === 'ok' && aim.mm <= target(task).mm;
}

/** @param {Glass} glass */
function put(glass) {
  set({ glass, trouble: keep('glass', glass) });
}

/** @returns {Glass} */
const here = () => /** @type {Glass} */ (now().glass);

export const startAgain = () => put({ ...fresh(here().task), shown: true });

/** @param {number} px to move the lower line by; it stays on the glass */
export function moveLine(px) {
  put({ ...here(), at: Math.min(room(), Math.max(EDGE, here().at + px)) });
}

export function untake() {
  const taken = here().taken.slice(0, -1);
  put({ ...here(), taken, at: here().taken[taken.length] });
}

/** Takes the setting; the last one gives the result. */
export function take() {
  const glass = here();
  const taken = [...glass.taken, glass.at];
  if (taken.length < glass.aim.all) {
    put({ ...glass, taken, at: start(glass.task, taken.length) });
    return;
  }
  const why = glass.task === 'measure' ? finishSpan(taken, glass) : finishSetting(glass.task, taken, glass);
  if (why) return put({ ...glass, taken, why });
  forget('glass');
  goBack();
}

/** @param {'rule'|'card'} task @param {number[]} taken @param {Glass} glass @returns {Glass['why']} */
function finishSetting(task, taken, { aim, on }) {
  const made = calibrated(task, aim.mm, taken, on, new Date().toISOString());
  if (typeof made === 'string') return made;
  set({ trouble: keep('calibration', made) });
  return '';
}

/** @param {number[]} taken @param {Glass} glass @returns {Glass['why']} */
function finishSpan(taken, { aim }) {
  const known = /** @type {Calibration} */ (calibration());
  const span = measured(taken, known);
  if (!span) return 'wild';
  const mm = span.px / known.px_per_mm;
  const { draft } = now();
  const reading = {
    span_px: span.px,
    standard_uncertainty_px: span.standard_uncertainty,
    px_per_mm: known.px_per_mm,
    px_per_mm_standard_uncertainty: known.standard_uncertainty,
  };
  const place = { text: show(mm, 'mm001'), mm };
  change(withSpan({ ...draft, instrument: 'screen' }, { pitches: aim.pitches, places: [place], reading }));
  return '';
}

/** To where the glass was come from, else to Check; what was set so far stays for the next time. */
export function goBack() {
  leave(cameFrom() || '#/check');
}

for (const event of ['resize', 'orientationchange']) addEventListener(event, () => set({}));
visualViewport?.addEventListener('resize', () => set({}));
