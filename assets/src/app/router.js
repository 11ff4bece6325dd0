/**
 * The one table of places. A screen is a function from the state to its body
 * and its bench; adding one is a line here and a file in screens.
 */
import { openBikePlace, openBikes } from '../screens/bike-actions.js';
import { bikeAdd } from '../screens/bike-add.js';
import { bikeCare } from '../screens/bike-care.js';
import { bikeChain } from '../screens/bike-chain.js';
import { bikeChains } from '../screens/bike-chains.js';
import { bikeDistance } from '../screens/bike-distance.js';
import { bikeEdit } from '../screens/bike-edit.js';
import { bike } from '../screens/bike.js';
import { bikes } from '../screens/bikes.js';
import { bikeChange } from '../screens/bike-change.js';
import { openChange } from '../screens/change-actions.js';
import { backup } from '../screens/backup.js';
import { openBackup } from '../screens/backup-actions.js';
import { check } from '../screens/check.js';
import { openCheck } from '../screens/check-bike.js';
import { cost, openCost } from '../screens/cost.js';
import { fit } from '../screens/fit.js';
import { glass } from '../screens/glass.js';
import { openGlass } from '../screens/glass-actions.js';
import { instrument, instruments } from '../screens/instruments.js';
import { openTool, openTools } from '../screens/instrument-actions.js';
import { evaluateFit } from '../screens/fit-actions.js';
import { keepReading } from '../screens/keep.js';
import { openKeep } from '../screens/keep-actions.js';
import { join } from '../screens/join.js';
import { openJoin } from '../screens/join-actions.js';
import { kept, openKept } from '../screens/kept.js';
import { kit } from '../screens/kit.js';
import { photo } from '../screens/photo.js';
import { openPhoto } from '../screens/photo-actions.js';
import { frame } from '../screens/photo-frame.js';
import { round } from '../screens/round.js';
import { openRound } from '../screens/round-arrive.js';
import { openTags, tags } from '../screens/round-tags.js';
import { openShopping, shopping } from '../screens/shopping.js';
import { share } from '../screens/share.js';
import { openShare } from '../screens/share-actions.js';
import { lookAtStorage } from './storage.js';
import { now, set } from './store.js';

/**
 * @typedef {{body: unknown, bench: unknown}} Screen
 * @typedef {{screen: (state: import('./store.js').State) => Screen, title: import('../words/t.js').Word,
 *   icon?: import('../parts/icons.js').IconName, under?: string, bare?: boolean, open?: (argument: string) => void}} Place
 *   with an icon it stands in the navigation, else it belongs `under` one that does;
 *   `bare` places have the whole window; `open` runs when it is come to, with what follows its name in the address
 */

/** @type {Record<string, Place>} by the name in the address, #/name or #/name/argument */
export const PLACES = {
  check: { screen: check, title: 'place.check', icon: 'check', open: openCheck },
  bikes: { screen: bikes, title: 'place.bikes', icon: 'bikes', open: openBikes },
  fit: { screen: fit, title: 'place.fit', icon: 'fit', open: evaluateFit },
  round: { screen: round, title: 'place.round', icon: 'round', open: openRound },
  kit: { screen: kit, title: 'place.kit', icon: 'kit', open: lookAtStorage },
  glass: { screen: glass, title: 'glass.title', under: 'check', bare: true, open: openGlass },
  photo: { screen: photo, title: 'photo.title', under: 'check', open: openPhoto },
  frame: { screen: frame, title: 'photo.frame', under: 'check' },
  tags: { screen: tags, title: 'tags.title', under: 'round', open: openTags },
  bike: { screen: bike, title: 'bike.title', under: 'bikes', open: openBikePlace },
  add: { screen: bikeAdd, title: 'add.title', under: 'bikes' },
  care: { screen: bikeCare, title: 'look.title', under: 'bikes', open: openBikePlace },
  chain: { screen: bikeChain, title: 'chain.title', under: 'bikes', open: openBikePlace },
  chains: { screen: bikeChains, title: 'bike.chains', under: 'bikes', open: openBikePlace },
  distance: { screen: bikeDistance, title: 'run.title', under: 'bikes', open: openBikePlace },
  edit: { screen: bikeEdit, title: 'bike.edit', under: 'bikes', open: openBikePlace },
  join: { screen: join, title: 'join.title', under: 'kit', open: openJoin },
  share: { screen: share, title: 'share.title', under: 'kit', open: openShare },
  backup: { screen: backup, title: 'backup.title', under: 'kit', open: openBackup },
  instruments: { screen: instruments, title: 'tools.title', under: 'kit', open: openTools },
  instrument: { screen: instrument, title: 'tool.title', under: 'kit', open: openTool },
  kept: { screen: kept, title: 'kept.title', under: 'check', open: openKept },
  keep: { screen: keepReading, title: 'keep.where', under: 'check', open: openKeep },
  change: { screen: bikeChange, title: 'change.title', under: 'bikes', open: openChange },
  shopping: { screen: shopping, title: 'shop.title', under: 'bikes', open: openShopping },
  cost: { screen: cost, title: 'cost.title', under: 'bikes', open: openCost },
};

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

/** Goes where the address says, now and whenever it changes. */
export function startRouter() {
  go(false);
  addEventListener('hashchange', () => go(true));
}

/** @param {boolean} moved whether the rider went there, so that focus follows */
function go(moved) {
  const { place, argument } = named();
  if (moved && place === now().place && argument === now().argument) return;
  set({ place, argument });
  PLACES[place].open?.(argument);
  if (!moved) return;
  scrollTo(0, 0);
  document.getElementById('place')?.focus({ preventScroll: true });
}
