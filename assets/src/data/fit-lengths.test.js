import assert from 'node:assert/strict';
import { test } from 'node:test';
import { blank, lengthMM, showLength, stepped, typedFrom, unitOf } from './fit-lengths.js';

test('a bare number keeps the unit it was typed with', () => {
  assert.ok(Math.abs(Number(lengthMM({ text: '16 1/2', unit: 'in' })) - 419.1) < 1e-9); // 16.5 in of 25.4 mm
  assert.equal(lengthMM({ text: '415', unit: 'mm' }), 415);
  assert.equal(lengthMM({ text: '415 mm', unit: 'in' }), 415);
  assert.equal(lengthMM({ text: '41,5 cm', unit: 'in' }), 415);
});

test('empty is nothing, nonsense is not a length', () => {
  assert.equal(lengthMM(blank('mm')), null);
  assert.equal(lengthMM({ text: '  ', unit: 'mm' }), null);
  for (const text of ['abc', '1/0', '--4', '4 5', '1e400', 'NaN'])
    assert.ok(Number.isNaN(lengthMM({ text, unit: 'mm' })), text);
});

test('steps are whole millimetres or sixteenths on a frame', () => {
  assert.deepEqual(stepped({ text: '415', unit: 'mm' }, 'frame', 'mm', 1, 420), { text: '416 mm', unit: 'mm' });
  assert.deepEqual(stepped({ text: '415.4', unit: 'mm' }, 'frame', 'mm', -1, 420), { text: '415 mm', unit: 'mm' });
  assert.deepEqual(stepped({ text: '16 1/2', unit: 'in' }, 'frame', 'in', 1, 420), { text: '16 9/16 in', unit: 'in' });
});

test('steps are a caliper’s on a width', () => {
  assert.deepEqual(stepped({ text: '6.6', unit: 'mm' }, 'width', 'mm', 1, 6), { text: '6.65 mm', unit: 'mm' });
  assert.deepEqual(stepped({ text: '0.260', unit: 'in' }, 'width', 'in', -1, 6), { text: '0.258 in', unit: 'in' });
});

test('an empty field starts from its usual value, and none goes below zero', () => {
  assert.equal(stepped(blank('mm'), 'frame', 'mm', 1, 420).text, '421 mm');
  assert.equal(stepped({ text: 'abc', unit: 'mm' }, 'frame', 'mm', -1, 420).text, '419 mm');
  assert.equal(stepped({ text: '0', unit: 'mm' }, 'width', 'mm', -3, 6).text, '0.00 mm');
});

test('what a record gives comes back as it was', () => {
  for (const mm of [415, 419.1, 437.5]) {
    assert.ok(Math.abs(Number(lengthMM(typedFrom(mm, 'frame', 'mm'))) - mm) < 1e-9);
    assert.ok(Math.abs(Number(lengthMM(typedFrom(mm, 'frame', 'in'))) - mm) < 0.02);
  }
  assert.equal(showLength(6.604, 'width', 'in'), '0.260 in');
});

test('the units setting decides what a bare number is', () => {
  assert.equal(unitOf('imperial'), 'in');
  assert.equal(unitOf('metric'), 'mm');
  assert.equal(unitOf('mixed'), 'mm');
});
