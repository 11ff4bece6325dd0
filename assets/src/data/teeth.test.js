import assert from 'node:assert/strict';
import { test } from 'node:test';
import { decimal, showTeeth, teeth, whole } from './teeth.js';

test('any sign between the numbers will do', () => {
  for (const text of [
    '11 13 15',
    '11-13-15',
    '11, 13, 15',
    '11.13.15',
    '11/13/15',
    '11–13–15',
    ' 11t 13t 15T ',
    '11 · 13 · 15',
  ]) {
    assert.deepEqual(teeth(text), [11, 13, 15], text);
  }
  assert.deepEqual(teeth('50/34 teeth'), [50, 34]);
  assert.deepEqual(teeth(''), []);
});

test('what cannot be a list of tooth counts is refused', () => {
  for (const text of ['eleven', '11 b 13', '11131517', '11<13']) assert.equal(teeth(text), null, text);
});

test('what is shown reads back', () => {
  assert.deepEqual(teeth(showTeeth([11, 13, 15])), [11, 13, 15]);
});

test('a whole number is empty, a number or nothing readable', () => {
  assert.equal(whole(' 44 '), 44);
  assert.equal(whole(''), null);
  for (const text of ['4.4', '-4', '44t', '99999']) assert.ok(Number.isNaN(whole(text)), text);
});

test('a decimal takes comma and point', () => {
  assert.equal(decimal('0,5'), 0.5);
  assert.equal(decimal('0.5 %'), 0.5);
  assert.equal(decimal('.5'), 0.5);
  assert.equal(decimal(' '), null);
  for (const text of ['x', '1.2.3', '-1', '1e3']) assert.ok(Number.isNaN(decimal(text)), text);
});
