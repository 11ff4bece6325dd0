/** Instruments of the rider's: from what is typed to a record and back, and into the reading that is taken. */
import { NO_TOOL } from '../app/kit-state.js';
import { exact } from '../words/numbers.js';
import { MARKS, stepMM } from './lengths.js';

/**
 * @typedef {import('../app/kit-state.js').ToolForm} ToolForm
 * @typedef {import('./garage.js').Row} Row
 * @typedef {import('./lengths.js').MarkName} MarkName
 * @typedef {import('./draft.js').Draft} Draft
 * @typedef {{id: string, bias: number}} Mine an instrument as a draft holds it; bias in percent
 */

const NUMBER = /^\s*([-−]?)(\d{1,2}(?:[.,]\d{0,4})?|[.,]\d{1,4})\s*%?\s*$/;

/** @param {string} text @returns {number|null} percent; null when empty, NaN when it is no number */
export function percentOf(text) {
  if (!text.trim()) return null;
  const match = NUMBER.exec(text);
  return match ? (match[1] ? -1 : 1) * Number(match[2].replace(',', '.')) : NaN;
}

/** @param {string} text "0.5 0.75", "0,5; 0,75" @returns {number[]} sorted; NaN among them when it holds anything else */
export function stepsOf(text) {
  const parts = text.split(/[\s;/]+|,\s+/).filter(Boolean);
  return parts.map((part) => percentOf(part) ?? NaN).sort((a, b) => a - b);
}

/** Fields that hold something unreadable. @param {ToolForm} form @returns {string[]} */
export function unreadable({ kind, steps, bias }) {
  return [
    ...(Number.isNaN(percentOf(bias)) ? ['bias'] : []),
    ...(kind === 'gauge' && stepsOf(steps).some(Number.isNaN) ? ['steps'] : []),
  ];
}

/** @param {ToolForm} form with nothing unreadable @param {boolean} fresh leave out what is empty instead of clearing it */
export function fieldsOf({ name, kind, marks, steps, bears_on, bias }, fresh) {
  const gauge = kind === 'gauge';
  const list = stepsOf(steps);
  /** @type {Record<string, any>} */
  const fields = {
    ...{ name: name.trim(), kind },
    resolution_mm: gauge ? null : stepMM(marks),
    steps: gauge && list.length ? list : null,
    bears_on: gauge ? bears_on : null,
    bias_percent: percentOf(bias) || null,
  };
  return fresh ? Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== null)) : fields;
}

/** @param {Record<string, any>} fields @returns {ToolForm} */
export function formOf(fields) {
  return {
    ...NO_TOOL,
    ...{ name: fields.name, kind: fields.kind },
    ...(fields.resolution_mm ? { marks: marksOf(fields.resolution_mm) } : {}),
    ...(fields.steps ? { steps: fields.steps.map(exact).join(' ') } : {}),
    ...(fields.bears_on ? { bears_on: fields.bears_on } : {}),
    ...(fields.bias_percent ? { bias: exact(fields.bias_percent) } : {}),
  };
}

/** @param {number} mm @returns {MarkName} the marks nearest to that resolution */
export function marksOf(mm) {
  const names = /** @type {MarkName[]} */ (Object.keys(MARKS));
  const far = (/** @type {MarkName} */ name) => Math.abs(Math.log(stepMM(name) / mm));
  return names.reduce((best, name) => (far(name) < far(best) ? name : best));
}

/**
 * @param {Row[]} all
 * @param {import('./draft.js').Instrument} kind
 * @returns {Row[]} those that measure so
 */
export function ofKind(all, kind) {
  return all.filter(({ fields }) => fields.kind === kind);
}

/** @param {Draft} draft @returns {Mine|undefined} the rider's own instrument that is used, if one is */
export function used({ instrument, mine }) {
  return mine?.[instrument];
}

/**
 * @param {Draft} draft
 * @param {Row|null} row null for an instrument that is none of the rider's own
 * @returns {Draft} with its marks, its ends and its bias
 */
export function withMine(draft, row) {
  const { instrument } = draft;
  if (!row) return { ...draft, mine: { ...draft.mine, [instrument]: undefined } };
  const { resolution_mm: mm, steps, bears_on, bias_percent: bias = 0 } = row.fields;
  const next = { ...draft, mine: { ...draft.mine, [instrument]: { id: row.record_id, bias } } };
  if (instrument === 'gauge') {
    const ends = steps ? { steps: steps.map((/** @type {number} */ percent) => ({ percent, drops: null })) } : {};
    return { ...next, gauge: { ...draft.gauge, ...ends, ...(bears_on ? { bears_on } : {}) } };
  }
  return mm ? { ...next, [instrument]: { ...draft[instrument], marks: marksOf(mm) } } : next;
}

/** @param {Draft} draft @param {object} reading as wear takes it @returns {object} the same, with what the instrument is known to read wrong */
export function biased(draft, reading) {
  const bias = used(draft)?.bias;
  return bias ? { ...reading, bias_percent: bias } : reading;
}

/** @param {Draft} draft @returns {{instrument_id?: string}} as a reading's record names it */
export function instrumentOf(draft) {
  const mine = used(draft);
  return mine ? { instrument_id: mine.id } : {};
}
