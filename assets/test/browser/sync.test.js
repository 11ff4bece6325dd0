import assert from 'node:assert/strict';
import { test } from 'node:test';
import { door, garage, until } from './harness/doors.js';
import { BIKE, agreed, everything, joinBy, phone, same, server } from './harness/shared.js';

test('both offline, both edit, both return, both agree', async (t) => {
  const at = await server(t);
  const [a, b] = [await phone(t, at), await phone(t, at)];
  const [bike] = await door(a.page, 'save', [{ table: 'bikes', put: BIKE }]);
  await door(a.page, 'startSharing', 'Club', 'Ada');
  await until(a.page, agreed);
  const told = await joinBy(a, b);
  assert.deepEqual([told.name, told.role, told.own], ['Club', 'leader', []]);
  await until(b.page, ({ bikes }) => bikes.length === 1);

  await a.offline(true);
  await b.offline(true);
  await door(a.page, 'save', [{ table: 'bikes', record_id: bike, put: { name: 'from A', tag: 'A' } }]);
  await door(b.page, 'save', [{ table: 'bikes', record_id: bike, put: { name: 'from B', set: 'B' } }]);
  await door(b.page, 'save', [{ table: 'bikes', put: { name: 'new from B', drive: 'single' } }]);
  assert.equal((await garage(b.page)).sync.unsent, 2);
  await a.page.reload();
  assert.equal((await until(a.page, ({ bikes }) => bikes.length === 1)).bikes[0].fields.name, 'from A');
  await b.offline(false);
  await until(b.page, agreed);
  await a.offline(false);
  for (const one of [a, b]) {
    await until(
      one.page,
      (now) =>
        agreed(now) && now.bikes.length === 2 && now.bikes[0].fields.set === 'B' && now.bikes[0].fields.tag === 'A',
    );
  }
  assert.equal((await garage(a.page)).bikes[0].fields.name, 'from B', 'the later write wins');
  await same(a, b);
});

test('another phone sees a check by an event, soon', async (t) => {
  const at = await server(t);
  const [a, b] = [await phone(t, at), await phone(t, at)];
  const [bike] = await door(a.page, 'save', [{ table: 'bikes', put: BIKE }]);
  await door(a.page, 'startSharing', 'Club', 'Ada');
  const put = { name: 'Saturday', started_at: '2026-03-01T08:00:00Z' };
  const [round] = await door(a.page, 'save', [{ table: 'rounds', put }]);
  await joinBy(a, b, 'checker');
  await until(b.page, ({ rounds }) => rounds.length === 1);
  const took = [];
  for (const [i, state] of ['held', 'cleared', 'held', 'cleared', 'held'].entries()) {
    await door(b.page, 'save', [
      {
        table: 'round_checks',
        put: { round_id: round, bike_id: bike, at: `2026-03-01T08:0${i}:00Z`, state, reason: 'r' },
      },
    ]);
    const saved = Date.now();
    await until(a.page, ({ bikes }) => bikes[0].round?.state === state);
    took.push(Date.now() - saved);
  }
  t.diagnostic(`seen on the other phone after ${took.join(', ')} ms`);
});

test('a phone that joins keeps what it had, apart or brought in', async (t) => {
  const at = await server(t);
  const [a, b] = [await phone(t, at), await phone(t, at)];
  await door(a.page, 'save', [{ table: 'bikes', put: BIKE }]);
  await door(a.page, 'startSharing', 'Club', 'Ada');
  const [mine] = await door(b.page, 'save', [{ table: 'bikes', put: { name: 'Mine', drive: 'single' } }]);
  await door(b.page, 'save', [{ table: 'bikes', put: { name: 'Gone', drive: 'single' } }]).then(([id]) =>
    door(b.page, 'save', [{ table: 'bikes', record_id: id, remove: true }]),
  );
  const { own } = await joinBy(a, b);
  assert.equal(own.length, 1);
  assert.equal(own[0].bikes, 1);
  const names = (/** @type {any} */ state) => state.bikes.map((/** @type {any} */ one) => one.fields.name);
  assert.deepEqual(names(await until(b.page, ({ bikes }) => bikes.length === 1)), ['Loaner 1']);
  await door(b.page, 'openGarage', own[0].key);
  assert.deepEqual(names(await garage(b.page)), ['Mine']);
  await door(b.page, 'openGarage', (await garage(b.page)).others[0].key);
  assert.equal(await door(b.page, 'bringIn', own[0].key), 1);
  assert.deepEqual(names(await until(b.page, (now) => agreed(now) && now.bikes.length === 2)), ['Loaner 1', 'Mine']);
  assert.deepEqual((await garage(b.page)).others, []);
  const seen = await until(a.page, ({ bikes }) => bikes.length === 2);
  assert.equal(seen.bikes[1].bike_id, mine);
});

