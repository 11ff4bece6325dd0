import assert from 'node:assert/strict';
import { test } from 'node:test';
import { german } from '../words/de.js';
import { ENGLISH, speak } from '../words/language.js';
import { changesOf, formField, formOf } from './bike-form.js';

const full = {
  name: 'Grey tourer',
  drive: 'derailleur',
  rear_sprockets: 10,
  chainrings: [50, 34],
  sprockets: [11, 13, 15],
  chainstay_mm: 430,
  longest_chainstay_mm: 431.5,
  derailleur: { max_sprocket: 34, capacity_teeth: 39 },
  adjust_mm: [-5, 12],
  etrto: '37-622',
  care: 'usual',
  km_per_week: 80,
  tag: 'K-04',
  set: 'loaners',
  note: 'squeaks\nin rain',
  bears: ['load'],
};

test('a record becomes a form, and a form left alone changes nothing', () => {
  for (const units of /** @type {const} */ (['mixed', 'metric', 'imperial'])) {
    assert.deepEqual(changesOf(formOf(full, units), full, units), { put: {}, unreadable: [] });
    assert.deepEqual(changesOf(formOf({ name: 'n', drive: 'hub' }, units), { name: 'n', drive: 'hub' }, units).put, {});
  }
  const form = formOf(full, 'metric');
  assert.equal(form.chainrings, '50 · 34');
  assert.equal(form.adjust_forward_mm, '5');
  assert.equal(form.adjust_back_mm, '12');
});

test('every field can be changed and emptied; only what changed is put', () => {
  const form = {
    ...formOf(full, 'metric'),
    name: ' Grey ',
    chainrings: '48/31',
    capacity_teeth: '',
    bears: ['e_drive'],
  };
  assert.deepEqual(changesOf(form, full, 'metric').put, {
    name: 'Grey',
    chainrings: [48, 31],
    derailleur: { max_sprocket: 34 },
    bears: ['e_drive'],
  });
  const emptied = Object.fromEntries(Object.keys(form).map((name) => [name, '']));
  const { put } = changesOf({ ...emptied, drive: 'hub', rear_sprockets: 0, bears: [] }, full, 'metric');
  const { drive, ...rest } = put;
  assert.equal(drive, 'hub');
  assert.deepEqual(
    Object.keys(rest).sort(),
    Object.keys(full)
      .filter((name) => name !== 'drive')
      .sort(),
  );
  for (const [name, value] of Object.entries(rest)) assert.equal(value, null, name);
});

test('one part of a pair keeps the other', () => {
  const form = { ...formOf(full, 'metric'), adjust_back_mm: '20', max_sprocket: '36' };
  assert.deepEqual(changesOf(form, full, 'metric').put, {
    adjust_mm: [-5, 20],
    derailleur: { max_sprocket: 36, capacity_teeth: 39 },
  });
  const bare = { name: 'n', drive: 'hub' };
  assert.deepEqual(changesOf({ ...formOf(bare, 'metric'), adjust_back_mm: '15' }, bare, 'metric').put, {
    adjust_mm: [0, 15],
  });
});

test('inches and miles where the rider uses them', () => {
  const bare = { name: 'n', drive: 'hub' };
  const form = { ...formOf(bare, 'imperial'), chainstay_mm: '16 1/2', km_per_week: '10' };
  // 16.5 × 25.4 = 419.1 and 10 × 1.609344 = 16.09, to a tenth.
  assert.deepEqual(changesOf(form, bare, 'imperial').put, { chainstay_mm: 419.1, km_per_week: 16.1 });
});

test('what cannot be read is named and not put', () => {
  const form = {
    ...formOf(full, 'metric'),
    chainstay_mm: 'long',
    sprockets: '11-q',
    km_per_week: 'far',
    max_sprocket: '3.5',
  };
  const { put, unreadable } = changesOf(form, full, 'metric');
  assert.deepEqual(unreadable, ['km_per_week', 'sprockets', 'chainstay_mm', 'max_sprocket']);
  assert.deepEqual(put, {});
});

test('a fault of the engine finds its field', () => {
  assert.equal(formField('changes[0].put.derailleur.max_sprocket'), 'max_sprocket');
  assert.equal(formField('put.adjust_mm[0]'), 'adjust_forward_mm');
  assert.equal(formField('put.adjust_mm[1]'), 'adjust_back_mm');
  assert.equal(formField('put.chainrings[2]'), 'chainrings');
  assert.equal(formField('put.chainrings[0]'), 'chainrings');
  assert.equal(formField('name'), 'name');
});

test('in German a form has the decimal comma and still changes nothing by itself', () => {
  speak(german);
  try {
    assert.equal(formOf(full, 'metric').longest_chainstay_mm, '431,5');
    for (const units of /** @type {const} */ (['metric', 'imperial'])) {
      assert.deepEqual(changesOf(formOf(full, units), full, units), { put: {}, unreadable: [] });
    }
    assert.equal(
      changesOf({ ...formOf(full, 'metric'), chainstay_mm: '429,5' }, full, 'metric').put.chainstay_mm,
      429.5,
    );
  } finally {
    speak(ENGLISH);
  }
});
