import assert from 'node:assert/strict';
import { test } from 'node:test';
import { readFileSync } from 'node:fs';
import { assertAccessible, assertFits, assertRoomy, atEnd } from './harness/look.js';
import { until } from './harness/patience.js';
import { goTo, newPhone, openAndKeep, type } from './harness/phone.js';
import { startServer } from './harness/server.js';

/** @typedef {import('playwright-core').Page} Page */

const ROUTER = readFileSync(new URL('../../src/app/router.js', import.meta.url), 'utf8');

/** Every place of the router's table. */
const PLACES = [...ROUTER.matchAll(/^ {2}(\w+): \{ title/gm)].map(([, name]) => name);

/** @param {Page} page */
async function made(page) {
  await page.getByText('Nothing here is real.').waitFor();
}

/** @param {Page} page @returns {Promise<Record<string, number>>} how many entries the phone keeps, by garage */
function entries(page) {
  return page.evaluate(async () => {
    /** @type {IDBDatabase} */
    const db = await new Promise((done, fail) => {
      const asked = indexedDB.open('tautspan');
      asked.onsuccess = () => done(asked.result);
      asked.onerror = fail;
    });
    /** @type {Record<string, number>} */
    const count = {};
    for (const store of ['rows', 'summaries', 'unsent', 'garages']) {
      /** @type {any[]} */
      const all = await new Promise((done) => {
        const asked = db.transaction(store).objectStore(store).getAll();
        asked.onsuccess = () => done(asked.result);
      });
      for (const { garage, key } of all) count[garage ?? key] = (count[garage ?? key] ?? 0) + 1;
    }
    db.close();
    return count;
  });
}

/** @param {Page} page @returns {Promise<Record<string, number>>} entries, once the demo's are cleared away behind the screen */
async function withoutDemo(page) {
  await page.getByRole('complementary', { name: 'Invented demo' }).waitFor({ state: 'detached' });
  return until(
    () => entries(page),
    ({ demo }) => demo === undefined,
  );
}

test('one tap in and one tap out, offline; what is real stays as it was and is never mixed', async (t) => {
  const server = await startServer(t);
  const { page, tap, touches, offline } = await newPhone(t, server.origin);
  await openAndKeep(page, '/#/add');
  await server.stop();
  await offline(true);
  await type(page, 'What do you call it?', 'My real bike');
  await tap('Add it');
  await page.getByText('My real bike').first().waitFor();
  const before = await entries(page);
  await goTo(page, '/#/kit');
  const first = touches();
  await tap('Look round with invented bikes');
  await made(page);
  assert.equal(touches() - first, 1, 'one touch in');
  await page.getByText('Sunday road bike').waitFor();
  assert.equal(await page.getByText('My real bike').count(), 0);
  // A bike that is held is not said to be ridden, though its chain is fit.
  await page.locator('.bike-line', { hasText: 'Tiller' }).getByText('Chain fit, bike held').waitFor();
  const inside = await entries(page);
  assert.equal(inside.own, before.own, 'nothing invented is in the real garage');
  assert.ok(inside.demo > 1500, `${inside.demo} entries`);
  await page.reload();
  await page.getByText('Sunday road bike').waitFor();
  const second = touches();
  await tap('Leave demo');
  await page.getByText('My real bike').first().waitFor();
  assert.equal(touches() - second, 1, 'one touch out');
  assert.deepEqual(await withoutDemo(page), before, 'nothing of the demo is left, nothing of the rider’s is gone');
});

test('every place is marked as invented while the demo is on', async (t) => {
  const server = await startServer(t);
  const { page, tap } = await newPhone(t, server.origin);
  await goTo(page, '/#/bikes');
  await tap('Look round with invented bikes');
  await made(page);
  assert.ok(PLACES.length >= 6);
  for (const place of PLACES) {
    await goTo(page, `/#/${place}`);
    await page.getByRole('complementary', { name: 'Invented demo' }).waitFor();
  }
  await goTo(page, '/#/bikes');
  await page.getByText('Sunday road bike').waitFor();
  await atEnd(page);
  await assertAccessible(page, 'Bikes, demo');
  await assertFits(page, 'Bikes, demo');
  await goTo(page, '/#/kit');
  await page.getByRole('heading', { name: 'Kit' }).waitFor();
  await atEnd(page);
  await assertRoomy(page, 'Kit, demo');
});

test('closed while it is being made, the demo can still be left', async (t) => {
  const server = await startServer(t);
  const { page, tap } = await newPhone(t, server.origin);
  await goTo(page, '/#/bikes');
  const making = page.getByText(/Making it up/).waitFor();
  await tap('Look round with invented bikes');
  await making;
  await page.reload();
  await page.getByText('Nothing here is real.').waitFor();
  await tap('Leave demo');
  await page.getByText('No bike yet').waitFor();
  await withoutDemo(page);
});

test('left in another tab while it is being made, it ends and writes into no other garage', async (t) => {
  const server = await startServer(t);
  const phone = await newPhone(t, server.origin);
  await goTo(phone.page, '/#/bikes');
  await phone.tap('Look round with invented bikes');
  await phone.page.getByRole('button', { name: 'Leave demo' }).waitFor();
  const other = await phone.context.newPage();
  await goTo(other, '/#/check');
  await other.getByRole('button', { name: 'Leave demo' }).tap();
  await other.getByRole('complementary', { name: 'Invented demo' }).waitFor({ state: 'detached' });
  await phone.page.getByText('No bike yet').waitFor();
  await phone.page.waitForFunction(() => !document.body.textContent?.includes('Making it up'));
  const left = await withoutDemo(phone.page);
  assert.equal(left.own, 1, 'the garage’s own line and nothing else');
});
