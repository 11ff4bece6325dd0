/** Chance that is the same for the same seed: the invented garage is one and the same for everybody. */

/** The largest 32-bit number and one. */
const RANGE = 2 ** 32;

export class Dice {
  #state;

  /** @param {number} seed a whole number, not 0 */
  constructor(seed) {
    this.#state = seed >>> 0 || 1;
    for (let i = 0; i < 20; i++) this.next(); // small seeds begin alike
  }

  /** @returns {number} 0 to below 1; xorshift with shifts 13, 17, 5 (Marsaglia 2003, Journal of Statistical Software 8:14) */
  next() {
    let x = this.#state;
    x ^= x << 13;
    x ^= x >>> 17;
    x ^= x << 5;
    this.#state = x >>> 0;
    return this.#state / RANGE;
  }

  /** @param {number} mean @param {number} sd @returns {number} normally distributed, by Box and Muller's transform */
  normal(mean, sd) {
    const radius = Math.sqrt(-2 * Math.log(1 - this.next()));
    return mean + sd * radius * Math.cos(2 * Math.PI * this.next());
  }

  /** @param {number} mean @returns {number} exponentially distributed */
  exponential(mean) {
    return -mean * Math.log(1 - this.next());
  }

  /** @param {number} probability @returns {boolean} */
  chance(probability) {
    return this.next() < probability;
  }

  /** @template T @param {readonly T[]} list @returns {T} */
  pick(list) {
    return list[Math.floor(this.next() * list.length)];
  }

  /** @returns {string} a UUID of version 4 (RFC 9562) */
  id() {
    const hex = Array.from({ length: 32 }, () => Math.floor(this.next() * 16));
    hex[12] = 4;
    hex[16] = 8 + (hex[16] % 4);
    const text = hex.map((digit) => digit.toString(16)).join('');
    return text.replace(/^(.{8})(.{4})(.{4})(.{4})(.{12})$/, '$1-$2-$3-$4-$5');
  }
}
