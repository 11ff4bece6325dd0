import assert from 'node:assert/strict';
import { test } from 'node:test';
import { askEngine, goTo, newPhone, READING } from './harness/phone.js';
import { startServer } from './harness/server.js';

test('an engine that ends is started again', async (t) => {
  const server = await startServer(t);
  const phone = await newPhone(t, server.origin);
  await goTo(phone.page, '/');
  const first = await askEngine(phone.page, 'wear', READING);
  const worker = phone.page.workers()[0];
  const ended = worker.waitForEvent('close');
  const restarted = phone.page.waitForEvent('worker');
  // Called without arguments, which the page never does, the Go program ends.
  await worker.evaluate(() => void setTimeout(() => /** @type {any} */ (tautspanCall)()));
  await Promise.all([ended, restarted]);
  assert.deepEqual(await askEngine(phone.page, 'wear', READING), first);
  assert.equal(phone.page.workers().length, 1);
  phone.problems.length = 0; // Go says in the console why it ended
});

test('an engine that cannot be loaded is said plainly, the rest of the page stays', async (t) => {
  const server = await startServer(t);
  const phone = await newPhone(t, server.origin);
  await phone.page.route('**/*.wasm', (route) => route.abort());
  await goTo(phone.page, '/');
  await phone.page.getByRole('navigation').waitFor();
  await phone.page.getByRole('button', { name: /start (it )?again|try again/i }).waitFor();
  phone.problems.length = 0; // the file that was kept away
});

test('a GPX file is read in the worker piece by piece', async (t) => {
  const server = await startServer(t);
  const phone = await newPhone(t, server.origin);
  await goTo(phone.page, '/');
  await askEngine(phone.page, 'wear', READING);
  const answer = await phone.page.workers()[0].evaluate(() => {
    const points = '<trkpt lat="52" lon="5"/>' + ' '.repeat(1 << 20) + '<trkpt lat="52.001" lon="5"/>';
    const text = `<gpx xmlns="http://www.topografix.com/GPX/1/1" version="1.1"><trk><trkseg>${points}</trkseg></trk></gpx>`;
    const send = self.postMessage;
    /** @type {any} */
    let said;
    self.postMessage = (/** @type {any} */ message) => (said = message);
    self.dispatchEvent(new MessageEvent('message', { data: { id: 1, name: 'ride', file: new Blob([text]) } }));
    self.postMessage = send;
    return JSON.parse(said.json);
  });
  // 52 to 52.001 degrees on a meridian, computed with GeographicLib: 111.267363 m
  assert.ok(Math.abs(answer.distance_km - 0.111267363) < 1e-9, JSON.stringify(answer));
});
