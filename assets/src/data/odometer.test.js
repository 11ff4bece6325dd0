import assert from 'node:assert/strict';
import { test } from 'node:test';
import { firstOdometer, leaps } from './odometer.js';

const bike = {
  km: 300,
  chains: /** @type {import('./chain-moves.js').ChainState[]} */ ([
    { chain_id: 'A', place: 'retired', km: 100 },
    { chain_id: 'C', place: 'on_bike', km: 250 },
  ]),
};
const rows = [
  { record_id: 'A', fields: { fitted_at_km: 0, retired_at: 'then' } },
  { record_id: 'C', fields: { fitted_at_km: 100, km_before: 50 } },
];
const before = { table: 'chains', record_id: 'A', put: { fitted_at_km: null, km_before: 100 } };

// Counted 300 km without an odometer, which now shows 12 300: the leap is 12 000.
test('the chain keeps what it has run when the first odometer figure comes', () => {
  assert.deepEqual(firstOdometer(bike, rows, 12300, 'now', 0), [
    before,
    { table: 'chains', record_id: 'C', put: { fitted_at_km: 12100 } },
  ]);
  assert.deepEqual(firstOdometer(bike, rows, 200, 'now', 0), []);
});

test('or the rider knows when it was put on', () => {
  assert.deepEqual(firstOdometer(bike, rows, 12300, 'zero', 0)[1].put, { fitted_at_km: 0, km_before: 0 });
  assert.deepEqual(firstOdometer(bike, rows, 12300, 'at', 9000)[1].put, { fitted_at_km: 9000, km_before: 0 });
  assert.deepEqual(firstOdometer({ km: 0, chains: [] }, [], 5, 'zero', 0), []);
});

test('a figure too far for its time is asked about', () => {
  assert.equal(leaps(400, 0), false);
  assert.equal(leaps(900, 1), true);
  assert.equal(leaps(900, 7), false);
});
