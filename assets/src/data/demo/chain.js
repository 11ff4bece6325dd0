/**
 * A chain that wears as chance has it, and what instruments show of it. The
 * numbers are common practice, no source; a demo proves nothing about chains.
 */
import { PITCH_MM } from '../lengths.js';

/** @typedef {import('./dice.js').Dice} Dice */
/** @typedef {'rule'|'caliper'|'gauge'} Instrument */
/** @typedef {{reading: Record<string, any>, shown: number}} Taken `shown`: the elongation it reads as, percent */

/** Wear by how a drive lives, percent per 1000 km. @type {Record<string, number>} */
const RATES = { enclosed: 0.085, clean: 0.15, usual: 0.28, gritty: 0.55 };

/** Wear comes in steps of about so far. */
const STEP_KM = 50;

/** Pitches under the rule and in the caliper. */
const RULE_PITCHES = 24;
const CALIPER_PITCHES = 10;
const ROLLER_MM = 7.75;

/** What two rollers pushed apart give way by. */
const PLAY_MM = 0.058;

const GAUGE_STEPS = [0.5, 0.75];

export class WornChain {
  /** @param {Dice} dice @param {string} care @param {number} bike how much faster than usual its rider wears chains */
  constructor(dice, care, bike) {
    this.dice = dice;
    this.percent = Math.max(0, dice.normal(0.04, 0.03));
    this.rate = RATES[care] * bike * Math.exp(dice.normal(0, 0.2));
    this.km = 0;
  }

  /** @param {number} km */
  run(km) {
    this.km += km;
    for (let left = km; left > 0; left -= STEP_KM) {
      this.percent += this.dice.exponential((this.rate * Math.min(left, STEP_KM)) / 1000);
    }
  }

  /** @param {Instrument} instrument @returns {Taken} with the error of a hand and the instrument's marks */
  read(instrument) {
    return { rule: () => this.#rule(), caliper: () => this.#caliper(), gauge: () => this.#gauge() }[instrument]();
  }

  /** A steel rule with 1/32 in marks over 12 in. @returns {Taken} */
  #rule() {
    const nominal = RULE_PITCHES * PITCH_MM;
    const mm = nominal * (1 + this.percent / 100) + this.dice.normal(0, 0.12);
    const count = Math.round((mm / 25.4) * 32);
    const part = count % 32;
    const text = part ? `${(count - part) / 32} ${part}/32 in` : `${count / 32} in`;
    return {
      reading: { kind: 'rule', pitches: RULE_PITCHES, span_text: text, resolution_in: '1/32' },
      shown: 100 * ((count * 25.4) / 32 / nominal - 1),
    };
  }

  /** @returns {Taken} */
  #caliper() {
    const nominal = CALIPER_PITCHES * PITCH_MM;
    const span = nominal * (1 + this.percent / 100) + this.dice.normal(0, 0.04);
    const inside = Math.round((span - ROLLER_MM + PLAY_MM) * 100) / 100;
    return {
      reading: {
        ...{ kind: 'caliper', pitches: CALIPER_PITCHES, inside_mm: inside },
        ...{ roller_mm: ROLLER_MM, resolution_mm: 0.01 },
      },
      shown: 100 * ((inside + ROLLER_MM - PLAY_MM) / nominal - 1),
    };
  }

  /** A go/no-go gauge that pushes two rollers apart. @returns {Taken} */
  #gauge() {
    const felt = this.percent + 0.057 + this.dice.normal(0, 0.05);
    const steps = GAUGE_STEPS.map((percent) => ({ percent, drops: felt >= percent }));
    const dropped = steps.filter(({ drops }) => drops).map(({ percent }) => percent);
    return { reading: { kind: 'gauge', steps, bears_on: 'opposed_rollers' }, shown: Math.max(0, ...dropped) };
  }
}
