import assert from 'node:assert/strict';
import { test } from 'node:test';
import { Bridge, EngineCrash, EngineFault } from './bridge.js';

/**
 * The other end of the line: it keeps what it was sent and says what the test
 * has it say. The real worker is under test in test/browser/engine.test.js.
 */
class End {
  /** @type {any[]} */
  sent = [];
  ended = false;
  /** @type {((event: any) => void)|null} */
  onmessage = null;
  /** @type {((event: any) => void)|null} */
  onerror = null;
  /** @param {any} message */
  postMessage(message) {
    this.sent.push(message);
  }
  terminate() {
    this.ended = true;
  }
  /** @param {any} data */
  say(data) {
    this.onmessage?.({ data });
  }
}

/** @param {{load?: () => Promise<any>, patienceMS?: number}} [options] */
function start({ load = async () => 'module', patienceMS } = {}) {
  /** @type {End[]} */
  const ends = [];
  const makePort = () => {
    ends.push(new End());
    return ends[ends.length - 1];
  };
  const bridge = new Bridge(makePort, load, patienceMS);
  bridge.start();
  return { bridge, ends, last: () => ends[ends.length - 1] };
}

const turn = () => new Promise((next) => setImmediate(next));

test('nothing is begun before it is started, and a start begins one engine', async () => {
  /** @type {End[]} */
  const ends = [];
  const makePort = () => ends[ends.push(new End()) - 1];
  const bridge = new Bridge(makePort, async () => 'module');
  const answer = bridge.call('wear', {});
  assert.equal(ends.length, 0);
  bridge.start();
  bridge.start();
  assert.equal(ends.length, 1);
  ends[0].say({ ready: true });
  ends[0].say({ id: ends[0].sent[0].id, json: '{"one":1}' });
  assert.deepEqual(await answer, { one: 1 });
});

test('calls wait for the engine and go one at a time, in order', async () => {
  const { bridge, last } = start();
  const answers = [bridge.call('wear', { a: 1 }), bridge.call('wear', { a: 2 })];
  await turn();
  assert.deepEqual(last().sent, [{ module: 'module' }]);
  last().say({ ready: true });
  assert.equal(last().sent.length, 2);
  last().say({ id: last().sent[1].id, json: '{"one":1}' });
  assert.deepEqual(last().sent[2], { id: last().sent[2].id, name: 'wear', json: '{"a":2}' });
  last().say({ id: last().sent[2].id, json: '{"two":2}' });
  assert.deepEqual(await Promise.all(answers), [{ one: 1 }, { two: 2 }]);
});

test('a refusal keeps code, field and message', async () => {
  const { bridge, last } = start();
  last().say({ ready: true });
  const refused = bridge.call('wear', {});
  const fault = { code: 'required', field: 'drive', message: 'drive is missing' };
  last().say({ id: last().sent[0].id, json: JSON.stringify({ error: fault }) });
  await assert.rejects(refused, (error) => error instanceof EngineFault && error.message === fault.message);
  await refused.catch(({ fault: got }) => assert.deepEqual(got, fault));
});

test('an abort rejects at once; waiting calls are never sent, the running one is not waited for', async () => {
  const { bridge, last } = start();
  await turn();
  last().say({ ready: true });
  const [running, waiting] = [new AbortController(), new AbortController()];
  const calls = [
    bridge.call('wear', { n: 1 }, { signal: running.signal }),
    bridge.call('wear', { n: 2 }, { signal: waiting.signal }),
    bridge.call('wear', { n: 3 }),
  ];
  running.abort();
  waiting.abort();
  await assert.rejects(calls[0], { name: 'AbortError' });
  await assert.rejects(calls[1], { name: 'AbortError' });
  await assert.rejects(bridge.call('wear', {}, { signal: waiting.signal }), { name: 'AbortError' });
  last().say({ id: last().sent[1].id, json: '{"late":true}' });
  assert.equal(last().sent.length, 3);
  assert.equal(last().sent[2].json, '{"n":3}');
  last().say({ id: last().sent[2].id, json: '{"n":3}' });
  assert.deepEqual(await calls[2], { n: 3 });
});

test('after a crash the running call fails, the waiting ones go to a new worker', async () => {
  const { bridge, ends, last } = start();
  last().say({ ready: true });
  const calls = [bridge.call('wear', { n: 1 }), bridge.call('wear', { n: 2 })];
  last().say({ crash: 'the engine ended' });
  await assert.rejects(calls[0], EngineCrash);
  assert.equal(ends[0].ended, true);
  assert.equal(bridge.now.state, 'loading');
  ends[0].say({ ready: true }); // an old worker has nothing to say any more
  assert.equal(bridge.now.state, 'loading');
  last().say({ ready: true });
  const sent = last().sent.filter((message) => message.id);
  assert.equal(sent[0].json, '{"n":2}');
  last().say({ id: sent[0].id, json: '{}' });
  assert.deepEqual(await calls[1], {});
});

