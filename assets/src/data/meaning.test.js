import assert from 'node:assert/strict';
import { test } from 'node:test';
import { bikeValue, roundValue, wearRequest } from './meaning.js';

/** @param {string} table @param {string} id @param {Record<string, any>} fields */
const row = (table, id, fields) => ({ table, record_id: id, removed: false, fields, stamps: {} });

const ROWS = [
  row('bikes', 'b', { name: 'Loaner', drive: 'derailleur', tag: null }),
  row('chains', 'c', { bike_id: 'b', fitted_at_km: 0, limit_percent: 0.4 }),
  row('readings', 'r1', { chain_id: 'c', at_km: 10, reading: { kind: 'rule' } }),
  row('care', 'k1', { chain_id: 'c', did: ['wiped'] }),
  row('care', 'k2', { chain_id: 'c', did: ['cleaned'] }),
];
const CHAIN = {
  chain_id: 'c',
  km: 12,
  reading_ids: ['r1'],
  last_reading_id: 'r1',
  care_ids: ['k1', 'k2'],
  forecast_request: { now_km: 12 },
};
const MEANING = { bike_id: 'b', km: 20, doubtful_distance_ids: ['d'], fitted_chain_id: 'c', chains: [CHAIN] };

test('a bike in the list', () => {
  const value = bikeValue(ROWS, MEANING);
  assert.deepEqual(value.fields, { name: 'Loaner', drive: 'derailleur' });
  assert.deepEqual([value.km, value.doubtful, value.chain_km], [20, 1, 12]);
  assert.equal(value.last_reading?.record_id, 'r1');
  assert.deepEqual(value.last_care?.did, ['cleaned']);
  assert.deepEqual(value.ask?.forecast, { now_km: 12 });
  assert.deepEqual(value.ask?.wear, {
    drive: 'derailleur',
    rear_sprockets: 12,
    limit_percent: 0.4,
    reading: { kind: 'rule' },
  });
});

test('a bike with no chain, and a chain with nothing known of it', () => {
  const none = bikeValue(ROWS, { ...MEANING, fitted_chain_id: undefined });
  assert.deepEqual([none.fitted_chain_id, none.chain, none.last_reading, none.ask], [null, null, null, null]);
  const bare = { ...CHAIN, reading_ids: [], last_reading_id: undefined, care_ids: [] };
  const value = bikeValue(ROWS, { ...MEANING, chains: [bare] });
  assert.deepEqual([value.last_reading, value.last_care, value.ask?.wear], [null, null, null]);
});

test('one sprocket needs no number of sprockets', () => {
  assert.deepEqual(wearRequest({ drive: 'hub', rear_sprockets: 3 }, {}, { reading: 1 }), { drive: 'hub', reading: 1 });
  assert.equal(/** @type {any} */ (wearRequest({ drive: 'derailleur', rear_sprockets: 9 }, {}, {})).rear_sprockets, 9);
});

test('a round in the list', () => {
  const rows = [row('rounds', 'o', { name: 'Sat' }), row('round_checks', 'x', { state: 'held', reason: 'bent' })];
  const bikes = [
    { bike_id: 'a', state: 'held', round_check_id: 'x', hold_check_id: 'x', vain_check_ids: ['y'] },
    { bike_id: 'b', state: 'not_seen', vain_check_ids: [] },
  ];
  const value = roundValue(rows, { round_id: 'o', bikes });
  assert.deepEqual([value.cleared, value.held, value.not_seen], [0, 1, 1]);
  assert.equal(value.stands[0].check?.reason, 'bent');
  assert.equal(value.stands[0].hold?.reason, 'bent');
  assert.deepEqual(value.stands[0].vain_ids, ['y']);
  assert.deepEqual([value.stands[1].check, value.stands[1].hold], [null, null]);
});
