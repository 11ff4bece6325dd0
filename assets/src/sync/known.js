/**
 * Which records a phone has, remembered while it pulls a garage it has hardly
 * anything of, so that not each of a hundred thousand is looked for in vain.
 */
import { engine } from '../engine/engine.js';
import { rowNames } from '../data/garage-read.js';

/**
 * @typedef {import('../data/garage.js').EngineRow} EngineRow
 * @typedef {import('../data/garage.js').Op} Op
 */

/** With more records than that there is little to gain. */
const MOST = 2000;

/** True for as long as nobody else changes the garage, which its turn tells. */
export class Known {
  /** @type {Set<string>|null} null once it is not known any more */
  #names = null;
  #turn = 0;

  /** @type {Map<string, Promise<{rows: EngineRow[], hlc: string}>>} by their operations */
  #made = new Map();

  /** @param {string} key of a garage @returns {Promise<Known>} */
  static async of(key) {
    const known = new Known();
    const { garage, names } = await rowNames(key, MOST + 1);
    if (!garage || names.length > MOST) return known;
    known.#names = new Set(names.map((name) => name.join('/')));
    known.#turn = garage.turn;
    return known;
  }

  /** @param {[table: string, record_id: string][]} places @returns {[table: string, record_id: string][]} that may be there */
  among(places) {
    const names = this.#names;
    return names ? places.filter((place) => names.has(place.join('/'))) : places;
  }

  /** @param {number} turn the garage has now @returns {boolean} whether what `among` gave out was right */
  holds(turn) {
    if (turn !== this.#turn) this.#names = null;
    return this.#names !== null;
  }

  /**
   * @param {number} before turn the change was worked out from
   * @param {number} turn that holds it
   * @param {[table: string, record_id: string][]} [places] that are there now
   */
  changed(before, turn, places = []) {
    if (before !== this.#turn || !turn) return;
    this.#turn = turn;
    for (const place of places) this.#names?.add(place.join('/'));
  }

  /** Has the engine merge operations on records that are not there yet, while others are written. @param {Op[]} ops */
  prepare(ops) {
    if (!this.#names) return;
    const made = engine.records('merge', { rows: [], ops });
    made.catch(() => {}); // told where it is wanted
    this.#made.set(label(ops), made);
  }

  /** @param {Op[]} ops @returns {Promise<{rows: EngineRow[], hlc: string}>|null} what they make of nothing, if that was prepared */
  prepared(ops) {
    const made = this.#made.get(label(ops)) ?? null;
    this.#made.delete(label(ops));
    return made;
  }
}

/** @param {Op[]} ops @returns {string} another for others */
function label(ops) {
  return ops.map(({ op_id }) => op_id).join();
}
