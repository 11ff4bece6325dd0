import assert from 'node:assert/strict';
import { createServer } from 'node:http';
import { after, before, test } from 'node:test';
import { NoSignal, ServerFault, call } from './client.js';

/** What the other end says next. @type {{status: number, text: string}} */
let says = { status: 200, text: '' };
const server = createServer((_, response) => void response.writeHead(says.status).end(says.text));
const { fetch } = globalThis;

before(async () => {
  await new Promise((listening) => server.listen(0, '127.0.0.1', () => listening(null)));
  const { port } = /** @type {import('node:net').AddressInfo} */ (server.address());
  // A page has an origin that paths begin at.
  globalThis.fetch = (path, init) => fetch(`http://127.0.0.1:${port}${path}`, init);
});
after(() => {
  globalThis.fetch = fetch;
  server.close();
  server.closeAllConnections();
});

/** @param {number} status @param {string} text */
const answered = (status, text) => {
  says = { status, text };
  return call('POST', '/garages/a/sync', { body: {} });
};

test('an answer is its JSON, and nothing where there is none', async () => {
  assert.deepEqual((await answered(200, '{"cursor":"a"}')).answer, { cursor: 'a' });
  assert.equal((await answered(204, '')).answer, null);
});

test('a refusal keeps its status, code and message', async () => {
  const fault = { code: 'denied', field: '', message: 'revoked' };
  await assert.rejects(answered(401, JSON.stringify({ error: fault })), (error) => {
    assert.ok(error instanceof ServerFault);
    assert.deepEqual([error.status, error.fault], [401, fault]);
    return true;
  });
});

test('what a proxy or a sign-in page says is no word of the server', async () => {
  const others = ['', '<html>Sign in</html>', 'null', '"no"', '{}', '{"error":"Bad Gateway"}'];
  for (const status of [401, 404, 413, 502, 503]) {
    for (const text of others) await assert.rejects(answered(status, text), NoSignal, `${status} ${text}`);
  }
  for (const text of ['', '<html>Sign in</html>', '"yes"', 'null'])
    await assert.rejects(answered(200, text), NoSignal, text);
});
