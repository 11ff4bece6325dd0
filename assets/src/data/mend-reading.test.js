import assert from 'node:assert/strict';
import { test } from 'node:test';
import { counted, mendChanges, mendedReading } from './mend-reading.js';

test('the slip is taken out of the number that was entered', () => {
  const rule = { kind: 'rule', pitches: 24, span_mm: 350.6, resolution_mm: 0.5 };
  assert.deepEqual(mendedReading(rule, { slip: 'digits_swapped', fits_entered: 305.6 }), { ...rule, span_mm: 305.6 });
  assert.equal(mendedReading(rule, { slip: 'pitches_off', fits_entered: 26 }).pitches, 26);
  const compare = { kind: 'compare', pitches: 100, growth_mm: 0.4 };
  assert.equal(mendedReading(compare, { slip: 'units_mixed', fits_entered: 5.08 }).growth_mm, 5.08);
  const caliper = { kind: 'caliper', pitches: 10, inside_mm: 11.99 };
  assert.equal(mendedReading(caliper, { slip: 'ten_times', fits_entered: 119.9 }).inside_mm, 119.9);
});

test('the wrong reading is voided, never changed, and the right one keeps when and where', () => {
  const row = {
    record_id: 'wrong',
    fields: { chain_id: 'c', at: '2026-03-01T08:00:00Z', at_km: 900, by: 'Ada', reading: { kind: 'rule' } },
  };
  assert.deepEqual(mendChanges(row, { kind: 'rule', pitches: 24 }, 'two digits swapped', 'right'), [
    { table: 'readings', record_id: 'wrong', put: { void_reason: 'two digits swapped' } },
    {
      table: 'readings',
      record_id: 'right',
      put: { ...row.fields, reading: { kind: 'rule', pitches: 24 } },
    },
  ]);
  assert.equal(mendChanges(row, null, 'left out', 'right').length, 1);
});

test('the forecast’s readings are those that count, the latest two hundred, in the engine’s order', () => {
  const ids = Array.from({ length: 203 }, (_, i) => `r${i}`);
  const readings = Object.fromEntries(ids.map((id, i) => [id, { fields: i === 1 ? { void_reason: 'slip' } : {} }]));
  const detail = /** @type {any} */ ({ meaning: { chains: [{ chain_id: 'c', reading_ids: ids }] }, readings });
  const counting = counted(detail, 'c');
  assert.equal(counting.length, 200);
  assert.equal(counting[0], 'r3');
  assert.equal(counting[199], 'r202');
  assert.deepEqual(counted(detail, 'other'), []);
});
