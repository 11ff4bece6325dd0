/** The life of one invented bike, written down as a rider would. */
import { WornChain } from './chain.js';

/**
 * @typedef {import('../garage.js').Change} Change
 * @typedef {import('./dice.js').Dice} Dice
 * @typedef {{fields: Record<string, any>, instrument: import('./chain.js').Instrument, instrument_id: string,
 *   chain: {class: string, pitches: number, closure: string}, lubricant: string, chains?: number, slow?: boolean}} Spec
 *   `fields` of the record; `chains`: how many take turns; `slow`: its last worn chain is still on
 * @typedef {{id: string, worn: WornChain}} Chain
 */

export class DemoBike {
  /** @type {Change[]} */
  changes = [];
  km = 0;

  /** @param {Dice} dice @param {Spec} spec */
  constructor(dice, spec) {
    this.dice = dice;
    this.spec = spec;
    this.id = dice.id();
    this.pace = Math.exp(dice.normal(0, 0.3));
    this.#put('bikes', this.id, spec.fields);
    /** @type {Chain[]} the one on the bike first */
    this.chains = [];
    for (let i = 0; i < (spec.chains ?? 1); i++) this.chains.push(this.#fresh(i === 0, i + 1));
    this.count = this.chains.length;
  }

  /** @returns {number} percent, common practice, no source */
  get limit() {
    const { drive, rear_sprockets: sprockets } = this.spec.fields;
    if (drive !== 'derailleur') return 1;
    return sprockets >= 11 ? 0.5 : 0.75;
  }

  get chain() {
    return this.chains[0];
  }

  /** @param {string} table @param {string} record_id @param {Record<string, any>} put */
  #put(table, record_id, put) {
    this.changes.push({ table, record_id, put });
    return record_id;
  }

  /** @param {boolean} on @param {number} n @returns {Chain} */
  #fresh(on, n) {
    const id = this.dice.id();
    const name = this.spec.chains ? { name: String(n) } : {};
    const place = on ? { fitted_at_km: tenth(this.km) } : { km_before: 0 };
    this.#put('chains', id, { bike_id: this.id, ...name, ...this.spec.chain, ...place });
    return { id, worn: new WornChain(this.dice, this.spec.fields.care, this.pace) };
  }

  /** @param {number} km @param {number} atMS @param {string} [source] */
  ride(km, atMS, source) {
    const far = tenth(km);
    if (far <= 0) return;
    this.km += far;
    this.chain.worn.run(far);
    this.#put('distances', this.dice.id(), {
      ...{ bike_id: this.id, at: iso(atMS), add_km: far },
      ...(source ? { source } : {}),
    });
  }

  /** @param {number} atMS @param {string} [by] @returns {{id: string, worn: boolean}} */
  read(atMS, by) {
    const { reading, shown } = this.chain.worn.read(this.spec.instrument);
    const id = this.#put('readings', this.dice.id(), {
      ...{ chain_id: this.chain.id, at: iso(atMS), at_km: tenth(this.chain.worn.km), reading },
      ...{ instrument_id: this.spec.instrument_id, ...(by ? { by } : {}) },
    });
    return { id, worn: shown >= this.limit };
  }

  /** A reading with a slip of the pen, found out and declared void. @param {number} atMS @param {string} why */
  slip(atMS, why) {
    const { id } = this.read(atMS);
    const [made] = this.changes.splice(-1);
    const reading = { kind: 'rule', pitches: 24, span_text: '12 5/16 in', resolution_in: '1/16' };
    this.#put('readings', id, { ...made.put, reading });
    this.#put('readings', id, { void_reason: why });
  }

  /** @param {number} atMS @param {string[]} did @param {boolean} dirty */
  care(atMS, did, dirty) {
    const lubricant = did.includes('lubricated') ? { lubricant: this.spec.lubricant } : {};
    this.#put('care', this.dice.id(), {
      ...{ chain_id: this.chain.id, at: iso(atMS), at_km: tenth(this.chain.worn.km), did, dirty, ...lubricant },
    });
  }

  /** Takes the worn chain off for good and puts a new one on. @param {number} atMS */
  change(atMS) {
    this.#put('chains', this.chain.id, { retired_at: iso(atMS) });
    this.chains[0] = this.#fresh(true, ++this.count);
  }

  /** Lets the next chain of the rotation take its turn. */
  rotate() {
    const [off, on] = this.chains;
    this.#put('chains', off.id, { fitted_at_km: null, km_before: tenth(off.worn.km) });
    this.#put('chains', on.id, { fitted_at_km: tenth(this.km), km_before: tenth(on.worn.km) });
    this.chains.push(/** @type {Chain} */ (this.chains.shift()));
  }
}

/** @param {number} ms @returns {string} RFC 3339 */
export function iso(ms) {
  return new Date(ms).toISOString();
}

/** @param {number} km */
export function tenth(km) {
  return Math.round(km * 10) / 10;
}
