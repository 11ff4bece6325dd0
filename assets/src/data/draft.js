/**
 * The reading being taken: what the rider has chosen and entered so far, for
 * every instrument at once, so that switching loses nothing. Plain data; the
 * functions return changed copies.
 */
import { PITCH_MM, nudge, read, show } from './lengths.js';

/**
 * @typedef {import('./lengths.js').MarkName} MarkName
 * @typedef {'rule'|'gauge'|'compare'|'caliper'|'screen'|'photo'} Instrument
 * @typedef {'rule'|'compare'|'caliper'|'screen'|'photo'} SpanInstrument
 * @typedef {{text: string, mm: number|null}} Entry what is typed, and its length once known
 * @typedef {'in12'|'in10'|'mm254'|'mm300'|'other'} SpanName
 * @typedef {{kind: 'derailleur'|'single'|'hub', sprockets: number, chosen: boolean}} Drive
 * @typedef {{pitches: number, marks: MarkName, places: (Entry|null)[], active: number,
 *   span?: SpanName, roller?: string, reading?: object}} SpanDraft reading: what screen or photograph gave, for the engine
 * @typedef {{percent: number, drops: boolean|null}} Step
 * @typedef {{steps: Step[], bears_on: 'opposed_rollers'|'same_side'}} GaugeDraft
 * @typedef {{instrument: Instrument, drive: Drive, rule: SpanDraft, compare: SpanDraft,
 *   caliper: SpanDraft, screen: SpanDraft, photo: SpanDraft, gauge: GaugeDraft,
 *   mine?: Partial<Record<Instrument, import('./instruments.js').Mine>>, at?: number, for?: string,
 *   bike?: {bike_id: string, limit_percent?: number}}} Draft at: when it last changed, ms; for: the bike of a
 *   round that is read, empty for Check's own; bike: whose chain Check's own is, with that chain's own limit
 */

/**
 * Spans on offer. Every count is even: from pin to pin an outer link keeps its
 * length and an inner one takes all the wear, so only whole pairs give the mean.
 * A 300 mm rule takes 22 pitches (279.4 mm) with room for what the chain grew.
 * @type {Record<SpanName, {pitches: number, unit: 'in'|'mm'|null}>}
 */
export const SPANS = {
  in12: { pitches: 24, unit: 'in' },
  in10: { pitches: 20, unit: 'in' },
  mm254: { pitches: 20, unit: 'mm' },
  mm300: { pitches: 22, unit: 'mm' },
  other: { pitches: 48, unit: null },
};

/** Roller diameter of an ordinary cycle chain in mm, until the rider says otherwise. */
export const ROLLER_MM = 7.75;

/**
 * @param {'metric'|'imperial'|'mixed'} units
 * @returns {Draft} nothing entered yet; the strictest limit until a drive is chosen
 */
export function emptyDraft(units) {
  const metric = units === 'metric';
  return {
    instrument: 'rule',
    drive: { kind: 'derailleur', sprockets: 11, chosen: false },
    rule: {
      span: metric ? 'mm254' : 'in12',
      pitches: metric ? 20 : 24,
      marks: metric ? 'mm05' : 'in16',
      places: [null],
      active: 0,
    },
    compare: { pitches: 100, marks: units === 'imperial' ? 'in32' : 'mm05', places: [null], active: 0 },
    caliper: { pitches: 10, marks: 'mm01', roller: String(ROLLER_MM), places: [null], active: 0 },
    screen: { pitches: 10, marks: 'mm001', places: [null], active: 0 },
    photo: { pitches: 18, marks: 'mm001', places: [null], active: 0 },
    gauge: { steps: [0.5, 0.75, 1].map((percent) => ({ percent, drops: null })), bears_on: 'same_side' },
  };
}

/**
 * @param {Draft} draft
 * @param {Instrument} instrument
 * @returns {number} what the instrument shows on a chain of nominal length, mm
 */
