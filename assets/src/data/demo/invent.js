/**
 * An invented garage over two seasons: a rider's four bikes and a group's
 * loaners with their rounds. Pure: the same seed and day give the same garage.
 */
import { DemoBike, iso } from './bike.js';
import { Dice } from './dice.js';
import { loaners, ownBikes } from './fleet.js';

/**
 * @typedef {import('../garage.js').Change} Change
 * @typedef {(key: string, values?: Record<string, string>) => string} Say words of the demo
 * @typedef {{say: Say, day: (atMS: number) => string}} Words
 * @typedef {{bike: DemoBike, kind: import('./fleet.js').Kind}} Life
 */

/** The demo's own seed. */
export const SEED = 5;

const DAY_MS = 86_400_000;
const WEEK_MS = 7 * DAY_MS;
const MINUTE_MS = 60_000;

/** Two seasons. */
const WEEKS = 104;

/** Bikes that the round of today has seen, and which of them it holds. */
const SEEN_TODAY = 8;
const HELD_TODAY = 5;

/**
 * @param {number} seed
 * @param {number} nowMS
 * @param {Words} words
 * @returns {Change[][]} parts to save one after another, each of what belongs together
 */
export function invent(seed, nowMS, words) {
  const { say } = words;
  const dice = new Dice(seed);
  const ids = { rule: dice.id(), caliper: dice.id(), gauge: dice.id() };
  const saturday = lastSaturday(nowMS);
  const startMS = saturday - WEEKS * WEEK_MS;
  const live = (/** @type {import('./fleet.js').Kind} */ kind) => ({ kind, bike: new DemoBike(dice, kind) });
  const own = ownBikes(say, ids).map(live);
  const fleet = loaners(say, ids).map(live);
  /** @type {Change[][]} */
  const rounds = [];
  for (let week = 0; week <= WEEKS; week++) {
    const atMS = startMS + week * WEEK_MS;
    for (const one of own) liveWeek(one, week, atMS, dice, say);
    if (week % 2 === 0 && inSeason(atMS)) rounds.push(walk(dice, fleet, week, atMS, words));
    for (const { bike, kind } of fleet) bike.ride(distance(kind, atMS, dice), atMS + DAY_MS / 2, 'week');
  }
  rounds.push(today(dice, fleet, nowMS, words));
  const walks = Array.from({ length: Math.ceil(rounds.length / 8) }, (_, i) => rounds.slice(8 * i, 8 * i + 8).flat());
  return [basics(dice, ids, say), ...[...own, ...fleet].map(({ bike }) => bike.changes), ...walks];
}

/** @param {number} nowMS @returns {number} the last one that is over, nine o'clock UTC */
function lastSaturday(nowMS) {
  const day = Math.floor(nowMS / DAY_MS) - 1;
  const since = (day + 4 + 1) % 7; // the first of January 1970 was a Thursday
  return (day - since) * DAY_MS + 9 * 60 * MINUTE_MS;
}

/** @param {number} atMS */
function month(atMS) {
  return new Date(atMS).getUTCMonth();
}

/** @param {number} atMS */
function inSeason(atMS) {
  return month(atMS) >= 3 && month(atMS) <= 9;
}

/** @param {import('./fleet.js').Kind} kind @param {number} atMS @param {Dice} dice @returns {number} km this week */
function distance({ weekly, months }, atMS, dice) {
  if (months ? !months.includes(month(atMS)) : dice.chance(0.08)) return 0;
  return weekly * (months || inSeason(atMS) ? 1 : 0.5) * Math.exp(dice.normal(0, 0.3));
}

/** @param {Dice} dice @param {Record<'rule'|'caliper'|'gauge', string>} ids @param {Say} say @returns {Change[]} */
function basics(dice, ids, say) {
  return [
    { table: 'instruments', record_id: ids.rule, put: { name: say('rule'), kind: 'rule', resolution_mm: 0.79375 } },
    {
      table: 'instruments',
      record_id: ids.caliper,
      put: { name: say('caliper'), kind: 'caliper', resolution_mm: 0.01 },
    },
    {
      table: 'instruments',
      record_id: ids.gauge,
      put: { name: say('gauge'), kind: 'gauge', steps: [0.5, 0.75], bears_on: 'opposed_rollers' },
    },
    {
      table: 'prices',
      record_id: dice.id(),
      put: { currency: 'EUR', chain: 2490, sprockets: 4990, chainring: 3890 },
    },
  ];
}

