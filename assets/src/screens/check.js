/** Check: take a reading now. The app opens here. */
import { html, nothing } from 'lit';
import { guard } from 'lit/directives/guard.js';
import { now } from '../app/store.js';
import { nudged, entered, entry, measuredElsewhere, nominalMM, spanDraft, withEntry, withSpan } from '../data/draft.js';
import { show } from '../data/lengths.js';
import { choice } from '../parts/choice.js';
import { icon } from '../parts/icons.js';
import { nudgeField } from '../parts/nudge-field.js';
import { faultText } from '../words/engine.js';
import { language } from '../words/language.js';
import { moment } from '../words/numbers.js';
import { named, t } from '../words/t.js';
import { change, clearDraft, keepDraft, undoClear } from './check-actions.js';
import { glassOpen, glassReading } from './glass-kit.js';
import { photoOpen, photoReading } from './photo-kit.js';
import { answerDetails, answerTag } from './check-answer.js';
import { gaugeEnds } from './check-gauge.js';
import { drivePanel, setup, setupPanel } from './check-setup.js';
import { strip } from './check-strip.js';
import { places } from './check-thrice.js';

/**
 * @typedef {import('../app/store.js').State} State
 * @typedef {import('../data/draft.js').Instrument} Instrument
 */

/** @type {Instrument[]} */
const INSTRUMENTS = ['rule', 'gauge', 'compare', 'caliper', 'screen'];

/** @param {State} state @returns {Instrument[]} the photograph only for who turned it on, or has a reading of it */
const offered = ({ photo: { on }, draft: { instrument } }) =>
  on || instrument === 'photo' ? [...INSTRUMENTS, 'photo'] : INSTRUMENTS;

/** @param {State} state */
export function check(state) {
  return {
    body: html`<div class="check">
      <h1 class="away">${t('check.title')}</h1>
      ${guard(besidesValue(state), () => tool(state))}
      ${answerTag(state)}
      ${reading(state)}
      ${answerDetails(state)}
    </div>`,
    bench: bench(state),
  };
}

/** @param {State} state what is measured, and with what */
function tool(state) {
  const { panel } = state;
  return html`${instruments(state)} ${setup(state)} ${panel === 'drive' ? drivePanel(state) : nothing} ${panel === 'setup' ? setupPanel(state) : nothing}`;
}

/** What a nudge leaves as it is, so that it draws nothing but the value and its pin. @param {State} state */
function besidesValue({ draft, panel, garage, settings, photo }) {
  const { instrument, drive, bike, mine } = draft;
  const { places, active, reading, ...span } = spanDraft(draft) ?? {};
  return [instrument, drive, bike, mine, ...Object.values(span), panel, garage, settings, photo.on, language()];
}

/** @param {State} state which instrument, one row to switch */
export function instruments(state) {
  const { draft } = state;
  return html`<div class="instruments ${offered(state).length > 5 ? 'six' : ''}">${choice({
    name: 'instrument',
    title: t('check.instruments'),
    hidden: true,
    even: true,
    value: draft.instrument,
    options: offered(state).map((value) => ({ value, text: html`${icon(value)}${named('instrument', value)}` })),
    choose: (instrument) => change({ ...now().draft, instrument }, { panel: '' }),
  })}</div>`;
}

/** @param {State} state where it is entered: a gauge's ends are touched, its strip is only looked at */
function reading(state) {
  return state.draft.instrument === 'gauge'
    ? html`${ends(state)} ${strip(state)}`
    : html`${strip(state)} ${ends(state)}`;
}

/** @param {State} state what the instrument needs besides the value */
export function ends(state) {
  if (state.draft.instrument === 'gauge') return gaugeEnds(state);
  if (state.draft.instrument === 'photo') return photoReading(state);
  return state.draft.instrument === 'screen' ? glassReading(state) : places(state);
}

/** @param {State} state the lower third: the value and the main action */
function bench(state) {
  return html`<h2 class="away">${t('check.value')}</h2>
    ${flash(state)} ${value(state)}
    <div class="main-row">${besides(state)} ${mainAction(state)}</div>`;
}

/** @param {State} state on to the next place to measure, else back to nothing entered */
function besides({ draft }) {
  if (!entered(draft)) return html`<a class="button" href="#/kept">${t('keep.see')}</a>`;
  const next = entry(draft) ? (spanDraft(draft)?.places.indexOf(null) ?? -1) : -1;
  if (next < 0) return html`<button class="button" type="button" @click=${clearDraft}>${t('keep.clear')}</button>`;
  return html`<button class="button" type="button"
    @click=${() => change(withSpan(now().draft, { active: next }))}>${t('thrice.place', { n: next + 1 })}</button>`;
}

/** @param {State} state one button all along, so that focus stays on it */
function mainAction({ draft, result }) {
  const part = spanDraft(draft);
  if (measuredElsewhere(draft) && !entry(draft)) return draft.instrument === 'photo' ? photoOpen() : glassOpen();
  const asNew = part !== null && !entry(draft);
  const ready = result.status === 'ok' || result.status === 'waiting';
  const text = asNew
    ? t('keep.exact', { length: show(nominalMM(draft, draft.instrument), part.marks).replaceAll(' ', '\u00a0') })
    : t(ready ? 'keep.keep' : part ? 'keep.fix' : 'keep.first');
  return html`<button class="button main" type="button" aria-disabled=${asNew || ready ? 'false' : 'true'}
    @click=${asNew ? () => change(nudged(now().draft, 0)) : () => ready && keepSomewhere()}>${text}</button>`;
}

/** On the phone at once where there is no bike yet; else it is asked where it belongs. */
function keepSomewhere() {
  if (now().garage?.bikes.length) location.hash = '#/keep';
  else keepDraft();
}

/** @param {State} state the measured value, nothing for a gauge */
export function value({ draft, result }) {
  const part = spanDraft(draft);
  if (!part || measuredElsewhere(draft)) return nothing;
  const marks = named('marks', part.marks);
  const here = entry(draft);
  return nudgeField({
    id: 'value',
    title: named('value', draft.instrument),
    hidden: true,
    large: true,
    text: here?.text ?? '',
    placeholder: show(nominalMM(draft, draft.instrument), part.marks),
    less: t('nudge.less', { marks }),
    more: t('nudge.more', { marks }),
    fault: result.fault ? faultText(result.fault) : undefined,
    step: (steps) => change(nudged(now().draft, steps)),
    type: (text) => change(withEntry(now().draft, text ? { text, mm: null } : null)),
  });
}

/** @param {State} state what just happened to the reading, and the way back */
export function flash({ flash: what, draft, keptId }) {
  return html`<div class="flash" role="status">${flashText(what, draft)}
    ${what === 'kept' && keptId ? html`<a class="button quiet" href="#/keep/${keptId}">${t('keep.give')}</a>` : nothing}
    ${what === 'cleared' ? html`<button class="button quiet" type="button" id="undo" @click=${undoClear}>${t('keep.undo')}</button>` : nothing}
  </div>`;
}

/** @param {State['flash']} what @param {State['draft']} draft */
function flashText(what, { at }) {
  if (what === 'kept') return t('keep.done');
  if (what === 'cleared') return t('keep.cleared');
  return what === 'old' ? t('keep.old', { when: at ? moment(at) : t('keep.before') }) : '';
}
