import assert from 'node:assert/strict';
import { test } from 'node:test';
import { home, sameMeaning, targets } from './touch.js';

/** @param {string} table @param {Record<string, any>} fields */
const row = (table, fields = {}) => ({ table, record_id: 'r', removed: false, fields, stamps: {} });

test('every record has a home, by which a bike and its chains find what is theirs', () => {
  assert.equal(home(row('bikes')), 'r');
  assert.equal(home(row('rounds')), 'r');
  for (const table of ['chains', 'distances', 'round_checks']) assert.equal(home(row(table, { bike_id: 'b' })), 'b');
  for (const table of ['readings', 'care']) assert.equal(home(row(table, { chain_id: 'c' })), 'c');
  for (const table of ['instruments', 'prices']) assert.equal(home(row(table)), table);
});

test('a record touches the summaries it is part of, and no other', () => {
  const bikeOf = (/** @type {string} */ id) => ({ c: 'b' })[id];
  const open = () => ['o1', 'o2'];
  const of = (/** @type {any} */ one) => targets(one, bikeOf, open).map(({ kind, id }) => `${kind} ${id}`);
  assert.deepEqual(of(row('bikes')), ['bike r', 'round o1', 'round o2']);
  assert.deepEqual(of(row('chains', { bike_id: 'b' })), ['bike b']);
  assert.deepEqual(of(row('distances', { bike_id: 'b' })), ['bike b']);
  assert.deepEqual(of(row('readings', { chain_id: 'c' })), ['bike b']);
  assert.deepEqual(of(row('care', { chain_id: 'not here yet' })), []);
  assert.deepEqual(of(row('rounds')), ['round r']);
  assert.deepEqual(of(row('round_checks', { round_id: 'o', bike_id: 'b' })), ['round o']);
  assert.deepEqual(of(row('instruments')), []);
  assert.deepEqual(of(undefined), []);
});

test('a record that says the same with another stamp touches nothing, but for chains', () => {
  const at = (/** @type {string} */ table, /** @type {string} */ stamp, tag = 'x') => ({
    ...row(table, { tag }),
    stamps: { tag: stamp },
  });
  assert.equal(sameMeaning(at('bikes', '1'), at('bikes', '2')), true);
  assert.equal(sameMeaning(at('bikes', '1'), at('bikes', '1', 'y')), false);
  assert.equal(sameMeaning(at('bikes', '1'), { ...at('bikes', '1'), removed: true }), false);
  assert.equal(sameMeaning(at('chains', '1'), at('chains', '2')), false);
  assert.equal(sameMeaning(undefined, at('bikes', '1')), false);
});
