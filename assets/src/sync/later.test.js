import assert from 'node:assert/strict';
import { test } from 'node:test';

// A page whose browser keeps nothing: its service worker never gets ready.
Object.assign(globalThis, { document: { querySelector: () => ({ content: '', dataset: {} }) } });
const serviceWorker = { ready: new Promise(() => {}) };
Object.defineProperty(globalThis, 'navigator', { value: { serviceWorker }, configurable: true });

const { keepLater } = await import('./later.js');

test('where nothing can be kept for offline, that is said in the end', async (t) => {
  t.mock.timers.enable({ apis: ['setTimeout'] });
  const told = keepLater();
  t.mock.timers.tick(120_000);
  assert.equal(await told, false);
});