test('a revoked phone keeps its unsent work, gives it out, and brings it back when it joins again', async (t) => {
  const at = await server(t);
  const [a, b] = [await phone(t, at), await phone(t, at)];
  await door(a.page, 'startSharing', 'Club', 'Ada');
  await joinBy(a, b);
  await b.offline(true);
  await door(b.page, 'save', [{ table: 'bikes', put: { name: 'Unsent', drive: 'hub' } }]);
  const { device_id } = await garage(b.page);
  await door(a.page, 'revoke', device_id);
  assert.ok((await door(a.page, 'devices')).find((/** @type {any} */ one) => one.device_id === device_id).revoked_at);
  await b.offline(false);
  const state = await until(b.page, ({ sync }) => sync.state === 'revoked');
  assert.equal(state.sync.unsent, 1);
  assert.equal((await everything(b)).bikes[0].fields.name, 'Unsent');
  await door(b.page, 'save', [{ table: 'bikes', put: { name: 'Later', drive: 'hub' } }]);
  await b.page.reload();
  await until(b.page, ({ bikes, sync }) => bikes.length === 2 && sync.state === 'revoked');
  assert.equal((await garage(a.page)).bikes.length, 0);
  await joinBy(a, b);
  await until(b.page, agreed);
  await until(a.page, ({ bikes }) => bikes.length === 2);
});

test('a phone that leaves keeps all of it as its own, and may share it anew', async (t) => {
  const at = await server(t);
  const [a, b] = [await phone(t, at), await phone(t, at)];
  await door(a.page, 'save', [{ table: 'bikes', put: BIKE }]);
  await door(a.page, 'startSharing', 'Club', 'Ada');
  await joinBy(a, b, 'viewer');
  await until(b.page, ({ bikes }) => bikes.length === 1);
  assert.equal((await door(b.page, 'save', [{ table: 'bikes', put: BIKE }])).fault.code, 'denied');
  await door(b.page, 'leave');
  const left = await garage(b.page);
  assert.deepEqual([left.sync.state, left.id, left.role, left.bikes.length], ['local', '', 'owner', 1]);
  await door(b.page, 'save', [{ table: 'bikes', record_id: left.bikes[0].bike_id, put: { name: 'Mine now' } }]);
  await door(b.page, 'startSharing', 'Own', 'Ben');
  await until(b.page, agreed);
  assert.equal((await garage(a.page)).bikes[0].fields.name, 'Loaner 1');
  await door(a.page, 'deleteGarage');
  assert.deepEqual([(await garage(a.page)).id, (await garage(a.page)).bikes], ['', []]);
  const c = await phone(t, at);
  await joinBy(b, c);
  assert.equal((await until(c.page, ({ bikes }) => bikes.length === 1)).bikes[0].fields.name, 'Mine now');
});

test('a garage deleted on the server stays on the other phones', async (t) => {
  const at = await server(t);
  const [a, b] = [await phone(t, at), await phone(t, at)];
  await door(a.page, 'save', [{ table: 'bikes', put: BIKE }]);
  await door(a.page, 'startSharing', 'Club', 'Ada');
  await until(a.page, agreed);
  await joinBy(a, b);
  await until(b.page, ({ bikes }) => bikes.length === 1);
  await door(a.page, 'deleteGarage');
  await until(b.page, ({ sync }) => ['revoked', 'gone'].includes(sync.state));
  assert.equal((await everything(b)).bikes.length, 1);
});
