/**
 * Starts the page: what is kept first, then the screen, then the rest. What this
 * file imports is what every page starts with; the parts of the app import it too,
 * so that the build puts it into one file.
 */
import { KeepError, watchTrouble } from '../data/database.js';
import { loadGarage } from '../data/garage.js';
import { keep } from '../data/local.js';
import { engine } from '../engine/engine.js';
import { resume } from '../screens/check-actions.js';
import { startSync } from '../sync/sync.js';
import { startUpdates } from '../sync/updates.js';
import { startFrame } from './frame.js';
import { watchInstall } from './install.js';
import { fetchNamed, fetchPlaces, startRouter } from './router.js';
import { applyLanguage } from './speech.js';
import { now, set } from './store.js';
import { applyTheme } from './theme.js';

/** Starts it. */
export async function start() {
  applyTheme(now().settings.theme);
  watchInstall();
  const started = nextTask().then(() => engine.start());
  await Promise.all([applyLanguage(now().settings.language), fetchNamed(), started]);
  await nextTask();
  watchTrouble((trouble) => set({ trouble }));
  addEventListener('unhandledrejection', tellTrouble);
  startRouter();
  startFrame(/** @type {HTMLElement} */ (document.getElementById('app')));
  resume();
  loadGarage().then(startSync);

  engine.watch(({ state }) => set({ crashed: state === 'crashed' }));
  for (const event of ['online', 'offline']) addEventListener(event, () => set({ online: navigator.onLine }));

  startUpdates({
    told: ({ offline, waiting }) => set({ offline, update: waiting ? 'waiting' : 'none' }),
    save: () => keep('draft', now().draft),
    rest: fetchPlaces,
  });
}

/** What the phone cannot keep or read is said also where no screen waits for it. @param {PromiseRejectionEvent} event */
function tellTrouble(event) {
  if (!(event.reason instanceof KeepError)) return;
  event.preventDefault();
  set({ trouble: event.reason.reason });
}

/** Lets the browser answer the rider between loading, starting the engine and drawing, which together would keep it busy for long. */
function nextTask() {
  return new Promise((begun) => setTimeout(begun));
}