test('when it keeps crashing it is said, and tried again only when asked', async () => {
  const { bridge, ends, last } = start();
  /** @type {string[]} */
  const told = [];
  bridge.watch(({ state }) => told.push(state));
  const call = bridge.call('wear', {});
  for (let i = 0; i < 3; i++) last().onerror?.({ message: 'no memory' });
  await assert.rejects(call, EngineCrash);
  assert.equal(ends.length, 3);
  assert.deepEqual(bridge.now, { state: 'crashed', why: 'no memory' });
  await assert.rejects(bridge.call('wear', {}), EngineCrash);
  bridge.start();
  last().say({ ready: true });
  assert.equal(told.at(-1), 'ready');
  bridge.start();
  assert.equal(ends.length, 4, 'a running engine is left alone');
});

test('a module that cannot be loaded is a crash', async () => {
  const { bridge } = start({ load: () => Promise.reject(new Error('no signal')) });
  await turn();
  await turn();
  assert.equal(bridge.now.state, 'crashed');
  assert.match(bridge.now.why, /no signal/);
});

test('an engine that does not answer is started again', async () => {
  const { bridge, ends, last } = start({ patienceMS: 5 });
  last().say({ ready: true });
  await assert.rejects(bridge.call('wear', {}), EngineCrash);
  assert.equal(ends.length, 2);
});

test('a large file may take its time, as long as the engine gets on with it', async (t) => {
  t.mock.timers.enable({ apis: ['setTimeout'] });
  const { bridge, ends, last } = start({ patienceMS: 20_000 });
  last().say({ ready: true });
  const ride = bridge.ride(new Blob(['<gpx/>']));
  const [{ id }] = last().sent;
  for (const share of [0.3, 0.6, 0.9]) {
    t.mock.timers.tick(15_000);
    last().say({ id, share });
  }
  assert.equal(ends.length, 1, 'not started again');
  t.mock.timers.tick(20_000);
  await assert.rejects(ride, EngineCrash);
  assert.equal(ends.length, 2, 'it got stuck');
});

test('an unreadable answer fails that call only', async () => {
  const { bridge, last } = start();
  last().say({ ready: true });
  const call = bridge.call('wear', {});
  last().say({ id: last().sent[0].id, json: '{' });
  await assert.rejects(call, EngineCrash);
  assert.equal(bridge.now.state, 'ready');
});

test('a file goes to the worker as it is, in line with the calls', async () => {
  const { bridge, last } = start();
  const file = new Blob(['<gpx/>']);
  /** @type {number[]} */
  const shares = [];
  const answers = [bridge.call('wear', {}), bridge.ride(file, { progress: (share) => shares.push(share) })];
  await turn();
  last().say({ ready: true });
  last().say({ id: last().sent[1].id, json: '{"one":1}' });
  assert.deepEqual(last().sent[2], { id: last().sent[2].id, name: 'ride', file });
  assert.equal(last().sent[2].file, file);
  last().say({ id: last().sent[2].id, share: 0.5 });
  last().say({ id: last().sent[2].id, json: '{"distance_km":2}' });
  assert.deepEqual(shares, [0.5]);
  assert.deepEqual(await Promise.all(answers), [{ one: 1 }, { distance_km: 2 }]);
  await assert.rejects(bridge.ride(file, { signal: AbortSignal.abort() }), { name: 'AbortError' });
});

test('what nobody waits for goes last, and questions about records are marked', async () => {
  const { bridge, last } = start();
  bridge.call('forecast', { n: 1 }, { later: true });
  bridge.call('forecast', { n: 2 }, { later: true });
  bridge.records('merge', { n: 3 });
  bridge.call('wear', { n: 4 });
  await turn();
  last().say({ ready: true });
  for (let i = 1; i <= 4; i++) last().say({ id: last().sent[i].id, json: '{}' });
  const asked = last()
    .sent.slice(1)
    .map(({ name, json, records }) => [name, json, records]);
  assert.deepEqual(asked, [
    ['merge', '{"n":3}', true],
    ['wear', '{"n":4}', undefined],
    ['forecast', '{"n":1}', undefined],
    ['forecast', '{"n":2}', undefined],
  ]);
});
