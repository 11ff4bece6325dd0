/** The pin strip of the reading being taken. */
import { html, nothing } from 'lit';
import { now } from '../app/store.js';
import { entry, nominalMM, nudged, spanDraft } from '../data/draft.js';
import { PITCH_MM, show } from '../data/lengths.js';
import '../parts/pin-strip/pin-strip.js';
import { named, t } from '../words/t.js';
import { change, place } from './check-actions.js';

/** @param {import('../app/store.js').State} state */
export function strip(state) {
  const { draft, base } = state;
  const part = spanDraft(draft);
  if (!part || !base) return nothing;
  const length = part.pitches * PITCH_MM;
  const shown = nominalMM(draft, draft.instrument);
  if (!(shown >= 0)) return nothing;
  const answer = current(state);
  const mm = entry(draft)?.mm ?? null;
  const model = {
    nominal: shown,
    bias: base.correction,
    length,
    limit: base.limit,
    marks: part.marks,
    mm,
    band: answer && mm !== null ? answer.interval95_percent : null,
    others: part.places.flatMap((one, i) => (one?.mm != null && i !== part.active ? [one.mm] : [])),
    verdict: answer?.verdict ?? 'none',
    text: spoken(mm ?? shown, part.marks, answer),
  };
  return html`<taut-pin-strip .model=${model}
    @pin-move=${(/** @type {CustomEvent<number>} */ event) => change(nudged(now().draft, event.detail))}
  ></taut-pin-strip>`;
}

/** @param {import('../app/store.js').State} state the answer for the place in use */
function current({ draft, result }) {
  return result.status === 'ok' && entry(draft) ? result.answers[place(draft)] : null;
}

/**
 * @param {number} mm
 * @param {import('../data/lengths.js').MarkName} marks
 * @param {import('../data/request.js').Answer|null} answer
 */
function spoken(mm, marks, answer) {
  const length = show(mm, marks);
  if (!answer) return length;
  return t('strip.value.verdict', {
    length,
    percent: answer.elongation_percent.toFixed(2),
    verdict: named('verdict', answer.verdict),
  });
}
