import assert from 'node:assert/strict';
import { test } from 'node:test';
import { chunks, clockIsRight, nextTry, passes } from './rhythm.js';

test('tries again ever more seldom, spread by chance, and never before the server asks for it', () => {
  // computed: 1000 ms × 2^(n − 1), at most 300,000 ms, between half of it and all of it
  const rows = [
    [1, 0, 500],
    [1, 1, 1000],
    [2, 1, 2000],
    [5, 0.5, 12000],
    [30, 1, 300000],
    [5000, 0, 150000],
  ];
  for (const [failures, chance, want] of rows) assert.equal(nextTry(failures, chance), want);
  assert.equal(nextTry(1, 0, 60000), 60000);
  assert.equal(nextTry(30, 0, 60000), 150000);
});

test('a list is cut into parts and loses nothing', () => {
  assert.deepEqual(chunks([1, 2, 3, 4, 5], 2), [[1, 2], [3, 4], [5]]);
  assert.deepEqual(chunks([], 2), []);
});

test('what may pass by itself is told from what will not', () => {
  assert.equal(passes('clock_ahead'), true);
  assert.equal(passes('too_many'), true);
  for (const code of ['denied', 'not_allowed', 'contradiction', 'unknown_field', '']) assert.equal(passes(code), false);
});

test('a clock counts as right within an hour of the server, never where the server tells none', () => {
  assert.equal(clockIsRight(1e12, 1e12 + 3_599_999), true);
  assert.equal(clockIsRight(1e12, 1e12 - 3_600_000), false);
  assert.equal(clockIsRight(1e12, NaN), false);
});
