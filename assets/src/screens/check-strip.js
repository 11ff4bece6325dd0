/** The pin strip of the reading being taken. */
import { html, nothing } from 'lit';
import { now } from '../app/store.js';
import { entry, measuredElsewhere, nominalMM, nudged, spanDraft } from '../data/draft.js';
import { PITCH_MM, show } from '../data/lengths.js';
import { HEIGHT, WIDTH } from '../parts/pin-strip/geometry.js';
import '../parts/pin-strip/pin-strip.js';
import { percent } from '../words/numbers.js';
import { named, t } from '../words/t.js';
import { change, place } from './check-actions.js';

/** @typedef {import('../app/store.js').State} State */

/** @param {State} state */
export function strip(state) {
  const { draft, base } = state;
  if (!base) return room();
  const part = spanDraft(draft);
  const model = part ? spanModel(state, part, base) : gaugeModel(state, base);
  if (!model) return nothing;
  return html`<taut-pin-strip .model=${model}
    @pin-move=${(/** @type {CustomEvent<number>} */ event) => change(nudged(now().draft, event.detail))}
  ></taut-pin-strip>`;
}

/** The strip's place while the engine starts, so that nothing moves when it comes. */
function room() {
  return html`<div class="strip still" aria-hidden="true"><div class="strip-sheet"><svg viewBox="0 0 ${WIDTH} ${HEIGHT}"></svg></div>
    <p class="strip-scale">${t('strip.scale', { scale: 10 })}</p></div>`;
}

/**
 * @param {State} state
 * @param {import('../data/draft.js').SpanDraft} part
 * @param {NonNullable<State['base']>} base
 */
function spanModel(state, part, base) {
  const nominal = nominalMM(state.draft, state.draft.instrument);
  if (!(nominal >= 0)) return null;
  const answer = current(state);
  const mm = entry(state.draft)?.mm ?? null;
  return {
    ...common(base, answer),
    nominal,
    length: part.pitches * PITCH_MM,
    marks: part.marks,
    mm,
    band: answer && mm !== null ? answer.interval95_percent : null,
    others: part.places.flatMap((one, i) => (one?.mm != null && i !== part.active ? [one.mm] : [])),
    ends: [],
    still: measuredElsewhere(state.draft),
    text: spoken(show(mm ?? nominal, part.marks), answer),
  };
}

/** A gauge has no span; it is drawn as if over this many pitches. */
const GAUGE_PITCHES = 30;

/**
 * @param {State} state
 * @param {NonNullable<State['base']>} base
 */
function gaugeModel(state, base) {
  const length = GAUGE_PITCHES * PITCH_MM;
  const answer = current(state);
  const mm = answer ? (length * (answer.elongation_percent + answer.correction_percent)) / 100 : null;
  const ends = state.draft.gauge.steps;
  const tried = ends.filter((one) => one.drops !== null);
  const said = tried.map((one) => t(one.drops ? 'kept.gauge.drops' : 'kept.gauge.stays', { percent: one.percent }));
  return {
    ...common(base, answer),
    nominal: 0,
    length,
    marks: /** @type {const} */ ('mm1'),
    mm,
    band: answer?.interval95_percent ?? null,
    others: [],
    ends,
    still: true,
    text: spoken(said.join(', ') || t('answer.none'), answer),
  };
}

/**
 * @param {NonNullable<State['base']>} base
 * @param {import('../data/request.js').Answer|null} answer
 */
function common(base, answer) {
  return { bias: base.correction, limit: base.limit, verdict: answer?.verdict ?? /** @type {const} */ ('none') };
}

/** @param {State} state the answer for the place in use; while the next is worked out, the one before */
function current({ draft, result }) {
  const there = result.status === 'ok' || result.status === 'waiting';
  const here = draft.instrument === 'gauge' || entry(draft);
  return (there && here && result.answers[place(draft)]) || null;
}

/**
 * @param {string} value what the instrument shows
 * @param {import('../data/request.js').Answer|null} answer
 */
function spoken(value, answer) {
  if (!answer) return value;
  return t('strip.value.verdict', {
    value,
    percent: percent(answer.elongation_percent),
    verdict: named('verdict', answer.verdict),
  });
}
