/**
 * The one table of places. A screen is a function from the state to its body
 * and its bench; adding one is a line here and a file in screens.
 */
import { check } from '../screens/check.js';
import { fit } from '../screens/fit.js';
import { evaluateFit } from '../screens/fit-actions.js';
import { kept, openKept } from '../screens/kept.js';
import { kit } from '../screens/kit.js';
import { lookAtStorage } from './storage.js';
import { now, set } from './store.js';

/**
 * @typedef {{body: unknown, bench: unknown}} Screen
 * @typedef {{screen: (state: import('./store.js').State) => Screen, title: import('../words/t.js').Word,
 *   icon?: import('../parts/icons.js').IconName, open?: () => void}} Place
 *   with an icon it stands in the navigation; `open` runs when it is come to
 */

/** @type {Record<string, Place>} by the name in the address, #/name */
export const PLACES = {
  check: { screen: check, title: 'place.check', icon: 'check' },
  fit: { screen: fit, title: 'place.fit', icon: 'fit', open: evaluateFit },
  kit: { screen: kit, title: 'place.kit', icon: 'kit', open: lookAtStorage },
  kept: { screen: kept, title: 'kept.title', open: openKept },
};

/** @returns {string} the place the address names, else check */
function named() {
  const name = location.hash.replace(/^#\//, '');
  return Object.hasOwn(PLACES, name) ? name : 'check';
}

/** Goes where the address says, now and whenever it changes. */
export function startRouter() {
  go(false);
  addEventListener('hashchange', () => go(true));
}

/** @param {boolean} moved whether the rider went there, so that focus follows */
function go(moved) {
  const place = named();
  if (moved && place === now().place) return;
  set({ place });
  PLACES[place].open?.();
  if (!moved) return;
  scrollTo(0, 0);
  document.getElementById('place')?.focus();
}
