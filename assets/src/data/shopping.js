/**
 * What has to be bought for a bike's next chain: what to ask the engine, and
 * which answer counts.
 */

/**
 * @typedef {Record<string, any>} Fields of a bike's or a chain's row
 * @typedef {{class: string, name: string, probability: number, pitch_mm: number, inner_width_mm: number|null,
 *   outer_width_mm: [number, number]|null, closures: string[], closure_advice: string[],
 *   fits_this_bike: boolean|null}} Family as identify answers it
 * @typedef {{name: 'length'|'centre', request: Fields, missing: string[]}} LengthQuestion
 */

/** Counts that chains are sold in, pitches (common practice, no source). */
const SOLD = [112, 114, 116, 118, 120, 126, 138];

/** @param {Fields} bike @returns {Fields} a request for identify: which families there are for this bike */
export function familyRequest({ drive, rear_sprockets }) {
  return drive === 'derailleur' && rear_sprockets ? { drive, rear_sprockets } : { drive };
}

/**
 * The families to buy from: the one the fitted chain is of, where that is known
 * and goes with the bike, else every one that goes with the bike.
 * @param {Family[]} candidates
 * @param {string|undefined} known class of the chain that is on it
 * @returns {Family[]} one where it is settled, none where nothing is known
 */
export function familiesFor(candidates, known) {
  const same = candidates.find((one) => one.class === known && one.fits_this_bike !== false);
  if (same) return [same];
  const sure = candidates.filter((one) => one.fits_this_bike === true);
  if (sure.length === 1 && candidates.every((one) => one === sure[0] || one.fits_this_bike === false)) return sure;
  return candidates.filter((one) => one.fits_this_bike !== false && one.probability >= candidates[0].probability / 2);
}

/** @param {Fields} bike @returns {LengthQuestion} how long the next chain must be */
export function lengthQuestion(bike) {
  return bike.drive === 'derailleur' ? withDerailleur(bike) : fixed(bike);
}

/** @param {any} answer to it @returns {number|null} the count; null where none closes with the axle where it can be */
export function countOf({ pitches, options }) {
  const open = options && !options.some((/** @type {any} */ one) => one.pitches === pitches && one.fits);
  return open ? null : pitches;
}

/** @param {Fields} bike @returns {LengthQuestion} */
function withDerailleur(bike) {
  const needed = ['chainstay_mm', 'chainrings', 'sprockets'];
  const request = pick(bike, [...needed, 'longest_chainstay_mm', 'derailleur']);
  return { name: 'length', request, missing: needed.filter((field) => !(field in request)) };
}

/** @param {Fields} bike @returns {LengthQuestion} */
function fixed(bike) {
  const { chainstay_mm, chainrings, sprockets, adjust_mm } = bike;
  const request = pick({ centre_mm: chainstay_mm, adjust_mm, chainring: chainrings?.[0], sprocket: sprockets?.[0] }, [
    'centre_mm',
    'adjust_mm',
    'chainring',
    'sprocket',
  ]);
  const needed = { chainstay_mm: 'centre_mm', chainrings: 'chainring', sprockets: 'sprocket' };
  return {
    name: 'centre',
    request,
    missing: Object.entries(needed).flatMap(([field, asked]) => (asked in request ? [] : [field])),
  };
}

/** @param {Fields} from @param {string[]} names @returns {Fields} those that are known */
function pick(from, names) {
  return Object.fromEntries(names.filter((name) => from[name] !== undefined).map((name) => [name, from[name]]));
}

/** @param {number} pitches @returns {number|null} the shortest chain sold that is long enough */
export function soldFor(pitches) {
  return SOLD.find((count) => count >= pitches) ?? null;
}

/**
 * Joining links to buy: one to close it, and one to carry.
 * @param {string[]} closures of the family
 * @returns {string[]} those that are links
 */
export function links(closures) {
  return closures.filter((one) => one.endsWith('_joining_link'));
}
