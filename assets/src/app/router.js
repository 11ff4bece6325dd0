/**
 * The one table of places. What a place shows comes from a file in places, one
 * for each part of the app, which is fetched when it is wanted; only Check is
 * there from the start. Adding a place is a line here and a line there.
 */
import { check } from '../screens/check.js';
import { openCheck } from '../screens/check-bike.js';
import { now, set } from './store.js';

/**
 * @typedef {{body: unknown, bench: unknown}} Screen
 * @typedef {Record<string, {screen: (state: import('./store.js').State) => Screen, open?: (argument: string) => void}>} Shown
 *   by the place's name: a function from the state to its body and its bench; `open` runs when it is come to, with what
 *   follows its name in the address
 * @typedef {() => Promise<{places: Shown}>} Part
 * @typedef {{title: import('../words/t.js').Word, from?: Part,
 *   icon?: import('../parts/icons.js').IconName, under?: string, bare?: boolean}} Place
 *   with an icon it stands in the navigation, else it belongs `under` one that does;
 *   `bare` places have the whole window
 */

/** @type {Part} */
const fit = () => import('../places/fit.js');
/** @type {Part} */
const garage = () => import('../places/garage.js');

/** @type {Record<string, Place>} by the name in the address, #/name or #/name/argument */
export const PLACES = {
  check: { title: 'place.check', icon: 'check' },
  bikes: { title: 'place.bikes', from: garage, icon: 'bikes' },
  fit: { title: 'place.fit', from: fit, icon: 'fit' },
  round: { title: 'place.round', from: garage, icon: 'round' },
  kit: { title: 'place.kit', from: garage, icon: 'kit' },
  glass: { title: 'glass.title', from: garage, under: 'check', bare: true },
  photo: { title: 'photo.title', from: garage, under: 'check' },
  frame: { title: 'photo.frame', from: garage, under: 'check' },
  kept: { title: 'kept.title', from: garage, under: 'check' },
  keep: { title: 'keep.where', from: garage, under: 'check' },
  bike: { title: 'bike.title', from: garage, under: 'bikes' },
  add: { title: 'add.title', from: garage, under: 'bikes' },
  care: { title: 'look.title', from: garage, under: 'bikes' },
  chain: { title: 'chain.title', from: garage, under: 'bikes' },
  chains: { title: 'bike.chains', from: garage, under: 'bikes' },
  distance: { title: 'run.title', from: garage, under: 'bikes' },
  edit: { title: 'bike.edit', from: garage, under: 'bikes' },
  change: { title: 'change.title', from: garage, under: 'bikes' },
  shopping: { title: 'shop.title', from: garage, under: 'bikes' },
  cost: { title: 'cost.title', from: garage, under: 'bikes' },
  tags: { title: 'tags.title', from: garage, under: 'round' },
  join: { title: 'join.title', from: garage, under: 'kit' },
  share: { title: 'share.title', from: garage, under: 'kit' },
  backup: { title: 'backup.title', from: garage, under: 'kit' },
  instruments: { title: 'tools.title', from: garage, under: 'kit' },
  instrument: { title: 'tool.title', from: garage, under: 'kit' },
};

/** What is there already. @type {Shown} */
const shown = { check: { screen: check, open: openCheck } };

/** @param {import('./store.js').State} state @returns {Screen} the place that is come to */
export function screen(state) {
  return shown[state.place].screen(state);
}

/** @param {string} place fetches what it shows; fails where that cannot be had */
async function fetchPlace(place) {
  if (!shown[place]) Object.assign(shown, (await PLACES[place].from?.())?.places);
}

/** Fetches all places, so that each opens at once from then on; which one cannot be had is said when it is come to. */
export async function fetchPlaces() {
  for (const place of ['bikes', 'fit']) await fetchPlace(place).catch(() => {});
}

/**
 * After a place could not be fetched. A script that failed stays failed for as
 * long as the page lives, so the page is loaded anew, once that can be had.
 */
export async function tryAgain() {
  set({ fetching: 'busy' });
  const there = await fetch('/').catch(() => null);
  if (there?.ok) location.reload();
  else set({ fetching: 'failed' });
}

/** @returns {{place: string, argument: string}} what the address names, else check */
function named() {
  const [place, argument = ''] = location.hash.replace(/^#\//, '').split(/\/(.*)/);
  return Object.hasOwn(PLACES, place) ? { place, argument: decoded(argument) } : { place: 'check', argument: '' };
}

/** @param {string} text from an address anybody may have written */
function decoded(text) {
  try {
    return decodeURIComponent(text);
  } catch {
    return text;
  }
}

/** Fetches what the address names; the router says so when it cannot be had. */
export async function fetchNamed() {
  await fetchPlace(named().place).catch(() => {});
}

/** Goes where the address says, now and whenever it changes. */
export function startRouter() {
  go(false);
  addEventListener('hashchange', () => go(true));
}

/** @param {boolean} moved whether the rider went there, so that focus follows */
async function go(moved) {
  const { place, argument } = named();
  if (!shown[place]) {
    set({ fetching: 'busy' });
    const failed = await fetchPlace(place).catch(() => true);
    if (named().place !== place || named().argument !== argument) return; // the rider went on
    if (failed) return set({ fetching: 'failed' });
  }
  set({ fetching: '' });
  if (moved && place === now().place && argument === now().argument) return;
  set({ place, argument });
  shown[place].open?.(argument);
  if (!moved) return;
  scrollTo(0, 0);
  document.getElementById('place')?.focus({ preventScroll: true });
}
