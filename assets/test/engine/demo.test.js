/**
 * The invented garage, taken by the engine as it goes to the phone. It proves
 * nothing about chains: it must be the same for everybody, obey every rule of
 * the records, and show each thing there is to see.
 */
import assert from 'node:assert/strict';
import { before, test } from 'node:test';
import { WornChain } from '../../src/data/demo/chain.js';
import { Dice } from '../../src/data/demo/dice.js';
import { SEED, invent } from '../../src/data/demo/invent.js';
import { wearRequest } from '../../src/data/meaning.js';
import { startEngine } from './start.js';

/** @typedef {import('../../src/data/demo/invent.js').Change} Change */

const WORDS = {
  say: (/** @type {string} */ key) => key,
  day: (/** @type {number} */ ms) => new Date(ms).toISOString(),
};

/** Days of every season, a leap day, and a Saturday. */
const DAYS = ['2026-02-28T23:30:00Z', '2024-02-29T12:00:00Z', '2026-06-13T07:15:00Z', '2026-11-25T10:00:00Z'].map(
  (day) => Date.parse(day),
);

before(startEngine);

/** @param {string} name @param {object} request @param {(name: string, json: string) => string} ask */
function asked(name, request, ask) {
  const answer = JSON.parse(ask(name, JSON.stringify(request)));
  assert.equal(answer.error, undefined, JSON.stringify(answer.error));
  return answer;
}

/** @param {Change[][]} parts @param {number} nowMS @returns {any[]} the rows as the phone keeps them, change by change */
function kept(parts, nowMS) {
  let clock = '';
  return parts.flatMap((changes) => {
    const random = new Dice(1);
    const { rows, hlc } = asked(
      'change',
      {
        ...{ rows: [], last_hlc: clock, now_ms: nowMS, role: 'owner', device_id: random.id() },
        changes: changes.map((one) => ({ ...one, random: random.id().replaceAll('-', '').slice(0, 20) })),
      },
      tautspanRecords,
    );
    clock = hlc;
    return rows;
  });
}

test('the same seed and day give the same garage, another seed another', () => {
  const [one, same, other] = [SEED, SEED, SEED + 1].map((seed) => JSON.stringify(invent(seed, DAYS[0], WORDS)));
  assert.equal(one, same);
  assert.notEqual(one, other);
});

for (const nowMS of DAYS) {
  test(`seen on ${new Date(nowMS).toISOString()}: every record is taken, nothing is in the future`, () => {
    const parts = invent(SEED, nowMS, WORDS);
    const rows = kept(parts, nowMS);
    const ids = rows.map((row) => row.record_id);
    assert.equal(new Set(ids).size, ids.length, 'each record is told of in one part only');
    for (const { fields } of rows) {
      for (const at of [fields.at, fields.started_at, fields.finished_at, fields.retired_at]) {
        if (at) assert.ok(Date.parse(at) <= nowMS, at);
      }
    }
    const { bikes, rounds } = asked('garage', { rows }, tautspanRecords);
    assert.equal(bikes.length, 16);
    assert.ok(rounds.length >= 25, `${rounds.length} rounds`);
    for (const bike of bikes) {
      assert.deepEqual(bike.doubtful_distance_ids, []);
      for (const chain of bike.chains) {
        if (chain.place === 'retired') continue;
        const answer = asked('forecast', chain.forecast_request, tautspanCall);
        assert.ok(answer.km_to_limit.p50 >= 0);
      }
    }
  });

  test(`seen on ${new Date(nowMS).toISOString()}: every verdict, a rotation, a held bike, retired chains`, () => {
    const rows = kept(invent(SEED, nowMS, WORDS), nowMS);
    const { bikes, rounds } = asked('garage', { rows }, tautspanRecords);
    const find = (/** @type {string} */ id) => rows.find((row) => row.record_id === id).fields;
    const verdicts = bikes.flatMap((/** @type {any} */ { bike_id, fitted_chain_id, chains }) => {
      const { last_reading_id: last } = chains.find((/** @type {any} */ one) => one.chain_id === fitted_chain_id);
      if (!last) return [];
      const request = wearRequest(find(bike_id), {}, find(last));
      return [asked('wear', request, tautspanCall).verdict];
    });
    for (const one of ['ride', 'plan']) assert.ok(verdicts.includes(one), `${one} in ${verdicts}`);
    assert.ok(
      verdicts.some((/** @type {string} */ one) => one.startsWith('change')),
      `a change in ${verdicts}`,
    );
    const places = bikes.flatMap((/** @type {any} */ bike) => bike.chains.map((/** @type {any} */ one) => one.place));
    assert.ok(places.includes('resting') && places.includes('retired'));
    const open = rounds.filter((/** @type {any} */ one) => !find(one.round_id).finished_at);
    assert.equal(open.length, 1);
    const states = open[0].bikes.map((/** @type {any} */ one) => one.state);
    assert.equal(states.length, 12);
    for (const one of ['cleared', 'held', 'not_seen']) assert.ok(states.includes(one), one);
  });
}

test('instruments show what the chain is, within their error', () => {
  const dice = new Dice(7);
  const errors = Array.from({ length: 400 }, () => {
    const chain = new WornChain(dice, 'usual', 1);
    chain.run(1500);
    return ['rule', 'caliper'].map((one) => chain.read(/** @type {any} */ (one)).shown - chain.percent);
  });
  for (const i of [0, 1]) {
    const mean = errors.reduce((sum, pair) => sum + pair[i], 0) / errors.length;
    const spread = Math.sqrt(errors.reduce((sum, pair) => sum + pair[i] ** 2, 0) / errors.length);
    assert.ok(Math.abs(mean) < 0.02, `mean ${mean}`); // no bias: the mean of 400 has a deviation of 0.005
    assert.ok(spread > 0.02 && spread < 0.15, `spread ${spread}`); // 1/32 in over 12 in is 0.26 %, its sd 0.075 %
  }
});

test('the dice are even: chi-square of 10 classes below the 0.999 quantile of 27.88 (printed tables, 9 degrees)', () => {
  const dice = new Dice(SEED);
  const classes = new Array(10).fill(0);
  for (let i = 0; i < 10_000; i++) classes[Math.floor(10 * dice.next())]++;
  const chi = classes.reduce((sum, n) => sum + (n - 1000) ** 2 / 1000, 0);
  assert.ok(chi < 27.88, `${chi}`);
});
