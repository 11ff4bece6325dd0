import assert from 'node:assert/strict';
import { test } from 'node:test';
import { bikeAddress, bikeInAddress, clearing, counts, findBikes, fit, offers, picked, whoIsWhere } from './rounds.js';

/** @typedef {import('./rounds.js').Stand} Stand */

const ID = '0190b0a0-1111-7222-8333-444455556666';

/** @param {string} name @param {object} [more] @returns {import('./rounds.js').Bike} */
function bike(name, more = {}) {
  return /** @type {any} */ ({ bike_id: `id of ${name}`, fields: { name, drive: 'hub', ...more } });
}

/** @param {Partial<Stand>} [more] @returns {Stand} */
function stand(more = {}) {
  return { bike: bike('one'), state: 'not_seen', check: null, held: null, ...more };
}

/** @param {Partial<import('./rounds.js').Check>} more @returns {import('./rounds.js').Check} */
function check(more) {
  return { id: 'c', bike_id: 'b', at: '2026-03-07T08:00:00Z', state: 'held', ...more };
}

test('bikes are counted by how they stand', () => {
  assert.deepEqual(counts([]), { cleared: 0, held: 0, not_seen: 0 });
  const stands = [stand(), stand({ state: 'held' }), stand({ state: 'held' }), stand({ state: 'cleared' })];
  assert.deepEqual(counts(stands), { cleared: 1, held: 2, not_seen: 1 });
});

test('who is where: the latest check of each, whatever the offset their phone writes', () => {
  const checks = [
    check({ id: '1', by: 'Ada', at: '2026-03-07T08:05:00Z', bike_id: 'second' }),
    check({ id: '2', by: 'Ada', at: '2026-03-07T09:01:00+01:00', bike_id: 'first' }),
    check({ id: '3', by: 'Bo', at: '2026-03-07T09:06:00+01:00', bike_id: 'third' }),
    check({ id: '4', at: '2026-03-07T08:59:00Z', bike_id: 'unnamed' }),
  ];
  assert.deepEqual(
    whoIsWhere(checks).map((one) => one.bike_id),
    ['third', 'second'],
  );
});

test('what the bikes have in common can be picked', () => {
  assert.deepEqual(offers([]), [{ pick: {}, count: 0 }]);
  const bikes = [
    bike('a', { set: 'loaners', tag: 'K-01', care: 'gritty' }),
    bike('b', { set: 'loaners', tag: 'K 2', care: 'usual' }),
    bike('c', { tag: 'L1' }),
    bike('d', { tag: '29F' }),
  ];
  assert.deepEqual(offers(bikes), [
    { pick: {}, count: 4 },
    { pick: { set: 'loaners' }, count: 2 },
    { pick: { tag_start: 'K' }, count: 2 },
    { pick: { care: 'gritty' }, count: 1 },
    { pick: { care: 'usual' }, count: 1 },
  ]);
  for (const { pick, count } of offers(bikes)) assert.equal(picked(bikes, pick).length, count, JSON.stringify(pick));
  assert.deepEqual(picked(bikes, { set: 'loaners', care: 'gritty' }), [bikes[0]]);
  assert.deepEqual(offers([bike('a', { set: 'x' })]), [{ pick: {}, count: 1 }], 'all of them is offered once');
});

test('a bike is found by its code, its name or its tag’s address', () => {
  const bikes = [bike('Heron', { tag: '29F' }), bike('Kite 29F', { set: 'blue' }), { ...bike('Wren'), bike_id: ID }];
  const names = (/** @type {string} */ typed) => findBikes(bikes, typed).map((one) => one.fields.name);
  assert.deepEqual(names('2-9f'), ['Heron'], 'a code wins over a name that holds it');
  assert.deepEqual(names('29'), ['Heron', 'Kite 29F']);
  assert.deepEqual(names('BLUE'), ['Kite 29F']);
  assert.deepEqual(names('wr'), ['Wren']);
  assert.deepEqual(names(bikeAddress('https://bikes.example', ID)), ['Wren']);
  assert.deepEqual(names(' '), ['Heron', 'Kite 29F', 'Wren']);
  assert.deepEqual(names('.*'), ['Heron', 'Kite 29F', 'Wren'], 'nothing to look for in signs alone');
  assert.deepEqual(names('zzz'), []);
});

test('only a bike’s own address is one', () => {
  assert.equal(bikeInAddress(`http://192.0.2.7:8080/#/bike/${ID}\n`), ID);
  for (const bad of ['', ID, `#/bike/${ID}/x`, '#/bike/', `#/kit/${ID}`, '#/bike/<script>', `#/bike/${'z'.repeat(36)}`])
    assert.equal(bikeInAddress(bad), '', bad);
});

test('what it takes to clear a bike', () => {
  const held = (/** @type {object} */ more) => stand({ state: 'held', check: check(more) });
  const strict = stand({ bike: bike('one', { bears: ['child_seat'] }) });
  /** @type {[Stand, import('./rounds.js').Verdict|null, string][]} */
  const rows = [
    [stand(), null, 'yes'],
    [stand(), 'ride', 'yes'],
    [stand(), 'plan', 'yes'],
    [stand(), 'change', 'reason'],
    [stand(), 'change_and_inspect', 'reason'],
    [stand(), 'measure_again', 'reason'],
    [strict, 'ride', 'yes'],
    [strict, 'plan', 'reason'],
    [held({ reading_id: 'r' }), null, 'reading'],
    [held({ reading_id: 'r' }), 'ride', 'yes'],
    [held({ reading_id: 'r' }), 'change', 'reason'],
    [held({}), null, 'reading'],
    [held({ reason: 'Brakes' }), null, 'reason'],
    [held({ reason: 'Brakes' }), 'ride', 'reason'],
    [stand({ state: 'cleared', check: check({ state: 'cleared' }) }), null, 'yes'],
  ];
  assert.equal(clearing({ stand: held({ reading_id: 'r' }), verdict: 'ride', keeps: false }), 'reading');
  for (const [one, verdict, want] of rows)
    assert.equal(clearing({ stand: one, verdict }), want, `${one.state} ${verdict}`);
});

test('no verdict against riding counts as fit', () => {
  for (const verdict of /** @type {const} */ (['change', 'change_and_inspect', 'measure_again']))
    for (const strict of [true, false]) assert.equal(fit(verdict, strict), false, verdict);
});
