/** What the reading is of: the drive, the span, the marks of the instrument. */
import { html, nothing } from 'lit';
import { now, set } from '../app/store.js';
import {
  ROLLER_MM,
  SPANS,
  measuredElsewhere,
  nominalMM,
  rollerMM,
  spanDraft,
  withSpan,
  withSpanName,
} from '../data/draft.js';
import { used } from '../data/instruments.js';
import { MARKS, show } from '../data/lengths.js';
import { bikeSelect } from '../parts/bike-select.js';
import { choice } from '../parts/choice.js';
import { nudgeField } from '../parts/nudge-field.js';
import { fixed } from '../words/numbers.js';
import { named, t } from '../words/t.js';
import { change, changeAndEmpty } from './check-actions.js';
import { takeFor } from './check-bike.js';
import { mine } from './check-mine.js';

/**
 * @typedef {import('../app/store.js').State} State
 * @typedef {import('../data/draft.js').Draft} Draft
 * @typedef {import('../data/draft.js').SpanName} SpanName
 * @typedef {import('../data/lengths.js').MarkName} MarkName
 */

/** @type {Record<'rule'|'compare'|'caliper', MarkName[]>} */
const ON_OFFER = {
  rule: ['in16', 'in32', 'mm05', 'mm1'],
  compare: ['in16', 'in32', 'mm05', 'mm1'],
  caliper: ['mm01', 'mm001'],
};

const MOST_PITCHES = 400;
const ROLLER_STEP_MM = 0.05;

/** @param {State} state two buttons that say what is set and open its panel */
export function setup(state) {
  const { draft, panel, garage } = state;
  return html`<div class="setup">
    ${opener('drive', panel, driveWords(draft, garage))}
    ${marksOpener(state)}
  </div>`;
}

/** @param {State} state says which span and marks, and opens their panel */
export function marksOpener({ draft, panel, garage }) {
  const part = spanDraft(draft);
  return part && !measuredElsewhere(draft) ? opener('setup', panel, setupWords(draft, part, garage)) : nothing;
}

/**
 * @param {'drive'|'setup'} name
 * @param {State['panel']} open
 * @param {string} text
 */
function opener(name, open, text) {
  const here = open === name;
  return html`<button class="chip" type="button" aria-expanded=${here ? 'true' : 'false'}
    aria-controls=${here ? 'panel' : nothing} @click=${() => set({ panel: here ? '' : name })}>${text}</button>`;
}

/** @param {Draft} draft @param {State['garage']} garage */
function driveWords({ drive, bike }, garage) {
  const name = garage?.bikes.find((one) => one.bike_id === bike?.bike_id)?.fields.name;
  if (name) return name;
  if (!drive.chosen) return t('drive.assumed');
  if (drive.kind !== 'derailleur') return named('drive', drive.kind);
  return t('drive.chosen', { n: drive.sprockets < 5 ? t('drive.few') : drive.sprockets });
}

/** @param {Draft} draft @param {import('../data/draft.js').SpanDraft} part @param {State['garage']} garage */
function setupWords(draft, { span, pitches, marks }, garage) {
  const { instrument } = draft;
  const own = garage?.instruments.find(({ record_id }) => record_id === used(draft)?.id);
  if (own) return t('setup.own', { name: own.fields.name, n: pitches });
  const words = { marks: named('marks', marks), n: pitches, span: named('span', span ?? 'other') };
  return instrument === 'rule' && span !== 'other' ? t('setup.span', words) : t('setup.pitches', words);
}

/** @param {State} state */
export function drivePanel({ draft, garage }) {
  const { drive } = draft;
  const choose = (/** @type {Partial<Draft['drive']>} */ part) =>
    change({ ...now().draft, drive: { ...now().draft.drive, ...part, chosen: true }, bike: undefined });
  return html`<div class="panel" id="panel">
    ${bikeSelect({
      id: 'check-bike',
      title: t('check.bike'),
      none: t('check.bike.none'),
      garage,
      value: draft.bike?.bike_id ?? '',
      choose: takeFor,
    })}
    ${choice({
      name: 'drive',
      title: t('drive.title'),
      value: drive.chosen ? drive.kind : null,
      options: /** @type {const} */ (['derailleur', 'single', 'hub']).map((value) => ({
        value,
        text: named('drive', value),
      })),
      choose: (kind) => choose({ kind }),
    })}
    ${
      drive.kind === 'derailleur'
        ? html`<div class="sprockets">${choice({
            name: 'sprockets',
            title: t('drive.sprockets'),
            value: drive.chosen ? drive.sprockets : null,
            options: [4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14].map((value) => ({
              value,
              text: value < 5 ? t('drive.few') : value,
            })),
            choose: (sprockets) => choose({ kind: 'derailleur', sprockets }),
          })}</div>`
        : nothing
    }
    ${done()}
  </div>`;
}

