/** What is entered about a bike's distance, and the changes that say so. */
import { form } from '../app/forms.js';
import { lastDistanceAt, lastOdometer } from '../data/bike-log.js';
import { typedFar } from '../data/bike-form.js';
import { firstOdometer, leaps } from '../data/odometer.js';
import { decimal } from '../data/teeth.js';
import { readFar } from '../parts/distances.js';
import { instant } from './bike-parts.js';

/**
 * @typedef {import('../app/store.js').State} State
 * @typedef {import('../data/garage.js').BikeDetail} BikeDetail
 * @typedef {import('../data/garage.js').Change} Change
 * @typedef {{name: string, km: number, started_at: string|null, answer: any}} RideFile
 * @typedef {{way: 'odometer'|'ride'|'week'|'file', odometer: string, ride: string, week: string, weeks: string,
 *   put_on: string, day: string, since: import('../data/odometer.js').Since, add: boolean, file: RideFile|null}} Filled
 * @typedef {{name: string, form: Filled, unreadable: string[], first: boolean, last: {km: number, at: string}|null,
 *   lastAt: string|null, more: number|null, leap: boolean, weekly: number}} Run what is entered and what follows:
 *   `first` odometer figure of a bike with a chain on it; `more` km than the last one; `weekly` km that the weeks make
 */

const DAY_MS = 86_400_000;

/** @param {BikeDetail} detail */
export function formName({ meaning: { bike_id } }) {
  return `bike-distance/${bike_id}`;
}

/** @param {State} state @param {BikeDetail} detail @returns {Run} */
export function filled(state, detail) {
  const { units } = state.settings;
  const name = formName(detail);
  const rows = Object.values(detail.distances);
  const odometer = lastOdometer(rows);
  const lastAt = lastDistanceAt(rows);
  const { km_per_week } = detail.bike.fields;
  /** @type {Filled} */
  const empty = {
    ...{ way: odometer || !km_per_week ? 'odometer' : 'week', odometer: '', ride: '', weeks: '', put_on: '', day: '' },
    week: typeof km_per_week === 'number' ? typedFar(km_per_week, units) : '',
    since: 'now',
    add: true,
    file: null,
  };
  const one = form(state, name, empty);
  const last = odometer ? { km: odometer.fields.odometer_km, at: odometer.fields.at } : null;
  const shown = readFar(one.odometer, units);
  const more = last && shown !== null && !Number.isNaN(shown) ? shown - last.km : null;
  const days = last ? (Date.parse(instant(one.day)) - Date.parse(last.at)) / DAY_MS : 0;
  return {
    ...{ name, form: one, last, lastAt, more },
    unreadable: unreadable(one, units),
    first: !odometer && Boolean(detail.meaning.fitted_chain_id),
    leap: more !== null && leaps(more, days),
    weekly: weekly(one, lastAt, units),
  };
}

/** @param {Filled} one @param {State['settings']['units']} units @returns {string[]} */
function unreadable(one, units) {
  const distances = /** @type {const} */ (['odometer', 'ride', 'week', 'put_on']);
  const bad = distances.filter((field) => Number.isNaN(readFar(one[field], units)));
  return Number.isNaN(decimal(one.weeks)) ? [...bad, 'weeks'] : bad;
}

/** @param {Filled} one @param {string|null} lastAt @param {State['settings']['units']} units @returns {number} km */
function weekly({ week, weeks }, lastAt, units) {
  const span = lastAt ? (Date.now() - Date.parse(lastAt)) / (7 * DAY_MS) : decimal(weeks);
  const km = (readFar(week, units) || 0) * (span || 0);
  return Math.max(0, Math.round(km));
}

/**
 * @param {State} state
 * @param {BikeDetail} detail
 * @param {Run} run
 * @returns {{changes: Change[], km: number|null}} none while something is missing; null km when no distance is noted
 */
export function ready({ settings: { units } }, { meaning, chains }, run) {
  const { form: one } = run;
  const nothing = { changes: [], km: null };
  const bad = (/** @type {string} */ field) => run.unreadable.includes(field);
  const entry = { bike_id: meaning.bike_id, at: instant(one.day) };
  const note = (/** @type {Record<string, any>} */ put) => ({ table: 'distances', put: { ...entry, ...put } });
  switch (one.way) {
    case 'odometer': {
      const km = readFar(one.odometer, units);
      const putOn = readFar(one.put_on, units);
      if (km === null || bad('odometer')) return nothing;
      if (run.first && one.since === 'at' && (putOn === null || bad('put_on'))) return nothing;
      const moved = run.first ? firstOdometer(meaning, Object.values(chains), km, one.since, tenth(putOn ?? 0)) : [];
      return { changes: [note({ odometer_km: tenth(km) }), ...moved], km };
    }
    case 'ride': {
      const km = readFar(one.ride, units);
      return km === null || bad('ride') || km === 0 ? nothing : { changes: [note({ add_km: tenth(km) })], km };
    }
    case 'week': {
      const km = readFar(one.week, units);
      if (km === null || bad('week') || bad('weeks')) return nothing;
      const bike = { table: 'bikes', record_id: meaning.bike_id, put: { km_per_week: tenth(km) } };
      if (!one.add || !run.weekly) return { changes: [bike], km: null };
      const at = new Date().toISOString();
      return { changes: [bike, note({ at, add_km: run.weekly, source: 'week' })], km: run.weekly };
    }
    default: {
      if (!one.file) return nothing;
      const { km, started_at } = one.file;
      const at = started_at ?? entry.at;
      return { changes: [note({ at, add_km: tenth(km), source: 'gpx' })], km };
    }
  }
}

/** @param {number} km @returns {number} */
function tenth(km) {
  return Math.round(km * 10) / 10;
}
