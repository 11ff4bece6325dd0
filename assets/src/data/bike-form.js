/**
 * A bike's record as a form of texts, and back. Texts stay as typed until they
 * are saved; only what was changed is put.
 */
import { kmPerUnit, readFar } from '../parts/distances.js';
import { exact } from '../words/numbers.js';
import { read, MM_PER_INCH } from './lengths.js';
import { showTeeth, teeth, whole } from './teeth.js';

/**
 * @typedef {import('./settings.js').Settings['units']} Units
 * @typedef {Record<string, any>} Fields of a bike's record
 * @typedef {Record<string, string>} Texts
 */

/** @type {Record<string, {text: (value: any, units: Units) => string, value: (text: string, units: Units) => any}>} */
const KINDS = {
  words: { text: (value) => value ?? '', value: (text) => text.trim() || null },
  teeth: { text: (value) => showTeeth(value ?? []), value: countsOf },
  whole: { text: (value) => String(value ?? ''), value: (text) => orThrow(whole(text)) },
  length: {
    text: (value, units) => lengthText(value, units),
    value: (text, units) => (text.trim() ? orThrow(tenth(read(text, lengthUnit(units)))) : null),
  },
  distance: {
    text: (value, units) => (typeof value === 'number' ? typedFar(value, units) : ''),
    value: (text, units) => orThrow(tenth(readFar(text, units))),
  },
};

/** Every text field by its kind. `derailleur` and `adjust_mm` hold two each. @type {Record<string, keyof typeof KINDS>} */
const FIELDS = {
  name: 'words',
  tag: 'words',
  set: 'words',
  note: 'words',
  km_per_week: 'distance',
  chainrings: 'teeth',
  sprockets: 'teeth',
  chainstay_mm: 'length',
  longest_chainstay_mm: 'length',
  etrto: 'words',
  max_sprocket: 'whole',
  capacity_teeth: 'whole',
  adjust_back_mm: 'length',
  adjust_forward_mm: 'length',
};

/** Lists that are chosen, not typed. */
const CHOSEN = ['drive', 'rear_sprockets', 'care', 'bears'];

/** @param {Units} units @returns {'in'|'mm'} in which a bike's lengths are shown */
export function lengthUnit(units) {
  return units === 'imperial' ? 'in' : 'mm';
}

/** @param {number|null|undefined} mm @param {Units} units */
function lengthText(mm, units) {
  if (typeof mm !== 'number') return '';
  const inch = lengthUnit(units) === 'in';
  return exact(Number((inch ? mm / MM_PER_INCH : mm).toFixed(inch ? 3 : 1)));
}

/** @param {number} km @param {Units} units @returns {string} as typed into a field: no groups, no unit */
export function typedFar(km, units) {
  return exact(Number((km / kmPerUnit(units)).toFixed(1)));
}

/** @param {number|null} value @returns {number|null} */
function tenth(value) {
  return value === null ? null : Math.round(value * 10) / 10;
}

/** A text that cannot be read as what its field holds. */
class Unreadable extends Error {}

/** @param {number|null} value */
function orThrow(value) {
  if (value !== null && Number.isNaN(value)) throw new Unreadable();
  return value;
}

/** @param {string} text */
function countsOf(text) {
  const counts = teeth(text);
  if (!counts) throw new Unreadable();
  return counts.length ? counts : null;
}

/** @param {Fields} fields a flat copy: the two parts of `derailleur` and of `adjust_mm` by names of their own */
function flat(fields) {
  const [lo, hi] = fields.adjust_mm ?? [];
  return {
    ...fields,
    max_sprocket: fields.derailleur?.max_sprocket,
    capacity_teeth: fields.derailleur?.capacity_teeth,
    adjust_back_mm: hi,
    adjust_forward_mm: typeof lo === 'number' ? -lo || 0 : lo,
  };
}

/** @param {Fields} fields of the record @param {Units} units @returns {Texts & {bears: string[], rear_sprockets: any}} */
export function formOf(fields, units) {
  const all = /** @type {Fields} */ (flat(fields));
  const texts = Object.entries(FIELDS).map(([name, kind]) => [name, KINDS[kind].text(all[name], units)]);
  return {
    ...Object.fromEntries(texts),
    drive: fields.drive ?? 'derailleur',
    care: fields.care ?? '',
    rear_sprockets: fields.rear_sprockets ?? 0,
    bears: fields.bears ?? [],
  };
}

/**
 * @param {Record<string, any>} form as `formOf` gives it, changed by the rider
 * @param {Fields} fields of the record as it stands
 * @param {Units} units
 * @returns {{put: Fields, unreadable: string[]}} what to put, and the fields that cannot be read
 */
export function changesOf(form, fields, units) {
  const before = formOf(fields, units);
  /** @type {Fields} */
  const next = {};
  const unreadable = [];
  for (const [name, kind] of Object.entries(FIELDS)) {
    if (form[name] === before[name]) continue;
    try {
      next[name] = KINDS[kind].value(form[name], units);
    } catch {
      unreadable.push(name);
    }
  }
  for (const name of CHOSEN) {
    if (JSON.stringify(form[name]) === JSON.stringify(before[name])) continue;
    next[name] = form[name]?.length || form[name] > 0 ? form[name] : null;
  }
  return { put: folded(next, /** @type {Fields} */ (flat(fields))), unreadable };
}

/** Two parts back into the one field of the record. @param {Fields} next @param {Fields} old */
function folded({ max_sprocket, capacity_teeth, adjust_back_mm, adjust_forward_mm, ...put }, old) {
  if (max_sprocket !== undefined || capacity_teeth !== undefined) {
    const both = {
      max_sprocket: max_sprocket === undefined ? old.max_sprocket : max_sprocket,
      capacity_teeth: capacity_teeth === undefined ? old.capacity_teeth : capacity_teeth,
    };
    const known = Object.entries(both).filter(([, value]) => typeof value === 'number');
    put.derailleur = known.length ? Object.fromEntries(known) : null;
  }
  if (adjust_back_mm !== undefined || adjust_forward_mm !== undefined) {
    const back = adjust_back_mm === undefined ? old.adjust_back_mm : adjust_back_mm;
    const forward = adjust_forward_mm === undefined ? old.adjust_forward_mm : adjust_forward_mm;
    put.adjust_mm = back == null && forward == null ? null : [-(forward ?? 0) || 0, back ?? 0];
  }
  return put;
}

/**
 * @param {string} field as an engine's fault names it, such as changes[0].put.derailleur.max_sprocket
 * @returns {string} the form's field
 */
export function formField(field) {
  const name = field
    .replace(/^.*put\./, '')
    .replace(/\[0\]$/, '.lo')
    .replace(/\[\d+\]/g, '');
  if (name.startsWith('adjust_mm')) return name.endsWith('lo') ? 'adjust_forward_mm' : 'adjust_back_mm';
  return name.replace(/^derailleur\./, '').replace(/\.lo$/, '');
}
