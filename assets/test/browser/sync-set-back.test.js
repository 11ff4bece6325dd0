import assert from 'node:assert/strict';
import { cp, mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { test } from 'node:test';
import { isDeepStrictEqual } from 'node:util';
import { door, until } from './harness/doors.js';
import { until as look } from './harness/patience.js';
import { BIKE, agreed, everything, joinBy, phone, server } from './harness/shared.js';

/** @typedef {import('./harness/phone.js').Phone} Phone */

/** @param {any} t the owner's phone, a leader's and a checker's, and a folder for backups */
async function club(t) {
  const at = await server(t);
  const [a, b, c] = [await phone(t, at), await phone(t, at), await phone(t, at)];
  const folder = await mkdtemp(join(tmpdir(), 'tautspan-backup-'));
  t.after(() => rm(folder, { recursive: true }));
  const [bike] = await door(a.page, 'save', [{ table: 'bikes', put: BIKE }]);
  const [chain] = await door(a.page, 'save', [{ table: 'chains', put: { bike_id: bike } }]);
  await door(a.page, 'startSharing', 'Club', 'Ada');
  await joinBy(a, b);
  await joinBy(a, c, 'checker');
  for (const one of [a, b, c]) await until(one.page, (now) => agreed(now) && now.bikes.length === 1);
  return { at, a, b, c, bike, chain, folder };
}

/** @param {string} chain @param {string} note */
const cared = (chain, note) => ({
  table: 'care',
  put: { chain_id: chain, at: '2026-03-01T08:00:00Z', did: ['wiped'], note },
});

/** @param {Phone[]} phones @param {(one: any) => unknown} test what each of them must come to know, and nothing else */
async function allKnow(phones, test) {
  const now = async () => {
    for (const { page } of phones) await door(page, 'syncNow');
    for (const { page } of phones) await until(page, agreed);
    return Promise.all(phones.map(everything));
  };
  return look(now, (all) => all.every((one) => test(one) && isDeepStrictEqual(one, all[0])), String(test));
}

/** @param {any} tables @param {string} table @returns {string[]} the names or notes there */
const said = (tables, table) =>
  (tables[table] ?? []).map((/** @type {any} */ { fields }) => fields.note ?? fields.name).sort();

test('a server restored from a backup is told again what it had lost, and a phone that was unknown to it joins again', async (t) => {
  const { at, a, b, c, bike, chain, folder } = await club(t);
  await at.run('backup', '--data', at.data, '--out', join(folder, 'old.db'));

  await door(a.page, 'save', [{ table: 'bikes', record_id: bike, put: { name: 'renamed', tag: '7' } }]);
  const [gone] = await door(b.page, 'save', [{ table: 'bikes', put: { name: 'sold', drive: 'hub' } }]);
  const more = Array.from({ length: 120 }, (_, i) => ({ table: 'bikes', put: { name: `bike ${i}`, drive: 'hub' } }));
  await door(b.page, 'save', more);
  const [care] = await door(c.page, 'save', [cared(chain, 'by the checker')]);
  const late = await phone(t, at);
  await joinBy(a, late, 'checker');
  await door(late.page, 'save', [cared(chain, 'by one who came late')]);
  await door(b.page, 'save', [{ table: 'bikes', record_id: gone, remove: true }]);
  await allKnow([a, c, late], (all) => all.bikes.length === 121 && all.care?.length === 2);
  await late.offline(true);
  await c.offline(true);
  await door(c.page, 'save', [{ table: 'care', record_id: care, put: { note: 'changed with no signal' } }]);
  await b.page.close(); // at the bottom of the canal

  await at.stop();
  for (const end of ['', '-wal', '-shm']) await rm(join(at.data, `tautspan.db${end}`), { force: true });
  await at.run('restore', '--data', at.data, '--from', join(folder, 'old.db'));
  const cut = new Promise((done) => {
    a.page.route('**/sync', async (route) => {
      const response = await route.fetch();
      const { set_back } = await response.json();
      if (set_back) return route.fulfill({ response });
      await route.abort().catch(() => {}); // gone with the route
      done(0);
    });
  });
  await at.start();
  door(a.page, 'syncNow').catch(() => {}); // the page goes meanwhile
  await cut;
  await a.page.unroute('**/sync');
  await a.page.reload(); // in the middle of it
  await allKnow([a], (all) => all.bikes.length === 121);
  await c.offline(false);
  await late.offline(false);
  await door(late.page, 'syncNow');
  await until(late.page, ({ sync }) => sync.state === 'revoked');
  await joinBy(a, late, 'checker');
  const e = await phone(t, at);
  await joinBy(a, e, 'viewer');
  const all = await allKnow([a, c, late, e], (now) => now.bikes.length === 121 && now.care?.length === 2);
  for (const one of all.slice(1)) assert.deepEqual(one, all[0]);
  assert.deepEqual(said(all[0], 'care'), ['by one who came late', 'changed with no signal']);
  assert.ok(said(all[0], 'bikes').includes('renamed') && !said(all[0], 'bikes').includes('sold'));
  for (const { page } of [a, c, late, e]) {
    assert.deepEqual((await until(page, agreed)).sync.rejected, [], 'nothing was refused');
  }
});

test('two leaders tell a database that was put back by hand, at once and about the same readings', async (t) => {
  const { at, a, b, chain, folder } = await club(t);
  await at.stop();
  await cp(join(at.data, 'tautspan.db'), join(folder, 'old.db'));
  await at.start();
  const reading = { kind: 'compare', pitches: 100, growth_mm: 4 };
  const put = { chain_id: chain, at: '2026-03-01T08:00:00Z', at_km: 10, reading };
  const [one] = await door(a.page, 'save', [{ table: 'readings', put }]);
  await door(a.page, 'save', [{ table: 'readings', put: { ...put, at_km: 20 } }]);
  await door(b.page, 'save', [{ table: 'bikes', put: { name: 'another', drive: 'hub' } }]);
  await allKnow([a, b], (all) => all.readings?.length === 2 && all.bikes.length === 2);
  await door(b.page, 'save', [{ table: 'readings', record_id: one, put: { void_reason: 'crooked rule' } }]);
  await allKnow([a, b], (all) => all.readings.some((/** @type {any} */ { fields }) => fields.void_reason));

  await at.stop();
  for (const end of ['-wal', '-shm']) await rm(join(at.data, `tautspan.db${end}`), { force: true });
  await cp(join(folder, 'old.db'), join(at.data, 'tautspan.db'));
  /** @type {((go: unknown) => void)[]} */
  const held = [];
  for (const { page } of [a, b]) {
    await page.route('**/sync', async (route) => {
      // Both hear what the server has before either tells it anything.
      if (route.request().postDataJSON().ops.length)
        await new Promise((go) => held.push(go) === 2 && held.map((f) => f(0)));
      await route.continue();
    });
  }
  await at.start();
  await Promise.all([door(a.page, 'syncNow'), door(b.page, 'syncNow')]);
  for (const { page } of [a, b]) await until(page, (now) => agreed(now) && now.sync.rejected.length === 0);
  assert.equal(held.length >= 2, true);
  for (const { page } of [a, b]) await page.unroute('**/sync');
  const e = await phone(t, at);
  await joinBy(a, e, 'viewer');
  const all = await allKnow([a, b, e], (now) => now.readings?.length === 2 && now.bikes.length === 2);
  for (const other of all.slice(1)) assert.deepEqual(other, all[0]);
  assert.equal(
    all[0].readings.filter((/** @type {any} */ { fields }) => fields.void_reason === 'crooked rule').length,
    1,
  );
});
