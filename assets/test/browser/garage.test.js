import assert from 'node:assert/strict';
import { test } from 'node:test';
import { door, garage, programWithDoors, until } from './harness/doors.js';
import { goTo, newPhone, openAndKeep } from './harness/phone.js';
import { startServer } from './harness/server.js';

/** @param {any} t */
async function phoneAlone(t) {
  const server = await startServer(t, await programWithDoors());
  const phone = await newPhone(t, server.origin);
  await openAndKeep(phone.page);
  await server.stop();
  return phone;
}

const AT = '2026-03-01T08:00:00Z';

test('a garage works with no server, and is whole after a reload', async (t) => {
  const { page } = await phoneAlone(t);
  const bike = await door(page, 'save', [{ table: 'bikes', put: { name: 'Loaner 4', drive: 'hub', care: 'usual' } }]);
  const [chain] = await door(page, 'save', [{ table: 'chains', put: { bike_id: bike[0], fitted_at_km: 0 } }]);
  const reading = { kind: 'rule', pitches: 24, span_mm: 305.6 };
  await door(page, 'save', [
    { table: 'distances', put: { bike_id: bike[0], at: AT, odometer_km: 1200 } },
    { table: 'readings', put: { chain_id: chain, at: AT, at_km: 1100, reading } },
    { table: 'care', put: { chain_id: chain, at: AT, did: ['wiped'] } },
  ]);
  const [round] = await door(page, 'save', [{ table: 'rounds', put: { name: 'Saturday', started_at: AT } }]);
  await door(page, 'save', [
    { table: 'round_checks', put: { round_id: round, bike_id: bike[0], at: AT, state: 'held' } },
  ]);
  for (const again of [false, true]) {
    if (again) await page.reload();
    const { bikes, rounds, sync, id } = await until(page, (now) => now.bikes[0]?.forecast);
    assert.equal(id, '');
    assert.equal(sync.state, 'local');
    assert.equal(bikes.length, 1);
    const [one] = bikes;
    assert.deepEqual([one.fields.name, one.km, one.fitted_chain_id, one.chain_km], ['Loaner 4', 1200, chain, 1200]);
    assert.deepEqual(one.last_reading?.reading, reading);
    assert.deepEqual(one.last_care?.did, ['wiped']);
    // computed: 100 (305.6 / (24 × 12.7) − 1) = 0.2625
    assert.ok(Math.abs((one.judged?.elongation_percent ?? 0) - 0.2625) < 1e-3);
    assert.ok((one.forecast?.km_to_limit.p50 ?? 0) > 0);
    assert.equal(one.round?.state, 'held');
    assert.deepEqual([rounds[0].held, rounds[0].cleared, rounds[0].stands.length], [1, 0, 1]);
  }
  const detail = await door(page, 'openBike', bike[0]);
  assert.equal(detail.bike.fields.name, 'Loaner 4');
  assert.equal(detail.meaning.chains[0].reading_ids.length, 1);
  assert.equal(Object.keys(detail.readings).length, 1);
  assert.equal(Object.keys(detail.checks).length, 1);
  assert.ok(detail.forecasts[chain].curve.length > 1);
  assert.equal((await door(page, 'openRound', round)).round.held, 1);
  assert.equal(await door(page, 'openBike', round), null);
});

test('what is refused names its field, and nothing of it is kept', async (t) => {
  const { page } = await phoneAlone(t);
  const refused = await door(page, 'save', [
    { table: 'bikes', put: { name: 'Good', drive: 'hub' } },
    { table: 'bikes', put: { name: '', drive: 'hub' } },
  ]);
  assert.equal(refused.fault.field, 'changes[1].put.name');
  assert.equal((await garage(page)).bikes.length, 0);
  for (const change of [
    { table: 'wheels', put: { name: 'a' } },
    { table: 'bikes', put: { name: 'a', drive: 'hub', colour: 'red' } },
    { table: 'bikes', record_id: 'mine', put: { name: 'a', drive: 'hub' } },
    { table: 'bikes', put: { name: 'a', drive: 'hub', km_per_week: -1 } },
    { table: 'bikes', put: {} },
    { table: 'bikes' },
    { table: 'bikes', remove: true },
    { table: 'bikes', put: null },
  ]) {
    assert.ok((await door(page, 'save', [change])).fault, JSON.stringify(change));
  }
  assert.equal((await garage(page)).bikes.length, 0);
});

test('a removed bike is gone from the list, and a later put brings it back with all it had', async (t) => {
  const { page } = await phoneAlone(t);
  const [id] = await door(page, 'save', [{ table: 'bikes', put: { name: 'A', drive: 'hub', tag: 'x' } }]);
  await door(page, 'save', [{ table: 'bikes', record_id: id, remove: true }]);
  assert.equal((await garage(page)).bikes.length, 0);
  assert.equal(await door(page, 'openBike', id), null);
  await door(page, 'save', [{ table: 'bikes', record_id: id, put: { name: 'A' } }]);
  assert.equal((await garage(page)).bikes[0].fields.tag, 'x');
  await door(page, 'save', [{ table: 'bikes', record_id: id, put: { tag: null } }]);
  assert.equal('tag' in (await garage(page)).bikes[0].fields, false);
});

for (const locks of [true, false]) {
  test(`two tabs of a phone both write, ${locks ? 'with' : 'without'} locks, and both see all of it`, async (t) => {
    await twoTabs(await phoneAlone(t), locks);
  });
}

/**
 * Pages without https have no locks.
 * @param {import('./harness/phone.js').Phone} phone
 * @param {boolean} locks
 */
async function twoTabs(phone, locks) {
  if (!locks) {
    await phone.context.addInitScript(() => Object.defineProperty(navigator, 'locks', { value: undefined }));
    await phone.page.reload();
    assert.equal(await phone.page.evaluate(() => navigator.locks), undefined);
  }
  const other = await phone.context.newPage();
  await goTo(other, '/');
  const names = Array.from({ length: 20 }, (_, i) => `bike ${i}`);
  await Promise.all(
    names.map((name, i) => door([phone.page, other][i % 2], 'save', [{ table: 'bikes', put: { name, drive: 'hub' } }])),
  );
  for (const page of [phone.page, other]) {
    const all = await until(page, ({ bikes }) => bikes.length === 20);
    assert.deepEqual(
      all.bikes.map(({ fields }) => fields.name),
      names,
    );
  }
}
