/** What Round needs whenever the rider comes to a place of it, or news comes in. */
import { now, set, watch } from '../app/store.js';
import { KeepError } from '../data/database.js';
import { mayAdd } from '../data/roles.js';
import { recallForm } from '../data/round-form.js';
import { lookUp, roundOf } from '../data/round-view.js';
import { setRound } from './round-actions.js';
import { takeUp } from './round-check.js';
import { beginRows, drawRest } from './round-rows.js';
import { drawTags } from './round-tags.js';

/** @type {import('../app/store.js').State['garage']} */
let seen = null;

/** Follows the garage: what another phone did shows here as soon as it is on this one. */
export function startRounds() {
  watch(() => {
    const { garage, place } = now();
    if (garage === seen) return;
    seen = garage;
    if (place === 'round') look();
    if (place === 'tags') drawTags();
  });
}

/** Comes to a place of Round. @param {string} argument */
export function openRound(argument) {
  const { flash } = now().round;
  const done = flash?.at === `round/${argument}` ? flash : null;
  setRound({
    form: recallForm(argument),
    flash: done,
    find: '',
    trouble: '',
    fault: '',
    paper: 0,
    log: 0,
    opened: [],
    nameless: !now().person,
  });
  beginRows();
  look();
}

/** Takes up the bike's reading, and looks up every check of the round. */
async function look() {
  const { garage, argument, round } = now();
  const [id, bikeId] = argument.split('/');
  const one = garage && id ? roundOf(garage, id, null) : undefined;
  if (!garage || !one) return;
  drawRest();
  const stand = one.stands.find(({ bike }) => bike.bike_id === bikeId);
  if (stand && !one.finished_at && mayAdd(garage.role, 'round_checks')) takeUp(id, stand.bike);
  if (round.detail && round.detail.id !== id) setRound({ detail: null });
  try {
    const detail = await lookUp(id);
    if (now().argument.split('/')[0] === id) setRound({ detail });
  } catch (error) {
    if (error instanceof KeepError) set({ trouble: error.reason });
  }
}
