import assert from 'node:assert/strict';
import { test } from 'node:test';
import { about, far, readFar, within } from './distances.js';

test('distances are whole, grouped, and in the unit of the setting', () => {
  assert.equal(far(1240.4, 'mixed'), '1\u202f240 km');
  assert.equal(far(999.6, 'metric'), '1\u202f000 km');
  assert.equal(far(0, 'metric'), '0 km');
  // 100 statute miles are 160.9344 km by definition.
  assert.equal(far(160.9344, 'imperial'), '100 mi');
});

test('a forecast is written with two figures, a bound is never rounded up', () => {
  assert.equal(about(1505.9, 'metric'), '1\u202f500 km');
  assert.equal(about(96, 'metric'), '96 km');
  assert.equal(within(369.9, 'metric'), '360 km');
  assert.equal(within(9.9, 'metric'), '9 km');
  assert.equal(within(0.4, 'metric'), '0 km');
  assert.equal(within(1999, 'metric'), '1\u202f900 km');
});

test('what is typed is read with comma or point, gaps, and a unit', () => {
  assert.equal(readFar('1 240,5', 'metric'), 1240.5);
  assert.equal(readFar('1\u202f240 km', 'imperial'), 1240);
  assert.ok(Math.abs(Number(readFar('100', 'imperial')) - 160.9344) < 1e-9);
  assert.ok(Math.abs(Number(readFar('100 mi', 'metric')) - 160.9344) < 1e-9);
  assert.equal(readFar('  ', 'metric'), null);
  for (const bad of ['-5', '1e9', 'NaN', '12 34 km mi', 'many', '1.2.3', '∞']) {
    assert.ok(Number.isNaN(readFar(bad, 'metric')), bad);
  }
});
