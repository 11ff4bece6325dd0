import assert from 'node:assert/strict';
import { test } from 'node:test';
import { askEngine, newPhone, openAndKeep, READING } from './harness/phone.js';
import { startServer } from './harness/server.js';

test('from the first visit on, the app opens and answers with no network', async (t) => {
  const server = await startServer(t);
  const phone = await newPhone(t, server.origin);
  await openAndKeep(phone.page);
  await phone.page.getByText('Ready for offline').waitFor();

  await phone.offline(true);
  await server.stop();
  /** @type {Promise<string>[]} */
  const fromNetwork = [];
  phone.page.on('response', (response) => {
    if (!response.fromServiceWorker()) fromNetwork.push(Promise.resolve(response.url()));
  });
  await phone.page.reload();
  await phone.page.getByRole('navigation').waitFor();
  const answer = await askEngine(phone.page, 'wear', READING);
  assert.ok(Math.abs(answer.elongation_percent - 0.5208) < 5e-5);
  assert.deepEqual(await Promise.all(fromNetwork), [], 'nothing came from elsewhere');
});

test('a place opened by its address works offline too', async (t) => {
  const server = await startServer(t);
  const phone = await newPhone(t, server.origin);
  await openAndKeep(phone.page);
  await server.stop();
  await phone.page.goto('/any/place');
  await phone.page.getByRole('navigation').waitFor();
});

test('the help about HTTPS is the server’s also where the app is kept', async (t) => {
  const server = await startServer(t);
  const { page } = await newPhone(t, server.origin);
  await openAndKeep(page);
  await page.goto('/https');
  await page.getByRole('heading', { level: 1, name: /HTTPS/ }).waitFor();
});

test('the page says what to do before any script runs', async (t) => {
  const server = await startServer(t);
  const html = await (await fetch(server.origin)).text();
  assert.match(html, /<h1>[^<]+<\/h1>/);
  assert.match(html, /12 1\/16 in/);
  const phone = await newPhone(t, server.origin);
  await phone.page.route('**/*.js', (route) => route.abort());
  await phone.page.goto('/');
  await phone.page.getByRole('heading', { level: 1 }).waitFor();
  assert.match(await phone.page.locator('body').innerText(), /12 1\/16 in/);
  phone.problems.length = 0; // the scripts that were kept away are errors in the console
});

test('a file the browser threw away comes from the network again', async (t) => {
  const server = await startServer(t);
  const phone = await newPhone(t, server.origin);
  await openAndKeep(phone.page);
  const thrown = await phone.page.evaluate(async () => {
    const cache = await caches.open((await caches.keys())[0]);
    const script = (await cache.keys()).find(({ url }) => url.endsWith('.js'));
    return script && cache.delete(script);
  });
  assert.equal(thrown, true);
  await phone.page.reload();
  await phone.page.getByRole('navigation').waitFor();
});
