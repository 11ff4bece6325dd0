import assert from 'node:assert/strict';
import { createServer } from 'node:http';
import { after, before, test } from 'node:test';
import { buildEdition } from './harness/edition.js';
import { becomes } from './harness/patience.js';
import { goTo, kept, newPhone, openAndKeep } from './harness/phone.js';
import { startServer } from './harness/server.js';

/** @typedef {import('playwright-core').Page} Page */

/** @type {{program: string, remove: () => Promise<void>}} the next version */
let next;
before(async () => {
  next = await buildEdition('two');
});
after(() => next?.remove());

test('a new version waits until the rider agrees, then all pages change at once', async (t) => {
  const server = await startServer(t);
  const phone = await newPhone(t, server.origin);
  const { page } = phone;
  await openAndKeep(page);
  const other = await phone.context.newPage();
  await goTo(other, '/');
  const old = await edition(page);
  assert.equal(old.script, undefined);

  await server.start(next.program);
  await askForUpdate(page);
  await page.getByRole('button', { name: 'Use it now' }).waitFor();
  await other.getByRole('button', { name: 'Use it now' }).waitFor();
  await page.reload();
  await page.getByRole('button', { name: 'Use it now' }).waitFor();
  assert.deepEqual(await edition(page), old, 'a reload is no consent');
  await becomes(async () => (await caches(page)).length, 2, 'both versions are whole meanwhile');

  await server.stop(); // taking over needs no network
  await Promise.all([other.waitForEvent('load'), page.waitForEvent('load'), phone.tap('Use it now')]);
  for (const one of [page, other]) {
    await becomes(async () => (await edition(one)).script, 'two');
    const now = await edition(one);
    assert.equal(now.page, 'two');
    assert.notEqual(now.version, old.version);
  }
  const { version } = await edition(page);
  await becomes(() => caches(page), [`tautspan-${version}`], 'the old version is gone');
});

test('a page that stays open asks for a new version by itself', async (t) => {
  const server = await startServer(t);
  const { page } = await newPhone(t, server.origin);
  await openAndKeep(page);
  await server.start(next.program);
  await page.evaluate(
    (later) => {
      const now = Date.now;
      Date.now = () => now() + later;
      document.dispatchEvent(new Event('visibilitychange')); // the rider comes back to it
    },
    2 * 60 * 60 * 1000,
  );
  await page.getByRole('button', { name: 'Use it now' }).waitFor();
});

test('what is entered survives the change of version', async (t) => {
  const server = await startServer(t);
  const phone = await newPhone(t, server.origin);
  await openAndKeep(phone.page);
  const value = phone.page.getByRole('textbox').first();
  await value.fill('12 1/16');
  await server.start(next.program);
  await askForUpdate(phone.page);
  await Promise.all([phone.page.waitForEvent('load'), phone.tap('Use it now')]);
  await becomes(async () => (await edition(phone.page)).script, 'two');
  await becomes(() => phone.page.getByRole('textbox').first().inputValue(), '12 1/16');
});

test('half of one version and half of another is refused', async (t) => {
  const [old, newer] = [await startServer(t), await startServer(t, next.program)];
  // A server caught in the middle of a change: the new list, all else old.
  /** @type {(url: string) => boolean} */
  let changed = (url) => url === '/sw.js';
  const torn = createServer(async (request, response) => {
    const answer = await fetch((changed(String(request.url)) ? newer : old).origin + request.url);
    const headers = Object.fromEntries(answer.headers);
    delete headers['content-encoding'];
    delete headers['content-length'];
    response.writeHead(answer.status, headers).end(Buffer.from(await answer.arrayBuffer()));
  });
  await new Promise((listening) => torn.listen(0, '127.0.0.1', () => listening(null)));
  t.after(async () => void torn.close());
  const { port } = /** @type {import('node:net').AddressInfo} */ (torn.address());
  const phone = await newPhone(t, `http://127.0.0.1:${port}`);
  await goTo(phone.page, '/');
  await phone.page.getByText('Not ready for offline').waitFor();
  const registered = () => phone.page.evaluate(async () => Boolean(await navigator.serviceWorker.getRegistration()));
  await becomes(registered, false);

  changed = () => true; // the change is through; the phone tries again when its signal is back
  await phone.offline(true);
  await phone.offline(false);
  await phone.page.getByText('Ready for offline').waitFor();
  await phone.page.reload();
  await becomes(async () => (await edition(phone.page)).script, 'two');
});

test('a version that some page still holds is not thrown away', async (t) => {
  const server = await startServer(t);
  const phone = await newPhone(t, server.origin);
  await openAndKeep(phone.page);
  const { version } = await edition(phone.page);
  // A page that does not reload: it only says, as every page does, what it runs on.
  const stuck = await phone.context.newPage();
  await stuck.goto('/healthz');
  await stuck.evaluate((name) => {
    navigator.locks.request(name, { mode: 'shared' }, () => new Promise(() => {}));
  }, `tautspan-${version}`);

  await server.start(next.program);
  await askForUpdate(phone.page);
  await Promise.all([phone.page.waitForEvent('load'), phone.tap('Use it now')]);
  await phone.page.reload();
  await kept(phone.page); // and has cleared away what nobody holds
  assert.ok((await caches(phone.page)).includes(`tautspan-${version}`), 'kept while it is held');
  await stuck.close();
  await phone.page.reload();
  await becomes(async () => (await caches(phone.page)).length, 1, 'gone once it is free');
  phone.problems.length = 0; // a picture opened as a page asks for an icon of its own
});

/** @param {Page} page as the page does by itself now and then */
async function askForUpdate(page) {
  await kept(page);
  await page.evaluate(async () => void (await (await navigator.serviceWorker.ready).update()));
}

/** @param {Page} page which edition each part of it is from */
function edition(page) {
  return page.evaluate(() => ({
    page: [...document.childNodes].map((node) => /^ edition (\w+) $/.exec(node.nodeValue ?? '')?.[1]).find(Boolean),
    script: document.documentElement.dataset.scriptEdition,
    version: document.querySelector('meta[name="tautspan-build"]')?.getAttribute('content'),
  }));
}

/** @param {Page} page @returns {Promise<string[]>} names of the caches */
function caches(page) {
  return page.evaluate(() => globalThis.caches.keys());
}
