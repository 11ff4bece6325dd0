import assert from 'node:assert/strict';
import { test } from 'node:test';
import { door, garage, until } from './harness/doors.js';
import { BIKE, agreed, everything, joinBy, phone, server } from './harness/shared.js';

const AT = '2026-03-01T08:00:00Z';

/** @param {import('./harness/phone.js').Phone} one something in every table, some of it changed, voided or removed */
async function fill(one) {
  const { page } = one;
  const [bike, gone] = await door(page, 'save', [
    {
      table: 'bikes',
      put: { name: '=cmd|"\n🚲', drive: 'hub', chainrings: [44], adjust_mm: [0, 15], note: 'a "quoted" note' },
    },
    { table: 'bikes', put: { name: 'gone', drive: 'hub' } },
  ]);
  const [chain] = await door(page, 'save', [{ table: 'chains', put: { bike_id: bike, fitted_at_km: 0 } }]);
  const reading = { kind: 'gauge', steps: [{ percent: 0.5, drops: true }], bears_on: 'same_side' };
  const put = { chain_id: chain, at: AT, at_km: 10, reading };
  const [read, round] = await door(page, 'save', [
    { table: 'readings', put },
    { table: 'rounds', put: { name: 'Saturday', started_at: AT } },
    { table: 'distances', put: { bike_id: bike, at: AT, add_km: 12.345 } },
    { table: 'care', put: { chain_id: chain, at: AT, did: ['cleaned', 'lubricated'] } },
    { table: 'instruments', put: { name: 'Rule', kind: 'rule', resolution_mm: 0.5 } },
    { table: 'prices', put: { currency: 'EUR', chain: 2500 } },
  ]);
  await door(page, 'save', [
    { table: 'round_checks', put: { round_id: round, bike_id: bike, at: AT, state: 'held', reason: 'bent' } },
    { table: 'readings', record_id: read, put: { void_reason: 'wrong chain' } },
    { table: 'bikes', record_id: gone, remove: true },
    { table: 'bikes', record_id: bike, put: { tag: 'T1', note: null } },
  ]);
}

test('a garage goes through a file into an empty and into another garage without loss', async (t) => {
  const at = await server(t);
  const [a, b, c] = [await phone(t, at), await phone(t, at), await phone(t, at)];
  await fill(a);
  const file = await door(a.page, 'exportText');
  const tables = await everything(a);
  assert.equal(Object.keys(tables).length, 9);

  assert.deepEqual(await door(b.page, 'importText', file), { put: 9, there: 0 });
  assert.deepEqual(await everything(b), tables);
  assert.deepEqual(await door(b.page, 'importText', file), { put: 0, there: 9 }, 'twice changes nothing');

  await door(c.page, 'save', [{ table: 'bikes', put: BIKE }]);
  await door(c.page, 'startSharing', 'Other', 'Cy');
  await door(c.page, 'importText', file);
  await until(c.page, (now) => agreed(now) && now.bikes.length === 2);
  const both = await everything(c);
  for (const [table, list] of Object.entries(tables)) {
    for (const one of /** @type {any[]} */ (list))
      assert.deepEqual(
        both[table].find((/** @type {any} */ other) => other.record_id === one.record_id),
        one,
      );
  }
  // What the server gives out is taken in as well.
  const { id } = await garage(c.page);
  const d = await phone(t, at);
  await joinBy(c, d);
  await until(d.page, (now) => agreed(now) && now.bikes.length === 2);
  const given = await d.page.evaluate(async (garageId) => {
    const db = await new Promise((done) => {
      const asked = indexedDB.open('tautspan');
      asked.onsuccess = () => done(asked.result);
    });
    const all = await new Promise((done) => {
      const asked = /** @type {any} */ (db).transaction('garages').objectStore('garages').getAll();
      asked.onsuccess = () => done(asked.result);
    });
    /** @type {any} */ (db).close();
    const { token } = /** @type {any[]} */ (all).find((one) => one.id === garageId);
    const headers = { Authorization: `Bearer ${token}` };
    return (await fetch(`/api/v1/garages/${garageId}/export.json`, { headers })).text();
  }, id);
  const e = await phone(t, at);
  assert.deepEqual(await door(e.page, 'importText', given), { put: 10, there: 0 });
  assert.deepEqual(await everything(e), both);
});

test('what is there is never changed by a file, and what was removed comes back', async (t) => {
  const a = await phone(t, await server(t));
  const [kept, removed] = await door(a.page, 'save', [
    { table: 'bikes', put: { name: 'old', drive: 'hub' } },
    { table: 'bikes', put: { name: 'removed', drive: 'hub', tag: 'x' } },
  ]);
  const file = await door(a.page, 'exportText');
  await door(a.page, 'save', [
    { table: 'bikes', record_id: kept, put: { name: 'newer' } },
    { table: 'bikes', record_id: removed, remove: true },
  ]);
  assert.deepEqual(await door(a.page, 'importText', file), { put: 1, there: 1 });
  assert.deepEqual(
    (await garage(a.page)).bikes.map(({ fields }) => fields.name),
    ['newer', 'removed'],
  );
});

test('a file that is not a garage is refused with the reason, and nothing of it is taken', async (t) => {
  const a = await phone(t, await server(t));
  const good = { record_id: '11111111-1111-4111-8111-111111111111', fields: { name: 'a', drive: 'hub' } };
  const file = (/** @type {any} */ tables) => JSON.stringify({ format: 'tautspan-garage-1', tables });
  for (const [text, code] of [
    ['', 'wrong_type'],
    ['{"format":', 'invalid_json'],
    ['[]', 'wrong_type'],
    ['{}}', 'invalid_json'],
    ['{"format":"other"}', 'not_allowed'],
    [file({ wheels: [] }), 'unknown_name'],
    [file({ bikes: [good, { ...good, fields: { name: 7, drive: 'hub' } }] }), 'wrong_type'],
    [file({ bikes: [good, { record_id: 'x', fields: {} }] }), 'unreadable'],
  ]) {
    const { fault } = await door(a.page, 'importText', text);
    assert.equal(fault?.code, code, text);
  }
  assert.equal((await garage(a.page)).bikes.length, 0);
  assert.deepEqual(await door(a.page, 'importText', file({ bikes: [good, good] })), { put: 1, there: 1 });
});
