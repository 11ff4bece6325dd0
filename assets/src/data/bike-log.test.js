import assert from 'node:assert/strict';
import { test } from 'node:test';
import { lastDistanceAt, lastOdometer, stream } from './bike-log.js';

/** @param {string} table @param {string} record_id @param {Record<string, any>} fields */
const row = (table, record_id, fields) => ({ table, record_id, fields });

const rows = {
  chains: [row('chains', 'A', { retired_at: '2026-03-10T08:00:00Z' }), row('chains', 'C', {})],
  readings: [row('readings', 'r', { chain_id: 'A', at: '2026-03-05T08:00:00+02:00' })],
  distances: [
    row('distances', 'd1', { at: '2026-03-05T07:00:00Z', odometer_km: 100 }),
    row('distances', 'd2', { at: '2026-03-20T08:00:00Z', add_km: 9 }),
    row('distances', 'd3', { at: '2026-03-12T08:00:00Z', odometer_km: 90 }),
  ],
  care: [row('care', 'k', { chain_id: 'gone', at: 'not a time' })],
};

test('one stream, the latest first, whatever the time zone and however broken', () => {
  assert.deepEqual(
    stream(rows).map((entry) => `${entry.kind} ${entry.row.record_id} ${entry.chain?.record_id}`),
    [
      'distance d2 undefined',
      'distance d3 undefined',
      'retired A A',
      'distance d1 undefined',
      'reading r A',
      'care k undefined',
    ],
  );
});

test('the latest odometer entry and the latest entry of all', () => {
  assert.equal(lastOdometer(rows.distances)?.record_id, 'd3');
  assert.equal(lastDistanceAt(rows.distances), '2026-03-20T08:00:00.000Z');
  assert.equal(lastOdometer([]), null);
  assert.equal(lastDistanceAt([]), null);
});
