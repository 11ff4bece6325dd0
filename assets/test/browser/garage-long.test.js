import assert from 'node:assert/strict';
import { test } from 'node:test';
import { door, garage, until } from './harness/doors.js';
import { goTo } from './harness/phone.js';
import { agreed, joinBy, phone, same, server } from './harness/shared.js';

const BIKES = 60;

/** Records of each bike: itself, its chain, and these distances. */
const DISTANCES = 18;

const ALL = BIKES * (DISTANCES + 2);

/** @param {number} n @returns {string} */
const id = (n) => `${n.toString(16).padStart(8, '0')}-0000-4000-8000-000000000000`;

/** @param {string} [wrong] put in the place of a distance far behind @returns {string} a garage's file of more than two answers of a server */
function file(wrong) {
  const bikes = Array.from({ length: BIKES }, (_, i) => ({
    record_id: id(i),
    fields: { name: `Bike ${i}`, drive: 'hub' },
  }));
  const chains = bikes.map(({ record_id }, i) => ({
    record_id: id(1000 + i),
    fields: { bike_id: record_id, fitted_at_km: 0 },
  }));
  const distances = Array.from({ length: BIKES * DISTANCES }, (_, i) => ({
    record_id: id(10_000 + i),
    fields: { bike_id: id(i % BIKES), at: new Date(Date.UTC(2026, 0, 1, i)).toISOString(), add_km: 10.5 },
  }));
  const text = JSON.stringify(
    { format: 'tautspan-garage-1', name: 'Long', tables: { bikes, chains, distances } },
    null,
    1,
  );
  return wrong ? text.replace(/(?<="add_km": )10\.5(?=\s*\}\s*\}\s*\]\s*\}\s*\}$)/, wrong) : text;
}

test('a long garage comes to a new phone whole, though both change it meanwhile', async (t) => {
  const at = await server(t);
  const [a, b] = [await phone(t, at), await phone(t, at)];
  assert.deepEqual(await door(a.page, 'importText', file()), { put: ALL, there: 0 });
  // Records of the first answer are changed by operations in the last one.
  await door(a.page, 'startSharing', 'Club', 'Ada');
  await until(a.page, agreed);
  await door(a.page, 'save', [{ table: 'bikes', record_id: id(3), put: { name: 'Late', tag: 'L' } }]);
  await door(a.page, 'save', [{ table: 'bikes', record_id: id(4), remove: true }]);
  await until(a.page, agreed);
  /** @type {() => void} */
  let answer = () => {};
  const held = new Promise((done) => (answer = () => done(undefined)));
  await b.page.route('**/sync', (route) => held.then(() => route.continue()));
  await joinBy(a, b);
  await goTo(b.page, '/#/bikes');
  await b.page.getByText('The bikes are on their way to this phone.').waitFor();
  answer();
  for (let i = 0; i < 5; i++) {
    await door(b.page, 'save', [{ table: 'instruments', put: { name: `Rule ${i}`, kind: 'rule' } }]);
    await door(a.page, 'save', [{ table: 'bikes', record_id: id(5), put: { note: `note ${i}` } }]);
  }
  await until(b.page, (now) => agreed(now) && now.bikes.length === BIKES - 1);
  await until(a.page, (now) => agreed(now) && now.instruments.length === 5);
  await until(b.page, (now) => agreed(now) && now.bikes.some(({ fields }) => fields.note === 'note 4'));
  await same(a, b);
  // computed: every bike has 18 rides of 10.5 km
  const { bikes } = await until(b.page, (now) => now.bikes.every(({ km }) => km === 189));
  assert.deepEqual(bikes.find(({ bike_id }) => bike_id === id(3))?.fields, { name: 'Late', drive: 'hub', tag: 'L' });
});

test('many bikes saved at once are many together for the engine and the database', async (t) => {
  const { page } = await phone(t, await server(t));
  await page.evaluate(() => {
    const counts = /** @type {any} */ (globalThis);
    [counts.asked, counts.written] = [0, 0];
    const { postMessage } = Worker.prototype;
    Worker.prototype.postMessage = function (/** @type {any} */ ...all) {
      counts.asked++;
      return /** @type {any} */ (postMessage).apply(this, all);
    };
    const { transaction } = IDBDatabase.prototype;
    IDBDatabase.prototype.transaction = function (names, mode, options) {
      if (mode === 'readwrite') counts.written++;
      return transaction.call(this, names, mode, options);
    };
  });
  await door(
    page,
    'save',
    Array.from({ length: 100 }, (_, i) => ({ table: 'bikes', put: { name: `Bike ${i}`, drive: 'hub' } })),
  );
  assert.equal((await garage(page)).bikes.length, 100);
  const { asked, written } = await page.evaluate(() => {
    const counts = /** @type {any} */ (globalThis);
    return { asked: counts.asked, written: counts.written };
  });
  assert.ok(asked <= 20 && written <= 20, `${asked} questions to the engine, ${written} writes`);
});

test('a file that is brought in is stopped, and brings in the rest when it is chosen again', async (t) => {
  const { page } = await phone(t, await server(t));
  const part = await page.evaluate(async (text) => {
    const { doors } = /** @type {any} */ (globalThis);
    const stop = new AbortController();
    /** @type {[step: string, done: number, of: number][]} */
    const told = [];
    const progress = (/** @type {string} */ step, /** @type {number} */ done, /** @type {number} */ of) => {
      told.push([step, done, of]);
      if (step === 'take' && done >= 500) stop.abort();
    };
    return { ...(await doors.importFile(new Blob([text]), { progress, signal: stop.signal })), told };
  }, file());
  assert.equal(part.put >= 500 && part.put < ALL, true, String(part.put));
  assert.deepEqual(part.told.at(-1), ['take', part.put, ALL]);
  assert.ok(part.told.some((/** @type {[string, number, number]} */ [step, done]) => step === 'look' && done === 100));
  assert.deepEqual(await door(page, 'importText', file()), { put: ALL - part.put, there: part.put });
  assert.deepEqual(await door(page, 'importText', file()), { put: 0, there: ALL });
  await page.reload();
  await until(page, ({ bikes }) => bikes.length === BIKES && bikes.every(({ km }) => km === 189));
});

test('one wrong record far behind refuses the whole file, and is named by its place', async (t) => {
  const { page } = await phone(t, await server(t));
  const { fault } = await door(page, 'importText', file('-1'));
  assert.equal(fault.field, `file.tables.distances[${BIKES * DISTANCES - 1}].fields.add_km`);
  assert.equal((await garage(page)).bikes.length, 0);
  const cut = file().slice(0, -20);
  assert.equal((await door(page, 'importText', cut)).fault.code, 'invalid_json');
  const twice = file().replace('"name": "Bike 59"', '"name": "Bike 59", "name": "Bike 60"');
  assert.ok((await door(page, 'importText', twice)).fault, 'a name that stands there twice');
  assert.equal((await garage(page)).bikes.length, 0);
});
