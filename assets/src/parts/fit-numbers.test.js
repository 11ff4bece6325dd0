import assert from 'node:assert/strict';
import { test } from 'node:test';
import { length, share, speed } from './fit-numbers.js';

test('a probability is never shown as certainty', () => {
  assert.equal(share(1), 'over 99\u00a0%');
  assert.equal(share(0), 'under 1\u00a0%');
  assert.equal(share(0.837), '84\u00a0%');
});

test('units follow the setting', () => {
  assert.equal(length(25.4, 'imperial'), '1.00 in');
  assert.equal(length(25.4, 'metric'), '25.4 mm');
  assert.equal(speed(32.67, 'mixed'), '32.7');
  // 20 mph is 32.18688 km/h by the definition of the mile.
  assert.equal(speed(32.18688, 'imperial'), '20.0');
});
