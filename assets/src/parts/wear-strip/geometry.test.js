import assert from 'node:assert/strict';
import { test } from 'node:test';
import { LIMIT_AT, WIDTH, strip } from './geometry.js';

test('the pin and its band stand in proportion to the limit', () => {
  const { from, to, pin, marks } = strip({ p05: 0.25, p50: 0.375, p95: 0.75 }, 0.75);
  assert.equal(pin, LIMIT_AT / 2);
  assert.ok(Math.abs(from - LIMIT_AT / 3) < 1e-9);
  assert.equal(to, LIMIT_AT);
  assert.equal(marks.length, 11); // 0.1 to 1.1 %: the drawing ends at 1.125 %
});

test('what lies beyond stands at the edge', () => {
  const { from, to, pin } = strip({ p05: -0.2, p50: 2.9, p95: 9 }, 0.5);
  assert.deepEqual([from, to, pin], [0, WIDTH, WIDTH]);
  assert.ok(strip({ p05: 0, p50: 0, p95: 0 }, 3).marks.length < 50);
});
