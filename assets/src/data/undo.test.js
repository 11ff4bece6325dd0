import assert from 'node:assert/strict';
import { test } from 'node:test';
import { inverse } from './undo.js';

test('what was added is removed, what was changed gets its old values, what was removed comes back', () => {
  const rows = [
    { table: 'bikes', record_id: 'b', fields: { name: 'old', drive: 'hub', note: null } },
    { table: 'care', record_id: 'c', fields: { chain_id: 'k', at: 'then', did: ['wiped'] } },
  ];
  const changes = [
    { table: 'distances', put: { bike_id: 'b', at: 'now', add_km: 3 } },
    { table: 'bikes', record_id: 'b', put: { name: 'new', note: 'n', tag: 'T' } },
    { table: 'care', record_id: 'c', remove: /** @type {true} */ (true) },
  ];
  assert.deepEqual(inverse(changes, ['d', 'b', 'c'], rows), [
    { table: 'care', record_id: 'c', put: { chain_id: 'k' } },
    { table: 'bikes', record_id: 'b', put: { name: 'old', note: null, tag: null } },
    { table: 'distances', record_id: 'd', remove: true },
  ]);
});

test('a voided reading is not un-voided', () => {
  const voided = [{ table: 'readings', record_id: 'r', put: { void_reason: 'slip' } }];
  assert.deepEqual(inverse(voided, ['r'], [{ table: 'readings', record_id: 'r', fields: {} }]), []);
});
