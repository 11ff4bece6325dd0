/** What can be done on the change of a chain; every touch is kept as a draft. */
import { leave } from '../app/leave.js';
import { now, set } from '../app/store.js';
import { changesFor, emptyChange, lifeRequest } from '../data/chain-change.js';
import { settled } from '../data/chain-moves.js';
import { entriesUntil, gone, goneSince, shownAt } from '../data/distance-entry.js';
import { forget, keep, recall } from '../data/local.js';
import { familyRequest, lengthQuestion } from '../data/shopping.js';
import { whole } from '../data/teeth.js';
import { inverse } from '../data/undo.js';
import { t } from '../words/t.js';
import { askFor, put, takeUp } from './bike-work.js';

/**
 * @typedef {import('../app/store.js').State} State
 * @typedef {import('../data/garage.js').BikeDetail} BikeDetail
 * @typedef {import('../data/chain-change.js').Draft} Draft
 */

/** @param {string} bike_id */
export function openChange(bike_id) {
  set({ changing: null, flash: '' });
  takeUp(bike_id, (detail) => {
    const old = detail.chains[detail.meaning.fitted_chain_id ?? '']?.fields ?? null;
    const empty = emptyChange(bike_id, old, usualMode(detail));
    const kept = recall('changing', { ...empty, bike_id: '' });
    set({ changing: kept.bike_id === bike_id ? kept : empty });
    askFor('family', 'identify', familyRequest(detail.bike.fields));
    const { name, request, missing } = lengthQuestion(detail.bike.fields);
    if (!missing.length) askFor('length', name, request);
    askLife();
  });
}

/** @param {Partial<Draft>} part */
export function putChange(part) {
  const { changing } = now();
  if (!changing) return;
  const next = { ...changing, ...part };
  set({ changing: next, trouble: keep('changing', next) });
  if ('old' in part) askLife();
}

/** How long a new chain would last, by what the finished ones did. */
function askLife() {
  const { work, changing } = now();
  if (!work?.detail || !changing) return;
  const { bike, meaning } = work.detail;
  askFor(
    'life',
    'forecast',
    lifeRequest(bike.fields, fitted(work.detail), changing.old === 'retire', meaning.chains[0]),
  );
}

/** @param {BikeDetail} detail @returns {import('../data/chain-change.js').ChainMeaning|null} */
export function fitted({ meaning }) {
  return meaning.chains.find((one) => one.chain_id === meaning.fitted_chain_id) ?? null;
}

/**
 * @param {BikeDetail} detail
 * @param {string} [at] when it is asked for, now when left out
 * @returns {import('../data/distance-entry.js').Known}
 */
export function knownDistance(detail, at) {
  const rows = Object.values(detail.distances).map(({ fields }) => /** @type {any} */ (fields));
  const back = at ? goneSince(rows, at) : 0;
  const until = at ? entriesUntil(rows, at) : rows;
  return { km: detail.meaning.km - back, shown: shownAt(until), chainKM: (fitted(detail)?.km ?? 0) - back };
}

/** @param {BikeDetail} detail @returns {'odometer'|'since'} how its distance is best asked */
export function usualMode(detail) {
  return knownDistance(detail).shown === null ? 'since' : 'odometer';
}

/** Writes the change down and goes back to the bike. */
export async function finishChange() {
  const { work, changing, settings } = now();
  const detail = work?.detail;
  if (!detail || !changing) return;
  const then = gone(changing, knownDistance(detail), settings.units);
  const pitches = whole(changing.pitches);
  if (then.fault || Number.isNaN(pitches)) return;
  const next = detail.meaning.chains.find((one) => one.chain_id === changing.next) ?? null;
  const known = { fitted: fitted(detail), next, km: then.km, distance: then.put, pitches };
  const others = settled(detail.meaning, Object.values(detail.chains)).filter(
    ({ record_id }) => record_id !== next?.chain_id,
  );
  const changes = [...others, ...changesFor(changing, known, new Date().toISOString())];
  const ids = await put(changes);
  if (!ids) return;
  forget('changing');
  const rows = [...Object.values(detail.chains), ...Object.values(detail.distances)];
  set({ changing: null, did: { text: t('did.on'), undo: inverse(changes, ids, rows), at: Date.now() } });
  leave(`#/bike/${changing.bike_id}`);
}