function done() {
  return html`<button class="button" type="button" @click=${() => set({ panel: '' })}>${t('setup.done')}</button>`;
}

/** @param {State} state */
export function setupPanel({ draft, settings, garage }) {
  const part = spanDraft(draft);
  if (!part || draft.instrument === 'gauge' || measuredElsewhere(draft)) return nothing;
  const wanted = { mixed: '', metric: 'mm', imperial: 'in' }[settings.units];
  const marks = ON_OFFER[/** @type {keyof typeof ON_OFFER} */ (draft.instrument)].filter(
    (name) => draft.instrument === 'caliper' || name === part.marks || MARKS[name].unit.startsWith(wanted),
  );
  return html`<div class="panel" id="panel">
    ${mine({ draft, garage })}
    ${draft.instrument === 'rule' ? spans(draft, wanted) : nothing}
    ${draft.instrument !== 'rule' || part.span === 'other' ? pitches(draft) : nothing}
    ${draft.instrument === 'caliper' ? roller(draft) : nothing}
    ${choice({
      name: 'marks',
      title: t('marks.title'),
      value: part.marks,
      options: marks.map((value) => ({ value, text: named('marks', value) })),
      choose: (value) => change(withSpan(now().draft, { marks: value })),
    })}
    ${done()}
  </div>`;
}

/**
 * @param {Draft} draft
 * @param {string} wanted unit, empty for both
 */
function spans(draft, wanted) {
  const { span = 'other', pitches: n, marks } = draft.rule;
  const names = /** @type {SpanName[]} */ (Object.keys(SPANS)).filter(
    (name) => name === span || (SPANS[name].unit ?? '').startsWith(wanted) || SPANS[name].unit === null,
  );
  return html`${choice({
    name: 'span',
    title: t('span.title'),
    value: span,
    options: names.map((value) => ({ value, text: named('span', value) })),
    choose: (value) => changeAndEmpty(withSpanName(now().draft, value)),
  })}
    <p class="soft number">${t('span.is', { n, length: show(nominalMM(draft, 'rule'), marks) })}</p>`;
}

/** @param {Draft} draft */
function pitches(draft) {
  const n = spanDraft(draft)?.pitches ?? 0;
  const put = (/** @type {number} */ count) => {
    if (count >= 1 && count <= MOST_PITCHES)
      changeAndEmpty(withSpan(now().draft, { pitches: count, places: [null], active: 0 }));
  };
  return nudgeField({
    id: 'pitches',
    title: t('pitches.title'),
    hint: t('pitches.hint'),
    text: String(n),
    mode: 'numeric',
    less: t('nudge.fewer'),
    more: t('nudge.further'),
    step: (steps) => put(n + 2 * steps),
    type: (text) => put(/^\d+$/.test(text) ? Number(text) : NaN),
  });
}

/** @param {Draft} draft */
function roller(draft) {
  const put = (/** @type {string} */ text) => change(withSpan(now().draft, { roller: text }));
  const mm = rollerMM(draft.caliper);
  return nudgeField({
    id: 'roller',
    title: t('roller.title'),
    hint: t('roller.hint'),
    text: draft.caliper.roller ?? '',
    mode: 'decimal',
    less: t('nudge.thinner'),
    more: t('nudge.thicker'),
    fault: Number.isNaN(mm) ? t('value.unreadable') : undefined,
    step: (steps) => put(fixed((Number.isNaN(mm) ? ROLLER_MM : mm) + steps * ROLLER_STEP_MM, 2)),
    type: put,
  });
}