/** A week of one of the rider's own bikes. @param {Life} life @param {number} week @param {number} atMS @param {Dice} dice @param {Say} say */
function liveWeek({ bike, kind }, week, atMS, dice, say) {
  bike.ride(distance(kind, atMS, dice), atMS + DAY_MS);
  const evening = atMS + DAY_MS + 10 * 60 * MINUTE_MS;
  if (week % 3 === 1) bike.care(evening, ['wiped', 'lubricated'], false);
  if (week % 9 === 4) bike.care(evening + MINUTE_MS, ['cleaned', 'lubricated', 'inspected'], true);
  if (week === 40 && kind.instrument === 'rule') bike.slip(evening, say('void'));
  if (week % 5 === 2) {
    const { worn } = bike.read(evening + 5 * MINUTE_MS);
    const late = WEEKS - week < 44;
    if (worn && !(kind.slow && late)) return bike.change(evening + 30 * MINUTE_MS);
  }
  if (kind.chains && week % 6 === 5) bike.rotate();
}

/** The names of those who walk the rounds. @param {Say} say */
function helpers(say) {
  return [1, 2, 3].map((n) => say(`helper.${n}`));
}

/**
 * A round before the ride: every loaner is looked at, now and then measured.
 * @param {Dice} dice @param {Life[]} fleet @param {number} week @param {number} atMS @param {Words} words
 * @returns {Change[]}
 */
function walk(dice, fleet, week, atMS, words) {
  const { say } = words;
  const round = { table: 'rounds', record_id: dice.id(), put: head(atMS, words) };
  const by = helpers(say);
  const checks = fleet.map(({ bike }, i) => {
    const seen = atMS + (i * 75 + 30) * 1000;
    const reads = (week / 2 + i) % 4 === 0;
    const reading = reads ? bike.read(seen, by[i % 3]) : null;
    const other = dice.chance(0.02);
    const why = reading?.worn ? say('reason.chain') : other ? say('reason.brake') : '';
    if (reading?.worn) bike.change(seen + 3 * 60 * MINUTE_MS);
    if (week % 4 === 0) bike.care(seen + 4 * 60 * MINUTE_MS, ['wiped', 'lubricated'], false);
    return check(dice, round.record_id, bike, seen, by[i % 3], { reading: reading?.id, why });
  });
  return [{ ...round, put: { ...round.put, finished_at: iso(atMS + 25 * MINUTE_MS) } }, ...checks];
}

/** @param {number} atMS @param {Words} words */
function head(atMS, { say, day }) {
  return { name: say('round', { when: day(atMS) }), started_at: iso(atMS), set: say('set') };
}

/**
 * @param {Dice} dice @param {string} roundId @param {DemoBike} bike @param {number} atMS @param {string} by
 * @param {{reading?: string, why: string}} found
 * @returns {Change}
 */
function check(dice, roundId, bike, atMS, by, { reading, why }) {
  return {
    table: 'round_checks',
    record_id: dice.id(),
    put: {
      ...{ round_id: roundId, bike_id: bike.id, at: iso(atMS), state: why ? 'held' : 'cleared', by },
      ...(reading ? { reading_id: reading } : {}),
      ...(why ? { reason: why } : {}),
    },
  };
}

/** The round that is under way. @param {Dice} dice @param {Life[]} fleet @param {number} nowMS @param {Words} words */
function today(dice, fleet, nowMS, words) {
  const { say } = words;
  const startMS = nowMS - 15 * MINUTE_MS;
  const id = dice.id();
  const by = helpers(say);
  const checks = fleet.slice(0, SEEN_TODAY).map(({ bike }, i) => {
    const seen = startMS + (i + 1) * 70_000;
    const reading = i % 3 === 0 ? bike.read(seen, by[i % 2]) : null;
    const why = i === HELD_TODAY ? say('reason.link') : reading?.worn ? say('reason.chain') : '';
    return check(dice, id, bike, seen, by[i % 2], { reading: reading?.id, why });
  });
  return [{ table: 'rounds', record_id: id, put: head(startMS, words) }, ...checks];
}
