/** What only some riders want: kept for offline by the service worker on wish. */
import { build } from './build.js';

/** The wish, as sw.js knows it. */
const WANTED = 'wanted-later';

/** Without an answer for this long it counts as not kept, ms. */
const PATIENCE_MS = 120_000;

/** @returns {Promise<boolean>} whether the files are on the phone now and will be with newer versions */
export async function keepLater() {
  if (!navigator.serviceWorker) return false;
  return Promise.race([asked(), new Promise((resolve) => setTimeout(resolve, PATIENCE_MS, false))]);
}

/** @returns {Promise<boolean>} for ever under way where nothing can be kept for offline */
async function asked() {
  const { active } = await navigator.serviceWorker.ready;
  return new Promise((resolve) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = ({ data }) => {
      port1.close();
      resolve(data === true);
    };
    active?.postMessage('keep later', [port2]);
  });
}

/** @returns {Promise<boolean>} */
export async function hasLater() {
  if (!('caches' in globalThis)) return false;
  return (await caches.match(build.photo, { ignoreVary: true })) !== undefined;
}

/** Newer versions come without; what is kept goes with this one. */
export async function forgetLater() {
  if ('caches' in globalThis) await caches.delete(WANTED);
}
