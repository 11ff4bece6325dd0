import assert from 'node:assert/strict';
import { test } from 'node:test';
import { door, garage, until } from './harness/doors.js';
import { becomes } from './harness/patience.js';
import { goTo } from './harness/phone.js';
import { BIKE, agreed, everything, joinBy, phone, same, server } from './harness/shared.js';

/** @param {any} t two phones that share a garage */
async function two(t) {
  const at = await server(t);
  const [a, b] = [await phone(t, at), await phone(t, at)];
  await door(a.page, 'startSharing', 'Club', 'Ada');
  await joinBy(a, b);
  await until(a.page, agreed);
  return { at, a, b };
}

/** @param {number} n @param {string} [name] */
const bikes = (n, name = 'bike') =>
  Array.from({ length: n }, (_, i) => ({ table: 'bikes', put: { name: `${name} ${i}`, drive: 'hub' } }));

test('the server is killed in the middle of pushes: nothing is lost, and nothing is there twice', async (t) => {
  const { at, a, b } = await two(t);
  for (let round = 0; round < 5; round++) {
    await a.offline(true);
    await door(a.page, 'save', bikes(150, `round ${round}`));
    const pushed = a.page.waitForRequest(/\/sync$/);
    await a.offline(false);
    await pushed;
    await at.kill();
    await at.start();
    await door(a.page, 'syncNow');
  }
  await until(a.page, agreed);
  await door(b.page, 'syncNow');
  await until(b.page, (now) => agreed(now) && now.bikes.length === 750);
  await same(a, b);
});

test('a reload between write and send, and an answer that is lost on the way', async (t) => {
  const { a, b } = await two(t);
  await a.page.route('**/sync', () => {}); // never answered
  await door(a.page, 'save', bikes(1, 'held back'));
  await a.page.reload();
  assert.equal((await until(a.page, ({ bikes: all }) => all.length === 1)).sync.unsent, 1);
  await a.page.unroute('**/sync');
  await a.page.reload();
  await until(a.page, agreed);

  await a.page.route('**/sync', async (route) => {
    await route.fetch();
    await route.abort().catch(() => {}); // the server has it, the phone does not know; gone with the route at the end
  });
  await door(a.page, 'save', bikes(1, 'answer lost'));
  await until(b.page, ({ bikes: all }) => all.length === 2);
  assert.equal((await garage(a.page)).sync.unsent, 1);
  await a.page.unroute('**/sync');
  await door(a.page, 'syncNow');
  await until(a.page, agreed);
  await same(a, b);
});

test('two tabs of one phone write and sync, and do not fight', async (t) => {
  const { a, b } = await two(t);
  const tab = await a.context.newPage();
  await goTo(tab, '/');
  const [first] = await door(a.page, 'save', [{ table: 'bikes', put: BIKE }]);
  await until(tab, ({ bikes: all }) => all.length === 1);
  const saves = bikes(20).map((one, i) => door([a.page, tab][i % 2], 'save', [one]));
  const renames = Array.from({ length: 10 }, (_, i) =>
    door([tab, a.page][i % 2], 'save', [{ table: 'bikes', record_id: first, put: { note: `note ${i}` } }]),
  );
  for (const done of await Promise.all([...saves, ...renames])) assert.ok(Array.isArray(done), JSON.stringify(done));
  for (const page of [a.page, tab]) await until(page, (now) => agreed(now) && now.bikes.length === 21);
  await until(b.page, (now) => agreed(now) && now.bikes.length === 21);
  await same(a, b);
  await a.page.close(); // the tab that is left goes on listening
  await door(b.page, 'save', [{ table: 'bikes', record_id: first, put: { name: 'from B' } }]);
  await until(tab, ({ bikes: all }) => all.some(({ fields }) => fields.name === 'from B'));
});

test('an emptied phone is whole again after one pull from the beginning', async (t) => {
  const { a } = await two(t);
  await door(a.page, 'save', bikes(30));
  await until(a.page, agreed);
  const before = await everything(a);
  await a.page.goto('/healthz'); // the same phone, and the app is not running
  await a.page.evaluate(
    () =>
      new Promise((done, fail) => {
        const asked = indexedDB.open('tautspan');
        asked.onerror = fail;
        asked.onsuccess = () => {
          const tx = asked.result.transaction(['rows', 'summaries', 'garages'], 'readwrite');
          tx.objectStore('rows').clear();
          tx.objectStore('summaries').clear();
          tx.objectStore('garages').openCursor().onsuccess = ({ target }) => {
            const cursor = /** @type {IDBRequest<IDBCursorWithValue>} */ (target).result;
            cursor?.update({ ...cursor.value, cursor: '' });
          };
          tx.oncomplete = () => done(asked.result.close());
        };
      }),
  );
  await goTo(a.page, '/');
  await until(a.page, (now) => agreed(now) && now.bikes.length === 30);
  await becomes(() => everything(a), before);
});

