/** From what is entered on Fit to requests for the engine. */
import { asked } from './fit-draft.js';
import { lengthMM } from './fit-lengths.js';
import { decimal, teeth, whole } from './teeth.js';

/**
 * @typedef {import('./fit-draft.js').Fit} Fit
 * @typedef {import('./fit-lengths.js').Typed} Typed
 * @typedef {{name: import('./fit-draft.js').Question, request: Record<string, any>, missing: string[],
 *   unreadable: string[]}} Question what to ask; `missing` and `unreadable` name fields that stand in the way
 */

/**
 * @param {Fit} fit
 * @returns {Question}
 */
export function question(fit) {
  const form = new Form(asked(fit));
  ({ which, length, centre, gears })[form.name](form, fit);
  return form;
}

/** A request being filled in, and what stands in the way of sending it. */
class Form {
  /** @param {import('./fit-draft.js').Question} name */
  constructor(name) {
    this.name = name;
    /** @type {Record<string, any>} */
    this.request = {};
    /** @type {string[]} */
    this.missing = [];
    /** @type {string[]} */
    this.unreadable = [];
  }

  /**
   * @param {string} field
   * @param {any} value null when empty, NaN or a list with one when not readable
   * @param {boolean} [needed]
   */
  put(field, value, needed = false) {
    if (value === null) {
      if (needed) this.missing.push(field);
    } else if (Number.isNaN(value)) this.unreadable.push(field);
    else this.request[field] = value;
  }

  /** @param {string} field @param {Typed} typed @param {boolean} [needed] */
  length(field, typed, needed) {
    this.put(field, micrometres(lengthMM(typed)), needed);
  }

  /** @param {string} field @param {string} text @param {boolean} [needed] */
  teeth(field, text, needed) {
    const counts = teeth(text);
    this.put(field, counts === null ? NaN : counts.length ? counts : null, needed);
  }

  /**
   * Two ends of a range; both are needed when there is one.
   * @param {string} field
   * @param {[number|null, number|null]} ends
   * @param {[string, string]} names of the two fields on the screen
   */
  range(field, ends, names) {
    if (ends.every((end) => end === null)) return;
    ends.forEach((end, i) => {
      if (end === null) this.missing.push(names[i]);
      else if (Number.isNaN(end)) this.unreadable.push(names[i]);
    });
    this.request[field] = ends;
  }
}

/** Inches become millimetres with a tail of digits. @param {number|null} mm */
function micrometres(mm) {
  return mm === null ? null : Math.round(mm * 1000) / 1000;
}

/** @param {Form} form @param {Fit} fit */
function which(
  form,
  { which: { drive, rear_sprockets, outer_width_mm, inner_width_mm, span_mm, pitches, roller_mm } },
) {
  if (drive) form.put('drive', drive);
  if (drive === 'derailleur' && rear_sprockets) form.put('rear_sprockets', rear_sprockets);
  form.length('outer_width_mm', outer_width_mm);
  form.length('inner_width_mm', inner_width_mm);
  form.length('roller_mm', roller_mm);
  form.length('span_mm', span_mm);
  if (span_mm.text.trim()) form.put('pitches', whole(pitches), true);
  const known = drive || [outer_width_mm, inner_width_mm, span_mm, roller_mm].some(({ text }) => text.trim());
  if (!known) form.missing.push('outer_width_mm');
}

/** @param {Form} form @param {Fit} fit */
function length(form, { length: part }) {
  form.length('chainstay_mm', part.chainstay_mm, true);
  form.teeth('chainrings', part.chainrings, true);
  form.teeth('sprockets', part.sprockets, true);
  form.length('longest_chainstay_mm', part.longest_chainstay_mm);
  const limits = new Form('length');
  limits.put('max_sprocket', whole(part.max_sprocket));
  limits.put('capacity_teeth', whole(part.capacity_teeth));
  form.unreadable.push(...limits.unreadable);
  if (Object.keys(limits.request).length) form.request.derailleur = limits.request;
  form.put('stock_pitches', whole(part.stock_pitches));
  form.put('fitted_pitches', whole(part.fitted_pitches));
  form.length('pitch_mm', part.pitch_mm);
  form.put('add_pitches', part.add_pitches);
  form.put('half_link_allowed', part.half_link_allowed);
}

/** @param {Form} form @param {Fit} fit */
function centre(form, { centre: part }) {
  form.length('centre_mm', part.centre_mm, true);
  form.put('chainring', whole(part.chainring), true);
  form.put('sprocket', whole(part.sprocket), true);
  const [forward, back] = [part.forward_mm, part.back_mm].map((typed) => micrometres(lengthMM(typed)));
  for (const [field, mm] of /** @type {const} */ ([
    ['forward_mm', forward],
    ['back_mm', back],
  ])) {
    if (Number.isNaN(mm)) form.unreadable.push(field);
  }
  form.request.adjust_mm = [-(forward ?? 0) || 0, back ?? 0];
  form.put('elongation_percent', decimal(part.elongation_percent));
  form.length('pitch_mm', part.pitch_mm);
  form.put('half_link_allowed', part.half_link_allowed);
  form.range(
    'slack_mm',
    [micrometres(lengthMM(part.slack_lo_mm)), micrometres(lengthMM(part.slack_hi_mm))],
    ['slack_lo_mm', 'slack_hi_mm'],
  );
  search(form, part);
}

/**
 * The search waits until all four tooth counts are there; the answer without
 * one does not.
 * @param {Form} form
 * @param {import('./fit-draft.js').Centre} part
 */
function search(form, part) {
  const bounds = new Form('centre');
  for (const end of /** @type {const} */ (['chainrings_lo', 'chainrings_hi', 'sprockets_lo', 'sprockets_hi'])) {
    bounds.put(end, whole(part[end]), true);
  }
  for (const end of /** @type {const} */ (['ratio_lo', 'ratio_hi'])) bounds.put(end, decimal(part[end]));
  form.unreadable.push(...bounds.unreadable);
  if (bounds.missing.length || bounds.unreadable.length) return;
  const { chainrings_lo, chainrings_hi, sprockets_lo, sprockets_hi, ratio_lo, ratio_hi } = bounds.request;
  form.request.search = { chainrings: [chainrings_lo, chainrings_hi], sprockets: [sprockets_lo, sprockets_hi] };
  if (ratio_lo !== undefined && ratio_hi !== undefined) form.request.search.ratio = [ratio_lo, ratio_hi];
}

/** @param {Form} form @param {Fit} fit */
function gears(form, { gears: part }) {
  form.teeth('chainrings', part.chainrings, true);
  form.teeth('sprockets', part.sprockets, true);
  form.length('wheel_circumference_mm', part.wheel_circumference_mm);
  if (part.wheel_circumference_mm.text.trim() === '') form.put('etrto', part.etrto.trim() || null, true);
  form.length('crank_mm', part.crank_mm);
  form.put('cadence_rpm', decimal(part.cadence_rpm));
  form.length('chainstay_mm', part.chainstay_mm);
  form.length('chainline_mm', part.chainline_mm);
  form.length('rear_chainline_mm', part.rear_chainline_mm);
  form.length('sprocket_spacing_mm', part.sprocket_spacing_mm);
  form.length('chainring_spacing_mm', part.chainring_spacing_mm);
  form.put('longest_pitches', whole(part.longest_pitches));
  form.length('pitch_mm', part.pitch_mm);
}
