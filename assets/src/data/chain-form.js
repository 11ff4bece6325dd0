/** A chain's record as a form of texts, and back. */
import { readFar } from '../parts/distances.js';
import { exact } from '../words/numbers.js';
import { typedFar } from './bike-form.js';
import { decimal, whole } from './teeth.js';

/**
 * @typedef {import('./settings.js').Settings['units']} Units
 * @typedef {Record<string, any>} Fields of a chain's record
 */

/** @type {Record<string, 'words'|'whole'|'decimal'|'far'>} */
export const CHAIN_FIELDS = {
  name: 'words',
  class: 'words',
  pitches: 'whole',
  closure: 'words',
  limit_percent: 'decimal',
  fitted_at_km: 'far',
  km_before: 'far',
  note: 'words',
};

/** @param {Fields} fields @param {Units} units @returns {Record<string, string>} */
export function chainForm(fields, units) {
  return Object.fromEntries(
    Object.entries(CHAIN_FIELDS).map(([name, kind]) => {
      const value = fields[name];
      if (typeof value !== 'number') return [name, value ?? ''];
      return [name, kind === 'far' ? typedFar(value, units) : exact(value)];
    }),
  );
}

/**
 * @param {Record<string, string>} form
 * @param {Fields} fields of the record as it stands
 * @param {Units} units
 * @returns {{put: Fields, unreadable: string[]}} what to put, and the fields that cannot be read
 */
export function chainChanges(form, fields, units) {
  const before = chainForm(fields, units);
  /** @type {Fields} */
  const put = {};
  const unreadable = [];
  for (const [name, kind] of Object.entries(CHAIN_FIELDS)) {
    if (form[name] === before[name]) continue;
    const value = read(form[name], kind, units);
    if (typeof value === 'number' && Number.isNaN(value)) unreadable.push(name);
    else put[name] = value;
  }
  return { put, unreadable };
}

/** @param {string} text @param {'words'|'whole'|'decimal'|'far'} kind @param {Units} units */
function read(text, kind, units) {
  if (kind === 'words') return text.trim() || null;
  if (kind === 'whole') return whole(text);
  if (kind === 'decimal') return decimal(text);
  const km = readFar(text, units);
  return km === null ? null : Math.round(km * 10) / 10;
}