export function nominalMM(draft, instrument) {
  if (instrument === 'compare' || instrument === 'gauge') return 0;
  const length = draft[instrument].pitches * PITCH_MM;
  return instrument === 'caliper' ? length - rollerMM(draft.caliper) : length;
}

/** @param {SpanDraft} caliper @returns {number} roller diameter in mm, NaN while unreadable */
export function rollerMM(caliper) {
  return read(caliper.roller ?? '', 'mm');
}

/** @param {Draft} draft @returns {SpanDraft|null} the part in use, null for a gauge */
export function spanDraft(draft) {
  return draft.instrument === 'gauge' ? null : draft[draft.instrument];
}

/** @param {Draft} draft @returns {boolean} whether its value comes from a place of its own and is not typed */
export function measuredElsewhere({ instrument }) {
  return instrument === 'screen' || instrument === 'photo';
}

/** @param {Draft} draft @returns {Entry|null} what is entered at the place in use */
export function entry(draft) {
  const part = spanDraft(draft);
  return part ? part.places[part.active] : null;
}

/** @param {Draft} draft @returns {boolean} whether anything at all is entered */
export function entered(draft) {
  const part = spanDraft(draft);
  if (part) return part.places.some((place) => place !== null);
  return draft.gauge.steps.some((step) => step.drops !== null);
}

/**
 * @param {Draft} draft
 * @param {Entry|null} value for the place in use
 * @returns {Draft}
 */
export function withEntry(draft, value) {
  const part = spanDraft(draft);
  if (!part) return draft;
  return withSpan(draft, { places: part.places.map((old, i) => (i === part.active ? value : old)) });
}

/**
 * @param {Draft} draft
 * @param {Partial<SpanDraft>} change
 * @returns {Draft}
 */
export function withSpan(draft, change) {
  const part = spanDraft(draft);
  return part ? { ...draft, [draft.instrument]: { ...part, ...change } } : draft;
}

/**
 * @param {Draft} draft
 * @param {number} steps marks to move, 0 for the mark nearest to new
 * @returns {Draft}
 */
export function nudged(draft, steps) {
  const part = spanDraft(draft);
  if (!part) return draft;
  const from = entry(draft)?.mm ?? nominalMM(draft, draft.instrument);
  const mm = nudge(from, part.marks, steps);
  return withEntry(draft, { text: show(mm, part.marks), mm });
}

/**
 * Measure thrice: opens places two and three, or goes back to one. Going back
 * keeps the place in use.
 * @param {Draft} draft
 * @param {boolean} on
 * @returns {Draft}
 */
export function thrice(draft, on) {
  const part = spanDraft(draft);
  if (!part) return draft;
  const here = part.places[part.active];
  return withSpan(draft, on ? { places: [here, null, null], active: here ? 1 : 0 } : { places: [here], active: 0 });
}

/** @param {Draft} draft @returns {Draft} nothing entered; instrument, drive and marks stay */
export function cleared(draft) {
  return {
    ...draft,
    rule: { ...draft.rule, places: [null], active: 0 },
    compare: { ...draft.compare, places: [null], active: 0 },
    caliper: { ...draft.caliper, places: [null], active: 0 },
    screen: { ...draft.screen, places: [null], active: 0 },
    photo: { ...draft.photo, places: [null], active: 0 },
    gauge: { ...draft.gauge, steps: draft.gauge.steps.map((step) => ({ ...step, drops: null })) },
  };
}

/**
 * The same length on another pitch count or other marks is not the same
 * reading, so a change of span empties the places.
 * @param {Draft} draft
 * @param {SpanName} span
 * @returns {Draft}
 */
export function withSpanName(draft, span) {
  const { pitches, unit } = SPANS[span];
  const { marks } = draft.rule;
  const fits = unit === null || marks.startsWith(unit);
  /** @type {MarkName} */
  const other = unit === 'in' ? 'in16' : 'mm05';
  return { ...draft, rule: { ...draft.rule, span, pitches, marks: fits ? marks : other, places: [null], active: 0 } };
}
