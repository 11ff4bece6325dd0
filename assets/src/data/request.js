/**
 * From a draft to requests for the `wear` calculation, and back from its
 * answers to what the screen shows.
 */
import { biased } from './instruments.js';
import { MARKS, PITCH_MM, read, stepMM } from './lengths.js';
import { nominalMM, rollerMM, spanDraft } from './draft.js';

/**
 * @typedef {import('./draft.js').Draft} Draft
 * @typedef {import('./draft.js').Entry} Entry
 * @typedef {{source: string, standard_uncertainty_percent: number, note: string}} BudgetLine
 * @typedef {'ride'|'plan'|'change'|'change_and_inspect'|'measure_again'} Verdict
 * @typedef {{elongation_percent: number, correction_percent: number,
 *   standard_uncertainty_percent: number, interval95_percent: [number, number],
 *   budget: BudgetLine[], limit_percent: number, probability_past_limit: number,
 *   verdict: Verdict, reasons: string[], next_steps: string[], cautions: string[]}} Answer
 * @typedef {{code: string, field: string, message: string}} Fault
 */

/** A value the screen itself cannot send on: a fault in the engine's own form. */
export class Unsendable extends Error {
  /** @param {string} field */
  constructor(field) {
    super(field);
    this.field = field;
  }
}

/**
 * @param {Draft} draft
 * @returns {object[]} one `wear` request per place with something entered, in order
 * @throws {Unsendable} when a length that goes as a number is not one
 */
export function requests(draft) {
  const part = spanDraft(draft);
  const readings = part ? part.places.flatMap((place) => (place ? [reading(draft, place)] : [])) : gauge(draft);
  return readings.map((one) => ({ ...drive(draft), reading: biased(draft, one) }));
}

/**
 * What the instrument shows on a chain of nominal length, to learn the limit
 * and the known bias before there is a reading.
 * @param {Draft} draft
 * @returns {object}
 */
export function probe(draft) {
  const nominal = { text: '', mm: nominalMM(draft, draft.instrument) };
  if (draft.instrument === 'screen') return { ...drive(draft), reading: unread(draft.screen) };
  if (draft.instrument === 'photo') return { ...drive(draft), reading: AS_NEW };
  const one =
    draft.instrument === 'gauge'
      ? { kind: 'gauge', steps: [{ percent: 0.5, drops: false }], bears_on: draft.gauge.bears_on }
      : reading(draft, draft.instrument === 'rule' ? { ...nominal, text: `${nominal.mm} mm` } : nominal);
  return { ...drive(draft), reading: biased(draft, one) };
}

/** A screen of one px per mm on which nothing is longer than new. @param {import('./draft.js').SpanDraft} part */
function unread({ pitches }) {
  return { kind: 'screen', pitches, span_px: pitches * PITCH_MM, px_per_mm: 1, px_per_mm_standard_uncertainty: 0 };
}

/** A photograph of a chain that is not longer than new. */
const AS_NEW = { kind: 'photo', pitches: 18, elongation_percent: 0, standard_uncertainty_percent: 0.1 };

/** @param {Draft} draft */
function drive({ drive: { kind, sprockets }, bike }) {
  const limit = bike?.limit_percent === undefined ? {} : { limit_percent: bike.limit_percent };
  return kind === 'derailleur' ? { drive: kind, rear_sprockets: sprockets, ...limit } : { drive: kind, ...limit };
}

/** @param {Draft} draft @returns {object[]} */
function gauge({ gauge: { steps, bears_on } }) {
  const tried = steps.filter((step) => step.drops !== null);
  return tried.length ? [{ kind: 'gauge', steps: tried, bears_on }] : [];
}

/**
 * @param {Draft} draft
 * @param {Entry} place
 * @returns {object}
 */
function reading(draft, place) {
  switch (draft.instrument) {
    case 'compare': {
      const { pitches, marks } = draft.compare;
      return {
        kind: 'compare',
        pitches,
        growth_mm: number(place, marks, 'reading.growth_mm'),
        resolution_mm: stepMM(marks),
      };
    }
    case 'caliper': {
      const { pitches, marks } = draft.caliper;
      const roller = rollerMM(draft.caliper);
      if (Number.isNaN(roller)) throw new Unsendable('reading.roller_mm');
      return {
        kind: 'caliper',
        pitches,
        inside_mm: number(place, marks, 'reading.inside_mm'),
        roller_mm: roller,
        resolution_mm: stepMM(marks),
      };
    }
    case 'screen':
      return { kind: 'screen', pitches: draft.screen.pitches, ...draft.screen.reading };
    case 'photo':
      return { kind: 'photo', pitches: draft.photo.pitches, ...draft.photo.reading };
    default:
      return rule(draft.rule, place);
  }
}

/**
 * The rule's text goes on as typed; a number without a unit is in the unit of
 * the marks.
 * @param {import('./draft.js').SpanDraft} part
 * @param {Entry} place
 */
function rule({ pitches, marks }, place) {
  const { unit, per } = MARKS[marks];
  const text = /[a-z"″”']/i.test(place.text) ? place.text : `${place.text} ${unit}`;
  const resolution = unit === 'in' ? { resolution_in: `1/${per}` } : { resolution_mm: stepMM(marks) };
  return { kind: 'rule', pitches, span_text: text.trim(), ...resolution };
}

/**
 * @param {Entry} place
 * @param {import('./lengths.js').MarkName} marks
 * @param {string} field
 */
function number(place, marks, field) {
  const mm = place.mm ?? read(place.text, MARKS[marks].unit);
  if (Number.isNaN(mm)) throw new Unsendable(field);
  return mm;
}

/**
 * @param {Answer[]} answers
 * @returns {number} index of the one to go by: the largest elongation
 */
export function largest(answers) {
  return answers.reduce(
    (best, answer, i) => (answer.elongation_percent > answers[best].elongation_percent ? i : best),
    0,
  );
}

/**
 * @param {Draft} draft with a span instrument in use
 * @param {Answer} answer
 * @returns {number} what the instrument showed, known bias and all, mm
 */
export function shownMM(draft, answer) {
  const percent = answer.elongation_percent + answer.correction_percent;
  return nominalMM(draft, draft.instrument) + ((spanDraft(draft)?.pitches ?? 0) * PITCH_MM * percent) / 100;
}
