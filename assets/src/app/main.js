/** Starts the page: what is kept first, then the screen, then the rest. */
import { watchTrouble } from '../data/database.js';
import { loadGarage } from '../data/garage.js';
import { keep } from '../data/local.js';
import { engine } from '../engine/engine.js';
import { resume } from '../screens/check-actions.js';
import { startRounds } from '../screens/round-arrive.js';
import { startSync } from '../sync/sync.js';
import { startUpdates } from '../sync/updates.js';
import { startFrame } from './frame.js';
import { watchInstall } from './install.js';
import { startRouter } from './router.js';
import { applyLanguage } from './speech.js';
import { now, set } from './store.js';
import { applyTheme } from './theme.js';

applyTheme(now().settings.theme);
watchInstall();
await applyLanguage(now().settings.language);
watchTrouble((trouble) => set({ trouble }));
startRouter();
startFrame(/** @type {HTMLElement} */ (document.getElementById('app')));
resume();
startRounds();
loadGarage().then(startSync);

engine.watch(({ state }) => set({ crashed: state === 'crashed' }));
for (const event of ['online', 'offline']) addEventListener(event, () => set({ online: navigator.onLine }));

startUpdates({
  told: ({ offline, waiting }) => set({ offline, update: waiting ? 'waiting' : 'none' }),
  save: () => keep('draft', now().draft),
});
