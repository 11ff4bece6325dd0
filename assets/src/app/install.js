/** The browser's offer to put the app on the home screen. */
import { set } from './store.js';

/** @type {any} */
let offer = null;

/** Catches the offer, so that it can be made where the rider looks for it. */
export function watchInstall() {
  addEventListener('beforeinstallprompt', (event) => {
    event.preventDefault();
    offer = event;
    set({ installable: true });
  });
  addEventListener('appinstalled', () => {
    offer = null;
    set({ installable: false });
  });
}

/** Makes the offer. It can be made once only. */
export async function install() {
  const once = offer;
  offer = null;
  set({ installable: false });
  await once?.prompt();
}
