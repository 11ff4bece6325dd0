/** The fields of Fit: one way to show, nudge, type and correct each kind of value. */
import { html } from 'lit';
import { live } from 'lit/directives/live.js';
import { now } from '../app/store.js';
import { PITCH_MM } from '../data/lengths.js';
import { stepped, unitOf } from '../data/fit-lengths.js';
import { decimal, showTeeth, teeth, whole } from '../data/teeth.js';
import { nudgeField } from '../parts/nudge-field.js';
import { textField } from '../parts/text-field.js';
import { faultText } from '../words/engine.js';
import { fixed } from '../words/numbers.js';
import { named, t } from '../words/t.js';
import { put } from './fit-actions.js';

/**
 * @typedef {import('../app/store.js').State} State
 * @typedef {import('../data/fit-draft.js').Question} Question
 * @typedef {{state: State, question: Question, field: string, hint?: string, told?: string[]}} Common
 *   field: as the calculation calls it; told: further names the engine may give its fault
 */

/**
 * A length, nudged by millimetres, sixteenths or what a caliper shows.
 * @param {Common & {grain: import('../data/fit-lengths.js').Grain, start: number}} model start: where nudging begins, mm
 */
export function lengthField({ state, question, field, hint, told, grain, start }) {
  const unit = unitOf(state.settings.units);
  const typed = value(state, question, field);
  const shown = typed.text.trim() ? typed.unit : unit;
  return nudge({
    question,
    field,
    title: t('fit.label', { title: named('fit.field', field), unit: shown }),
    hint,
    text: typed.text,
    mode: shown === 'in' ? 'text' : 'decimal',
    fault: fault(state, question, field, told, 'fit.unreadable.length'),
    step: (steps) => write(question, field, stepped(value(now(), question, field), grain, unit, steps, start)),
    type: (text) => write(question, field, { text, unit: text.trim() ? shown : unit }),
  });
}

/** The pitch, where it is not the usual half inch. @param {State} state @param {'length'|'centre'|'gears'} question */
export function pitchField(state, question) {
  return lengthField({
    state,
    question,
    field: 'pitch_mm',
    hint: t('fit.hint.pitch_mm'),
    grain: 'width',
    start: PITCH_MM,
  });
}

/**
 * A number, nudged by a fixed step.
 * @param {Common & {start: number, pace?: number, decimals?: number}} model
 */
export function numberField({ state, question, field, hint, told, start, pace = 1, decimals = 0 }) {
  const text = value(state, question, field);
  const read = decimals ? decimal : whole;
  return nudge({
    question,
    field,
    title: named('fit.field', field),
    hint,
    text,
    mode: decimals ? 'decimal' : 'numeric',
    fault: fault(state, question, field, told, 'fit.unreadable.number'),
    step: (steps) => {
      const from = read(value(now(), question, field));
      write(
        question,
        field,
        fixed(Math.max(0, (from === null || Number.isNaN(from) ? start : from) + steps * pace), decimals),
      );
    },
    type: (typed) => write(question, field, typed),
  });
}

/** @param {Omit<Parameters<typeof nudgeField>[0], 'id'|'less'|'more'> & {question: Question, field: string}} model */
function nudge(model) {
  const { title } = model;
  return nudgeField({
    ...model,
    id: `${model.question}-${model.field}`,
    less: t('fit.less', { title }),
    more: t('fit.more', { title }),
  });
}

/** A list of tooth counts; what was read of it stands below. @param {Common} model */
export function teethField({ state, question, field, hint, told }) {
  const text = value(state, question, field);
  const counts = teeth(text);
  const wrong = fault(state, question, field, told, 'fit.unreadable.teeth');
  const below = counts?.length ? t('fit.hint.teeth.read', { list: showTeeth(counts) }) : hint;
  return textField({
    id: `${question}-${field}`,
    title: t('fit.label', { title: named('fit.field', field), unit: t('fit.unit.teeth') }),
    text,
    hint: below,
    fault: wrong,
    mode: 'decimal',
    type: (typed) => write(question, field, typed),
  });
}

/** A text the engine reads itself. @param {Common & {mode: 'text'|'decimal'}} model */
export function plainField({ state, question, field, hint, told, mode }) {
  return textField({
    id: `${question}-${field}`,
    title: named('fit.field', field),
    text: value(state, question, field),
    hint,
    mode,
    fault: fault(state, question, field, told, 'fit.unreadable.number'),
    type: (typed) => write(question, field, typed),
  });
}

/**
 * Yes or no.
 * @param {{title: string, hint: string, on: boolean, choose: (on: boolean) => void}} model
 */
export function toggle({ title, hint, on, choose }) {
  return html`<div>
    <label class="choice"><input type="checkbox" .checked=${live(on)}
      @change=${(/** @type {any} */ event) => choose(event.target.checked)}><span class="chip">${title}</span></label>
    <p class="soft small">${hint}</p>
  </div>`;
}

/** Fields that are rarely needed. @param {string} title @param {unknown} content */
export function fold(title, content) {
  return html`<details class="fold"><summary>${title}</summary><div class="sheets">${content}</div></details>`;
}

/** @param {State} state @param {Question} question @param {string} field @returns {any} */
function value(state, question, field) {
  return /** @type {any} */ (state.fit[question])[field];
}

/** @param {Question} question @param {string} field @param {any} entered */
function write(question, field, entered) {
  put(question, /** @type {any} */ ({ [field]: entered }));
}

/**
 * What is wrong with a field: the engine's words, or ours where it could not
 * even be asked.
 * @param {State} state
 * @param {Question} question
 * @param {string} field
 * @param {string[]|undefined} told
 * @param {import('../words/t.js').Word} unreadable
 * @returns {string|undefined}
 */
function fault(state, question, field, told = [], unreadable) {
  const result = state.fitResults[question];
  if (result.unreadable.includes(field)) return t(unreadable);
  if (result.status !== 'fault' || !result.fault) return undefined;
  const name = result.fault.field.replace(/\[\d+\]/g, '');
  return name === field || told.includes(name) ? faultText(result.fault) : undefined;
}
