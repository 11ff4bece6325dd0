import assert from 'node:assert/strict';
import { test } from 'node:test';
import { putOn, rest, retire } from './chain-moves.js';

// Three chains of one bike at 3000 km: A ran 0 to 1000 and C runs since 1000, so
// A was never taken down as off; D waits with 250.5 km.
const bike = {
  km: 3000,
  fitted_chain_id: 'C',
  chains: /** @type {import('./chain-moves.js').ChainState[]} */ ([
    { chain_id: 'D', place: 'resting', km: 250.5 },
    { chain_id: 'A', place: 'resting', km: 1000 },
    { chain_id: 'C', place: 'on_bike', km: 2000.0004 },
  ]),
};
const rows = [
  { record_id: 'A', fields: { fitted_at_km: 0 } },
  { record_id: 'C', fields: { fitted_at_km: 1000 } },
  { record_id: 'D', fields: { fitted_at_km: null, km_before: 250.5 } },
];

/** @param {string} record_id @param {object} put */
const put = (record_id, put) => ({ table: 'chains', record_id, put });

test('one is put on, the one on the bike rests, and what left before keeps its distance', () => {
  assert.deepEqual(putOn(bike, rows, 'D'), [
    put('A', { fitted_at_km: null, km_before: 1000 }),
    put('C', { fitted_at_km: null, km_before: 2000 }),
    put('D', { fitted_at_km: 3000, km_before: 250.5, retired_at: null }),
  ]);
  assert.deepEqual(putOn(bike, rows, 'A'), [
    put('C', { fitted_at_km: null, km_before: 2000 }),
    put('A', { fitted_at_km: 3000, km_before: 1000, retired_at: null }),
  ]);
  assert.deepEqual(putOn(bike, rows, 'C'), []);
  assert.deepEqual(putOn(bike, rows, 'of another bike'), []);
});

test('resting and retiring', () => {
  assert.deepEqual(rest(bike, rows), [
    put('A', { fitted_at_km: null, km_before: 1000 }),
    put('C', { fitted_at_km: null, km_before: 2000 }),
  ]);
  assert.deepEqual(retire(bike, rows, 'A', 'now'), [
    put('A', { fitted_at_km: null, km_before: 1000, retired_at: 'now' }),
  ]);
  assert.deepEqual(rest({ km: 0, chains: [] }, []), []);
  assert.deepEqual(retire(bike, rows, 'of another bike', 'now'), [put('A', { fitted_at_km: null, km_before: 1000 })]);
});