test('a clock a week ahead is shown as the reason, and what was written goes through once it is right', async (t) => {
  const { a, b } = await two(t);
  const [bike] = await door(a.page, 'save', [{ table: 'bikes', put: BIKE }]);
  await until(b.page, ({ bikes: all }) => all.length === 1);
  await a.page.clock.setSystemTime(Date.now() + 7 * 24 * 3600 * 1000);
  await door(a.page, 'save', [{ table: 'bikes', record_id: bike, put: { name: 'ahead', tag: 'x' } }]);
  await door(a.page, 'save', [{ table: 'bikes', put: { name: 'also ahead', drive: 'hub' } }]);
  const { sync, bikes: shown } = await until(a.page, (now) => now.sync.rejected.length === 2);
  assert.deepEqual([sync.rejected[0].code, sync.rejected[0].waits, sync.unsent], ['clock_ahead', true, 2]);
  assert.equal(shown.length, 2, 'it stays on the phone');
  await door(b.page, 'save', [{ table: 'bikes', record_id: bike, put: { name: 'meanwhile' } }]);
  await a.page.clock.setSystemTime(Date.now());
  await door(a.page, 'syncNow');
  await until(a.page, (now) => agreed(now) && now.sync.rejected.length === 0);
  await until(b.page, (now) => now.bikes.length === 2 && now.bikes.some(({ fields }) => fields.tag === 'x'));
  await door(a.page, 'save', [{ table: 'bikes', record_id: bike, put: { name: 'right again' } }]);
  await until(b.page, (now) => now.bikes.some(({ fields }) => fields.name === 'right again'));
  await until(a.page, agreed);
  await same(a, b);
});

test('what the server refuses for good is undone, kept, and shown with its reason', async (t) => {
  const at = await server(t);
  const [a, b] = [await phone(t, at), await phone(t, at)];
  const [bike] = await door(a.page, 'save', [{ table: 'bikes', put: BIKE }]);
  const put = { bike_id: bike, at: '2026-03-01T08:00:00Z', odometer_km: 100 };
  const [distance] = await door(a.page, 'save', [{ table: 'distances', put }]);
  await door(a.page, 'startSharing', 'Club', 'Ada');
  await joinBy(a, b, 'checker');
  await until(b.page, (now) => now.bikes[0]?.km === 100);
  // A checker changes what another phone added: only the server knows whose it is.
  await door(b.page, 'save', [{ table: 'distances', record_id: distance, put: { odometer_km: 900 } }]);
  const { sync } = await until(b.page, (now) => now.sync.rejected.length === 1 && now.bikes[0].km === 100);
  assert.deepEqual([sync.rejected[0].code, sync.rejected[0].waits, sync.unsent], ['denied', false, 0]);
  assert.match(sync.rejected[0].message, /only what the same device added/);
  assert.match(await door(b.page, 'exportText'), /900/);
  await b.page.reload();
  await until(b.page, (now) => agreed(now) && now.sync.rejected.length === 1);
  await door(b.page, 'dismiss', sync.rejected[0].op_id);
  assert.equal((await garage(b.page)).sync.rejected.length, 0);
});

test('a large garage is shared although the page is closed in between, with what is changed meanwhile', async (t) => {
  const at = await server(t);
  const [a, b] = [await phone(t, at), await phone(t, at)];
  const ids = await door(a.page, 'save', bikes(250));
  const [first, second] = [ids[248], ids[249]];
  await door(a.page, 'startSharing', 'Club', 'Ada');
  const changed = await door(a.page, 'save', [
    { table: 'bikes', record_id: first, put: { name: 'renamed', tag: 'x' } },
    { table: 'bikes', record_id: second, remove: true },
  ]);
  assert.equal(changed.length, 2, JSON.stringify(changed));
  await a.page.reload();
  await until(a.page, (now) => agreed(now) && now.bikes.length === 249);
  await joinBy(a, b);
  const { bikes: all } = await until(b.page, (now) => agreed(now) && now.bikes.length === 249);
  assert.deepEqual(all.find(({ bike_id }) => bike_id === first)?.fields, { name: 'renamed', drive: 'hub', tag: 'x' });
  await same(a, b);
});
