/**
 * Offline and new versions, from the page's side. sw.js keeps everything this
 * version needs; a newer version waits beside it until the rider agrees. Then
 * every open page saves its draft and reloads at once, so that no page runs on
 * with the files of another version.
 */
import { engine } from '../engine/engine.js';
import { build } from './build.js';

/**
 * @typedef {'checking'|'ready'|'insecure'|'unsupported'|'failed'} Offline
 *   ready: opens with no network; insecure: the address is not https, so the
 *   browser keeps nothing; failed: keeping the files did not work, tried again later
 * @typedef {{offline: Offline, waiting: boolean}} Updates
 */

/** How often a page that stays open asks for a new version, ms. */
const ASK_EVERY_MS = 60 * 60 * 1000;

/** @type {Updates} */
let now = { offline: 'checking', waiting: false };
/** @type {(now: Updates) => void} */
let tell = () => {};
/** @type {ServiceWorkerRegistration|null} */
let registration = null;
let agreed = false;
let asked = 0;

/**
 * Starts keeping the app on the phone, as soon as the engine is there: what the
 * page itself waits for comes first on a slow line.
 * @param {{told: (now: Updates) => void, save: () => void, rest: () => Promise<void>}} options `told` hears
 *   every change, `save` is called before a reload and must finish before it returns; `rest` fetches
 *   what the page has not loaded yet
 * @returns {Promise<void>}
 */
export async function startUpdates({ told, save, rest }) {
  tell = told;
  const container = navigator.serviceWorker;
  if (!container) return change({ offline: isSecureContext ? 'unsupported' : 'insecure' });
  holdVersion();
  let controlled = container.controller !== null;
  container.addEventListener('controllerchange', () => {
    if (controlled || agreed) {
      save();
      location.reload();
    }
    controlled = true; // the first visit is taken over once, with the same version
  });
  await engineSettled();
  await rest();
  await register();
  document.addEventListener('visibilitychange', askAgain);
  addEventListener('online', askAgain);
}

/** The rider agrees to the version that waits: it takes over and pages reload. */
export function agree() {
  agreed = true;
  registration?.waiting?.postMessage('take over');
}

/** @returns {Promise<void>} fulfilled once the engine is ready or has failed */
function engineSettled() {
  return new Promise((resolve) => {
    engine.watch(({ state }) => state !== 'loading' && resolve());
  });
}

async function register() {
  asked = Date.now();
  try {
    registration = await navigator.serviceWorker.register('/sw.js', { updateViaCache: 'none' });
  } catch {
    // With no network the files may still be kept from an earlier visit.
    registration = (await navigator.serviceWorker.getRegistration()) ?? null;
    if (!registration) return change({ offline: 'failed' });
  }
  const reg = registration;
  reg.onupdatefound = () => follow(reg, reg.installing);
  follow(reg, reg.installing);
}

/** @param {ServiceWorkerRegistration} reg @param {ServiceWorker|null} worker the one to watch */
function follow(reg, worker) {
  worker?.addEventListener('statechange', () => look(reg));
  look(reg);
}

/** @param {ServiceWorkerRegistration} reg */
function look(reg) {
  if (reg.active) {
    change({ offline: 'ready', waiting: reg.waiting !== null });
    reg.active.postMessage('clean'); // a reload may have freed an old version
  } else if (!reg.installing && !reg.waiting) {
    change({ offline: 'failed' });
  }
}

function askAgain() {
  if (document.visibilityState !== 'visible') return;
  if (now.offline === 'failed') return void register();
  if (Date.now() - asked <= ASK_EVERY_MS) return;
  asked = Date.now();
  registration?.update().catch(() => {}); // no signal; asked again later
}

/** Says for as long as this page lives that its version's files are in use. */
function holdVersion() {
  navigator.locks?.request(`tautspan-${build.version}`, { mode: 'shared' }, () => new Promise(() => {}));
}

/** @param {Partial<Updates>} news */
function change(news) {
  const next = { ...now, ...news };
  if (next.offline === now.offline && next.waiting === now.waiting) return;
  now = next;
  tell(now);
}
