import assert from 'node:assert/strict';
import { test } from 'node:test';
import { fraction, fromMarks, nudge, read, show, stepMM } from './lengths.js';

test('a step is the distance between marks', () => {
  // 1/16 in = 1.5875 mm, 1/32 in = 0.79375 mm: the inch is 25.4 mm exactly.
  assert.equal(stepMM('in16'), 1.5875);
  assert.equal(stepMM('in32'), 0.79375);
  assert.equal(stepMM('mm05'), 0.5);
});

test('nudging lands on marks and never drifts', () => {
  let mm = 304.8;
  for (let i = 0; i < 1000; i++) mm = nudge(mm, 'in16', 1);
  for (let i = 0; i < 1000; i++) mm = nudge(mm, 'in16', -1);
  assert.ok(Math.abs(mm - 304.8) < 1e-9, 'after 1000 up and 1000 down');
  assert.equal(nudge(304.8, 'mm05', 1), 305);
  assert.equal(nudge(304.8, 'mm05', -1), 304.5);
  assert.equal(nudge(305, 'mm05', 3), 306.5);
  assert.equal(nudge(306.4, 'mm05', 1), 306.5);
  assert.equal(nudge(306.4, 'mm05', -1), 306);
  assert.equal(nudge(119.27, 'mm01', 0), 119.3);
});

test('lengths are written as the rule shows them', () => {
  assert.equal(show(304.8, 'in16'), '12 in');
  assert.equal(show(fromMarks(193, 'in16'), 'in16'), '12 1/16 in');
  assert.equal(show(fromMarks(194, 'in16'), 'in16'), '12 1/8 in');
  assert.equal(show(fromMarks(387, 'in32'), 'in32'), '12 3/32 in');
  assert.equal(show(306.4, 'in16'), '12.063 in');
  assert.equal(show(306.5, 'mm05'), '306.5 mm');
  assert.equal(show(300, 'mm1'), '300 mm');
  assert.equal(show(119.27, 'mm001'), '119.27 mm');
  assert.equal(show(-0.5, 'mm05'), '−0.5 mm');
});

test('fractions are in lowest terms', () => {
  assert.equal(fraction(0, 16), '0');
  assert.equal(fraction(8, 16), '1/2');
  assert.equal(fraction(-1, 16), '−1/16');
  assert.equal(fraction(16, 16), '1');
});

test('plain lengths are read, the rest is refused', () => {
  assert.equal(read('1.5', 'mm'), 1.5);
  assert.equal(read('1,5 mm', 'in'), 1.5);
  assert.equal(read('1/16', 'in'), 1.5875);
  assert.ok(Math.abs(read('1 1/2"', 'mm') - 38.1) < 1e-9);
  assert.equal(read('−0.5', 'mm'), -0.5);
  assert.equal(read('3 cm', 'mm'), 30);
  for (const bad of ['', ' ', 'x', '1e3', '1/0', '1.5.2', '1 2', '--1', '1.5 m', 'NaN', 'Infinity']) {
    assert.ok(Number.isNaN(read(bad, 'mm')), bad);
  }
});

test('what is shown is read back', () => {
  for (const name of /** @type {const} */ (['in16', 'in32', 'mm05', 'mm001'])) {
    for (let count = -40; count < 400; count += 7) {
      const mm = fromMarks(count, name);
      assert.ok(Math.abs(read(show(mm, name), 'mm') - mm) < 1e-9, show(mm, name));
    }
  }
});
