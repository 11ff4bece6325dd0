/** Between Fit and a saved bike: both call the same thing by the same name. */
import { emptyFit } from './fit-draft.js';
import { blank, lengthMM, typedFrom, unitOf } from './fit-lengths.js';
import { question } from './fit-request.js';
import { showTeeth } from './teeth.js';

/**
 * @typedef {import('./fit-draft.js').Fit} Fit
 * @typedef {import('./fit-lengths.js').Typed} Typed
 * @typedef {Record<string, any>} Fields of a row
 */

/**
 * Every question filled in from a bike. What the bike does not know is left
 * empty, so that no number of another bike stays behind.
 * @param {Fit} fit
 * @param {string} bike_id
 * @param {Fields} bike
 * @param {Fields|null} chain the one that is on it
 * @param {import('./settings.js').Settings['units']} units
 * @returns {Fit}
 */
export function fitFromBike(fit, bike_id, bike, chain, units) {
  const empty = emptyFit(units);
  const mm = (/** @type {number|undefined} */ value) => exact(value, units);
  const teeth = { chainrings: showTeeth(bike.chainrings ?? []), sprockets: showTeeth(bike.sprockets ?? []) };
  const one = (/** @type {any} */ value) => (value === undefined || value === null ? '' : String(value));
  const [lo, hi] = bike.adjust_mm ?? [];
  return {
    ...empty,
    question: fit.question,
    drive: bike.drive,
    bike_id,
    which: { ...empty.which, drive: bike.drive, rear_sprockets: bike.rear_sprockets ?? 0 },
    length: {
      ...empty.length,
      ...teeth,
      chainstay_mm: mm(bike.chainstay_mm),
      longest_chainstay_mm: mm(bike.longest_chainstay_mm),
      max_sprocket: one(bike.derailleur?.max_sprocket),
      capacity_teeth: one(bike.derailleur?.capacity_teeth),
      fitted_pitches: one(chain?.pitches),
      stock_pitches: fit.length.stock_pitches,
    },
    centre: {
      ...empty.centre,
      centre_mm: mm(bike.chainstay_mm),
      forward_mm: lo === undefined ? mm(undefined) : mm(-lo || 0),
      back_mm: mm(hi),
      chainring: one(bike.chainrings?.[0]),
      sprocket: one(bike.sprockets?.[0]),
    },
    gears: {
      ...empty.gears,
      ...teeth,
      etrto: one(bike.etrto),
      chainstay_mm: mm(bike.chainstay_mm),
      longest_pitches: one(chain?.pitches),
    },
  };
}

/**
 * As the setting writes lengths, but never rounded.
 * @param {number|undefined} mm
 * @param {import('./settings.js').Settings['units']} units
 * @returns {Typed}
 */
function exact(mm, units) {
  const unit = unitOf(units);
  if (mm === undefined || mm === null) return blank(unit);
  const typed = typedFrom(mm, 'frame', unit);
  return Math.abs(Number(lengthMM(typed)) - mm) < 1e-6 ? typed : { text: `${mm} mm`, unit };
}

/**
 * What the open question knows of a bike, as its record takes it. Only what is
 * filled in and readable.
 * @param {Fit} fit
 * @returns {Fields}
 */
export function bikeFromFit(fit) {
  const { name, request } = question(fit);
  const { drive, rear_sprockets, chainstay_mm, longest_chainstay_mm, chainrings, sprockets, derailleur, etrto } =
    request;
  switch (name) {
    case 'which':
      return known({ drive, rear_sprockets });
    case 'length':
      return known({ drive: fit.drive, chainstay_mm, longest_chainstay_mm, chainrings, sprockets, derailleur });
    case 'gears':
      return known({ chainstay_mm, chainrings, sprockets, etrto });
    default: {
      const { centre_mm, adjust_mm, chainring, sprocket } = request;
      return known({
        drive: fit.drive,
        chainstay_mm: centre_mm,
        adjust_mm: fit.centre.forward_mm.text.trim() || fit.centre.back_mm.text.trim() ? adjust_mm : undefined,
        chainrings: chainring && [chainring],
        sprockets: sprocket && [sprocket],
      });
    }
  }
}

/** @param {Fields} fields @returns {Fields} without what is not known */
function known(fields) {
  return Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== undefined));
}

/**
 * @param {Fields} put
 * @param {Fields} bike
 * @returns {Fields} what of it the bike does not say already
 */
export function news(put, bike) {
  return Object.fromEntries(
    Object.entries(put).filter(([name, value]) => JSON.stringify(value) !== JSON.stringify(bike[name])),
  );
}
