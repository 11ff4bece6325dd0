/**
 * What is entered on Fit: one plain object a question. Fields are called as the
 * calculations and a bike's record call them, so that a bike can fill a
 * question and be filled from it. Texts stay as typed.
 */
import { blank, unitOf } from './fit-lengths.js';

/**
 * @typedef {import('./fit-lengths.js').Typed} Typed
 * @typedef {'which'|'length'|'centre'|'gears'} Question centre is how long, without a derailleur
 * @typedef {'derailleur'|'single'|'hub'} DriveKind
 * @typedef {{drive: DriveKind|'', rear_sprockets: number, outer_width_mm: Typed, inner_width_mm: Typed,
 *   span_mm: Typed, pitches: string, roller_mm: Typed}} Which
 * @typedef {{chainstay_mm: Typed, longest_chainstay_mm: Typed, chainrings: string, sprockets: string,
 *   max_sprocket: string, capacity_teeth: string, add_pitches: number, half_link_allowed: boolean,
 *   stock_pitches: string, fitted_pitches: string, pitch_mm: Typed, pair: [number, number]|null}} Length pair: ring and sprocket to draw, null for the largest
 * @typedef {{centre_mm: Typed, back_mm: Typed, forward_mm: Typed, chainring: string, sprocket: string,
 *   elongation_percent: string, half_link_allowed: boolean, slack_lo_mm: Typed, slack_hi_mm: Typed,
 *   chainrings_lo: string, chainrings_hi: string, sprockets_lo: string, sprockets_hi: string,
 *   ratio_lo: string, ratio_hi: string, pitch_mm: Typed, pitches: number|null}} Centre pitches: count to draw, null for the best
 * @typedef {{chainrings: string, sprockets: string, etrto: string, wheel_circumference_mm: Typed,
 *   crank_mm: Typed, cadence_rpm: string, chainstay_mm: Typed, chainline_mm: Typed,
 *   rear_chainline_mm: Typed, sprocket_spacing_mm: Typed, chainring_spacing_mm: Typed,
 *   longest_pitches: string, pitch_mm: Typed}} Gears
 * @typedef {{closure: string, done: string[]}} Steps how it will be closed, and the steps ticked off
 * @typedef {{question: 'which'|'long'|'gears', drive: DriveKind, which: Which, length: Length,
 *   centre: Centre, gears: Gears, steps: Steps, bike_id: string}} Fit bike_id: it is about, empty for loose numbers
 */

/** Pitches over which a pitch is best measured, until said otherwise. */
const USUAL_SPAN_PITCHES = '10';

/**
 * @param {import('./settings.js').Settings['units']} units
 * @returns {Fit} nothing entered
 */
export function emptyFit(units) {
  const none = blank(unitOf(units));
  return {
    question: 'which',
    drive: 'derailleur',
    which: {
      drive: '',
      rear_sprockets: 0,
      outer_width_mm: none,
      inner_width_mm: none,
      span_mm: none,
      pitches: USUAL_SPAN_PITCHES,
      roller_mm: none,
    },
    length: {
      chainstay_mm: none,
      longest_chainstay_mm: none,
      chainrings: '',
      sprockets: '',
      max_sprocket: '',
      capacity_teeth: '',
      add_pitches: 2,
      half_link_allowed: false,
      stock_pitches: '',
      fitted_pitches: '',
      pitch_mm: none,
      pair: null,
    },
    centre: {
      centre_mm: none,
      back_mm: none,
      forward_mm: none,
      chainring: '',
      sprocket: '',
      elongation_percent: '',
      half_link_allowed: false,
      slack_lo_mm: none,
      slack_hi_mm: none,
      chainrings_lo: '',
      chainrings_hi: '',
      sprockets_lo: '',
      sprockets_hi: '',
      ratio_lo: '',
      ratio_hi: '',
      pitch_mm: none,
      pitches: null,
    },
    gears: {
      chainrings: '',
      sprockets: '',
      etrto: '',
      wheel_circumference_mm: none,
      crank_mm: none,
      cadence_rpm: '90',
      chainstay_mm: none,
      chainline_mm: none,
      rear_chainline_mm: none,
      sprocket_spacing_mm: none,
      chainring_spacing_mm: none,
      longest_pitches: '',
      pitch_mm: none,
    },
    steps: { closure: '', done: [] },
    bike_id: '',
  };
}

/** @param {Fit} fit @returns {Question} the calculation that answers what is open */
export function asked({ question, drive }) {
  if (question !== 'long') return question;
  return drive === 'derailleur' ? 'length' : 'centre';
}

/**
 * @param {Fit} fit
 * @param {import('./settings.js').Settings['units']} units
 * @returns {Fit} the open question emptied, the others as they are
 */
export function emptied(fit, units) {
  const name = asked(fit);
  return { ...fit, [name]: emptyFit(units)[name], steps: { closure: '', done: [] } };
}

/** @param {Fit} fit @param {import('./settings.js').Settings['units']} units */
export function touched(fit, units) {
  const name = asked(fit);
  return JSON.stringify(plain(fit[name])) !== JSON.stringify(plain(emptyFit(units)[name]));
}

/** Leaves out the unit of empty fields. @param {object} part */
function plain(part) {
  return Object.values(part).map((value) => (value?.text === '' ? '' : value));
}

/**
 * Fills in what an older version of the app did not keep, question by question.
 * @param {any} kept
 * @param {import('./settings.js').Settings['units']} units
 * @returns {Fit}
 */
export function restored(kept, units) {
  const empty = emptyFit(units);
  const fit = { ...empty, ...kept };
  for (const name of /** @type {const} */ (['which', 'length', 'centre', 'gears', 'steps'])) {
    fit[name] = { ...empty[name], ...kept?.[name] };
  }
  return fit;
}
