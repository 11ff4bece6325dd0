import assert from 'node:assert/strict';
import { test } from 'node:test';
import { door, garage, until } from './harness/doors.js';
import { openAndKeep, newPhone } from './harness/phone.js';
import { BIKE, everything, phone, server } from './harness/shared.js';

test('a phone with the first layout of the database keeps what was in it', async (t) => {
  const at = await server(t);
  const { page } = await newPhone(t, at.origin, { alone: true }); // there is no favicon beside /healthz
  await page.goto('/healthz');
  await page.evaluate(
    () =>
      new Promise((done, fail) => {
        const asked = indexedDB.open('tautspan', 1);
        asked.onerror = fail;
        asked.onupgradeneeded = () => {
          // As the first release made it.
          const records = asked.result.createObjectStore('records', { keyPath: ['table', 'record_id'] });
          records.createIndex('table', 'table');
          asked.result.createObjectStore('unsent', { keyPath: 'op_id' }).createIndex('hlc', 'hlc');
          const answer = { verdict: 'ride', elongation_percent: 0.25, limit_percent: 0.5 };
          const requests = [{ reading: { kind: 'compare', pitches: 100, growth_mm: 3 } }];
          records.put({
            table: 'loose_readings',
            record_id: '11111111-1111-4111-8111-111111111111',
            fields: { at: '2026-03-01T08:00:00Z', requests, counted: 0, answer, note: 'from before' },
          });
        };
        asked.onsuccess = () => done(asked.result.close());
      }),
  );
  await openAndKeep(page, '/#/kept');
  await page.getByText('Compare: 3 mm over 100 pitches').waitFor();
  await door(page, 'save', [{ table: 'bikes', put: BIKE }]);
  await page.reload();
  await page.getByText('Compare: 3 mm over 100 pitches').waitFor();
  await until(page, ({ bikes }) => bikes.length === 1);
});

test('a full phone keeps all of a change or nothing of it, says so, and goes on once there is room', async (t) => {
  const at = await server(t);
  const one = await phone(t, at);
  const devtools = await one.context.newCDPSession(one.page);
  await devtools.send('Storage.overrideQuotaForOrigin', { origin: at.origin, quotaSize: 1 });
  const two = ['A', 'B'].map((name) => ({ table: 'bikes', put: { name, drive: 'hub' } }));
  assert.equal((await door(one.page, 'save', two)).reason, 'full');
  assert.equal((await garage(one.page)).bikes.length, 0);
  await devtools.send('Storage.overrideQuotaForOrigin', { origin: at.origin });
  assert.equal((await door(one.page, 'save', two)).length, 2);
  await one.page.reload();
  await until(one.page, ({ bikes }) => bikes.length === 2);
});

test('a change that breaks off in its midst leaves nothing of itself', async (t) => {
  const one = await phone(t, await server(t));
  const [id] = await door(one.page, 'save', [{ table: 'bikes', put: BIKE }]);
  const kept = () =>
    one.page.evaluate(
      () =>
        new Promise((done, fail) => {
          const asked = indexedDB.open('tautspan');
          asked.onerror = fail;
          asked.onsuccess = () => {
            const all = asked.result.transaction('garages').objectStore('garages').getAll();
            all.onsuccess = () => done(all.result);
          };
        }),
    );
  const before = /** @type {any[]} */ (await kept());
  const [{ key, turn }] = before;
  const broken = { rows: [{ table: 'bikes', record_id: id, row: null }], garage: { cursor: 'further on' } };
  assert.equal((await door(one.page, 'commit', key, turn, broken)).reason, 'lost');
  assert.deepEqual(await kept(), before);
});

test('a record that was damaged on the phone hurts no other, and everything can be given out', async (t) => {
  const one = await phone(t, await server(t));
  const [good, bad] = await door(one.page, 'save', [
    { table: 'bikes', put: { name: 'Good', drive: 'hub' } },
    { table: 'bikes', put: { name: 'Bad', drive: 'hub' } },
  ]);
  await one.page.evaluate(
    (id) =>
      new Promise((done) => {
        const asked = indexedDB.open('tautspan');
        asked.onsuccess = () => {
          const tx = asked.result.transaction(['rows'], 'readwrite');
          const store = tx.objectStore('rows');
          store.get(['own', 'bikes', id]).onsuccess = ({ target }) => {
            const stored = /** @type {IDBRequest} */ (target).result;
            store.put({ ...stored, row: { ...stored.row, stamps: {} } });
          };
          tx.oncomplete = () => done(asked.result.close());
        };
      }),
    bad,
  );
  await one.page.reload();
  assert.ok((await door(one.page, 'openBike', bad)).fault);
  assert.equal((await door(one.page, 'openBike', good)).bike.fields.name, 'Good');
  await door(one.page, 'save', [{ table: 'bikes', record_id: good, put: { name: 'Still good' } }]);
  assert.deepEqual((await everything(one)).bikes.map((/** @type {any} */ bike) => bike.fields.name).sort(), [
    'Bad',
    'Still good',
  ]);
});

test('a tab that comes late with an empty garage leaves what another one has kept', async (t) => {
  const one = await phone(t, await server(t));
  await door(one.page, 'save', [{ table: 'bikes', put: BIKE }]);
  const { key } = await garage(one.page);
  await door(one.page, 'addGarage', { key, name: 'another', turn: 0, clock: '' });
  await door(one.page, 'save', [{ table: 'bikes', put: { name: 'Second', drive: 'hub' } }]);
  const { name, bikes } = await garage(one.page);
  assert.deepEqual([name, bikes.length], ['', 2]);
});

test('a garage that was deleted leaves nothing on the phone', async (t) => {
  const one = await phone(t, await server(t));
  const [bike_id] = await door(one.page, 'save', [{ table: 'bikes', put: BIKE }]);
  await door(one.page, 'save', [{ table: 'chains', put: { bike_id, fitted_at_km: 0, km_before: 0 } }]);
  await until(one.page, ({ bikes }) => bikes[0]?.forecast);
  assert.equal((await counts(one.page)).forecasts, 1);
  await door(one.page, 'deleteGarage');
  assert.deepEqual(
    await counts(one.page),
    Object.fromEntries(['forecasts', 'garages', 'records', 'rows', 'summaries', 'unsent'].map((store) => [store, 0])),
  );
});

/** @param {import('playwright-core').Page} page @returns {Promise<Record<string, number>>} how much is in each store of the database */
function counts(page) {
  return page.evaluate(async () => {
    /** @type {<T>(asked: IDBRequest<T>) => Promise<T>} */
    const answer = (asked) => new Promise((done) => (asked.onsuccess = () => done(asked.result)));
    const db = await answer(indexedDB.open('tautspan'));
    const stores = [...db.objectStoreNames];
    const tx = db.transaction(stores);
    const all = await Promise.all(stores.map(async (name) => [name, await answer(tx.objectStore(name).count())]));
    db.close();
    return Object.fromEntries(all);
  });
}
