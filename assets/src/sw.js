/**
 * The service worker, for ever at /sw.js. PRECACHE lists every file of this
 * version with its hash, except those in LATER, which are kept once the rider
 * turned on what needs them; VERSION is the hash of them all. Files under /files/
 * carry their hash in the name, so serving one from another version's cache
 * would still be the right file; the page itself always comes from this
 * version's cache.
 *
 * Only a page that the rider told so makes a waiting version take over.
 */

/** @typedef {[url: string, integrity: string]} Entry */

const worker = /** @type {ServiceWorkerGlobalScope} */ (/** @type {unknown} */ (globalThis));
const PREFIX = 'tautspan-';
const CACHE = PREFIX + VERSION;

/** An empty cache that stands for the rider's wish to have LATER; no version's, so clean() lets it be. */
const WANTED = 'wanted-later';

/** Paths that are the server's, never the page. */
const SERVER = /^\/(api\/|https$|healthz$|readyz$|metrics$)/;

worker.addEventListener('install', (event) => event.waitUntil(keepAll()));
worker.addEventListener('activate', (event) => event.waitUntil(worker.clients.claim().then(clean)));
worker.addEventListener('message', (event) => {
  if (event.data === 'take over') event.waitUntil(worker.skipWaiting());
  if (event.data === 'clean') event.waitUntil(clean());
  if (event.data === 'keep later') event.waitUntil(keepLater(event.ports[0]));
});

worker.addEventListener('fetch', (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (request.method !== 'GET' || url.origin !== worker.location.origin || SERVER.test(url.pathname)) return;
  const isPage = request.mode === 'navigate' && !url.pathname.startsWith('/files/');
  event.respondWith(isPage ? page(request) : file(request));
});

/**
 * Keeps every file, each checked against its hash, or fails as a whole. Holds
 * this version's lock meanwhile, so that clean() of an older one lets it be.
 */
async function keepAll() {
  const work = async () => {
    const cache = await caches.open(CACHE);
    const list = (await caches.has(WANTED)) ? [...PRECACHE, ...LATER] : PRECACHE;
    await Promise.all(list.map((entry) => keepOne(cache, entry)));
  };
  await (navigator.locks ? navigator.locks.request(CACHE, { mode: 'shared' }, work) : work());
}

/** Keeps what is in LATER, now and with every newer version, and says whether it is there. @param {MessagePort} port */
async function keepLater(port) {
  try {
    await caches.open(WANTED);
    const cache = await caches.open(CACHE);
    await Promise.all(LATER.map((entry) => keepOne(cache, entry)));
    port.postMessage(true);
  } catch {
    port.postMessage(false);
  }
}

/** @param {Cache} cache @param {Entry} entry */
async function keepOne(cache, [url, integrity]) {
  if (await cache.match(url, { ignoreVary: true })) return;
  // Hashed files may come from the browser's own cache, the page must not.
  const request = new Request(url, { integrity, cache: url.startsWith('/files/') ? 'default' : 'no-cache' });
  const response = await fetch(request);
  if (!response.ok) throw new Error(`${url} answered ${response.status}`);
  await cache.put(url, response);
}

/** @param {Request} request */
async function page(request) {
  const cache = await caches.open(CACHE);
  return (await cache.match('/', { ignoreVary: true })) ?? fetch(request);
}

/** @param {Request} request */
async function file(request) {
  const cache = await caches.open(CACHE);
  const kept = await cache.match(request, { ignoreVary: true });
  return kept ?? (await caches.match(request, { ignoreVary: true })) ?? fetch(request);
}

/**
 * Deletes the caches of other versions, except those that a page still holds
 * (sync/updates.js) or that is being kept or waits to take over.
 */
async function clean() {
  if (!navigator.locks) return;
  for (const name of await caches.keys()) {
    if (!name.startsWith(PREFIX) || name === CACHE) continue;
    await navigator.locks.request(name, { ifAvailable: true }, async (lock) => {
      const newer = worker.registration.installing ?? worker.registration.waiting;
      if (lock && !newer) await caches.delete(name);
    });
  }
}
