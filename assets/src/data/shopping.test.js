import assert from 'node:assert/strict';
import { test } from 'node:test';
import { countOf, familiesFor, familyRequest, lengthQuestion, links, soldFor } from './shopping.js';

/** @param {string} name @param {number} probability @param {boolean|null} fits @returns {any} */
const family = (name, probability, fits) => ({ class: name, probability, fits_this_bike: fits });

test('the family of the chain on it counts, unless it does not go with the bike', () => {
  const all = [family('a', 0.3, true), family('b', 0.2, null), family('c', 0.1, false)];
  assert.deepEqual(
    familiesFor(all, 'b').map((one) => one.class),
    ['b'],
  );
  assert.deepEqual(
    familiesFor(all, 'c').map((one) => one.class),
    ['a', 'b'],
  );
});

test('one family alone is settled when all others do not go with the bike', () => {
  const all = [family('nine', 0.29, true), family('ten', 0.07, false), family('eleven', 0.07, false)];
  assert.deepEqual(
    familiesFor(all, undefined).map((one) => one.class),
    ['nine'],
  );
  assert.deepEqual(familiesFor([], undefined), []);
});

test('a derailleur drive asks for its length once stay and teeth are known', () => {
  const bike = { drive: 'derailleur', rear_sprockets: 9, chainstay_mm: 430, chainrings: [44], sprockets: [11, 32] };
  assert.deepEqual(lengthQuestion(bike), {
    name: 'length',
    request: { chainstay_mm: 430, chainrings: [44], sprockets: [11, 32] },
    missing: [],
  });
  assert.deepEqual(lengthQuestion({ drive: 'derailleur', chainrings: [44] }).missing, ['chainstay_mm', 'sprockets']);
  assert.deepEqual(familyRequest(bike), { drive: 'derailleur', rear_sprockets: 9 });
});

test('a fixed drive asks with its own names', () => {
  const bike = { drive: 'hub', chainstay_mm: 460, chainrings: [38], sprockets: [19], adjust_mm: [-4, 12] };
  assert.deepEqual(lengthQuestion(bike), {
    name: 'centre',
    request: { centre_mm: 460, adjust_mm: [-4, 12], chainring: 38, sprocket: 19 },
    missing: [],
  });
  assert.deepEqual(lengthQuestion({ drive: 'single' }).missing, ['chainstay_mm', 'chainrings', 'sprockets']);
  assert.deepEqual(familyRequest({ drive: 'single', rear_sprockets: 1 }), { drive: 'single' });
});

test('the shortest chain sold that is long enough', () => {
  assert.equal(soldFor(108), 112);
  assert.equal(soldFor(116), 116);
  assert.equal(soldFor(117), 118);
  assert.equal(soldFor(139), null);
});

test('pins are not links', () => {
  assert.deepEqual(links(['reusable_joining_link', 'one_use_pin', 'half_link']), ['reusable_joining_link']);
});

test('a count that no place of the axle closes is no count', () => {
  assert.equal(countOf({ pitches: 112 }), 112);
  const options = (/** @type {boolean} */ fits) => [
    { pitches: 100, fits: true },
    { pitches: 102, fits },
  ];
  assert.equal(countOf({ pitches: 102, options: options(true) }), 102);
  assert.equal(countOf({ pitches: 102, options: options(false) }), null);
});
