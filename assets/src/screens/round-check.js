/** A bike of a round is read, cleared or held. */
import { now, set } from '../app/store.js';
import { swapped } from '../data/aside.js';
import { cleared, entered } from '../data/draft.js';
import { newId } from '../data/ids.js';
import { mayLead } from '../data/roles.js';
import { keepForm, recallForm, reasonText } from '../data/round-form.js';
import { clearing } from '../data/rounds.js';
import { percent } from '../words/numbers.js';
import { named, t } from '../words/t.js';
import { change, isOld, settled } from './check-actions.js';
import { kept, told } from './round-actions.js';

/**
 * @typedef {import('../app/store.js').State} State
 * @typedef {import('../data/rounds.js').Round} Round
 * @typedef {import('../data/rounds.js').Stand} Stand
 * @typedef {import('../data/garage.js').BikeSummary} BikeSummary
 * @typedef {import('../data/garage.js').Change} Change
 */

/** @param {string} roundId @param {string} bikeId @returns {string} whose draft is in hand */
export function draftOf(roundId, bikeId) {
  return `${roundId}/${bikeId}`;
}

/** Takes up the reading of a bike, with the bike's drive and the instrument used last. @param {string} roundId @param {BikeSummary} bike */
export function takeUp(roundId, { bike_id, fields }) {
  const { draft } = now();
  const mine = draftOf(roundId, bike_id);
  if (draft.for === mine) return;
  const next = swapped(draft, mine, driveOf(fields));
  change(next, { flash: isOld(next) ? 'old' : '' });
}

/** Gives Check its own reading back. */
export function giveBack() {
  const { draft } = now();
  if (!draft.for) return;
  const next = swapped(draft, '');
  change(next, { flash: isOld(next) ? 'old' : '' });
}

/** @param {BikeSummary['fields']} fields @returns {import('../data/draft.js').Draft['drive']} */
function driveOf({ drive, rear_sprockets }) {
  const chosen = drive !== 'derailleur' || rear_sprockets !== undefined;
  return { kind: drive, sprockets: rear_sprockets ?? 11, chosen };
}

/** @param {State} state @returns {import('../data/rounds.js').Verdict|null} of the reading in hand */
export function readingVerdict({ draft, result }) {
  if (!entered(draft) || (result.status !== 'ok' && result.status !== 'waiting')) return null;
  return result.answers[result.counted]?.verdict ?? null;
}

/** @param {State} state @param {Stand} stand @returns {boolean} whether a reading can be kept with the bike */
export function keepsReading({ garage }, { bike }) {
  return Boolean(bike.fitted_chain_id) || mayLead(garage?.role);
}

/** @param {State} state @param {Stand} stand what it takes to clear the bike as things stand */
export function clearingNow(state, stand) {
  return clearing({ stand, verdict: readingVerdict(state), keeps: keepsReading(state, stand) });
}

/** @param {string} code @param {'hold'|'clear'} group */
export function reasonWords(code, group) {
  return named(`round.${group}`, code);
}

let busy = false;

/**
 * Clears or holds a bike, with the reading in hand and the reasons given, then
 * goes back to the round.
 * @param {Round} round
 * @param {Stand} stand
 * @param {'cleared'|'held'} state
 */
export async function decide(round, stand, state) {
  if (busy) return;
  busy = true;
  try {
    await settled();
    const made = changes(now(), round, stand, state);
    if (made && (await kept(made))) after(round, stand, state, made);
  } finally {
    busy = false;
  }
}

/**
 * @param {State} state
 * @param {Round} round
 * @param {Stand} stand
 * @param {'cleared'|'held'} decided
 * @returns {Change[]|null} null when that would not be right as things stand
 */
function changes(state, round, stand, decided) {
  const { draft, result, person } = state;
  if (entered(draft) && result.status !== 'ok' && decided === 'cleared') return null;
  const base = draftOf(round.id, stand.bike.bike_id);
  const step = decided === 'held' ? 'hold' : 'clear';
  const reason = reasonText(recallForm(`${base}/${step}`), (code) => reasonWords(code, step));
  const answer = entered(draft) && result.status === 'ok' ? result.answers[result.counted] : null;
  if (decided === 'cleared' && !reason && clearingNow(state, stand) !== 'yes') return null;
  if (decided === 'held' && !reason && !answer) return null;
  const at = new Date().toISOString();
  const by = person.trim() ? { by: person.trim() } : {};
  const reading = answer && keepsReading(state, stand) ? readingChanges(state, stand, at, by) : [];
  const words = answer ? readingWords(answer) : '';
  const note = [words, recallForm(base).text.trim()].filter(Boolean).join('. ');
  const put = {
    ...{ round_id: round.id, bike_id: stand.bike.bike_id, at, state: decided, ...by },
    ...(reading.length ? { reading_id: reading[reading.length - 1].record_id } : {}),
    ...(reason || (decided === 'held' && !reading.length) ? { reason: reason || words } : {}),
    ...(note ? { note } : {}),
  };
  return [...reading, { table: 'round_checks', record_id: newId(), put }];
}

/** @param {import('../data/request.js').Answer} answer */
function readingWords({ elongation_percent, verdict }) {
  return t('round.reading', { percent: percent(elongation_percent), verdict: named('verdict', verdict) });
}

/**
 * @param {State} state
 * @param {Stand} stand
 * @param {string} at
 * @param {{by?: string}} by
 * @returns {Change[]} the reading, after a chain to keep it with if there was none; the reading is the last
 */
function readingChanges({ result }, { bike }, at, by) {
  const { fitted_chain_id, chain_km, km } = bike;
  const chain = fitted_chain_id ?? newId();
  const { reading } = /** @type {any} */ (result.requests[result.counted]);
  const put = { chain_id: chain, at, at_km: chain_km ?? km, reading, ...by };
  const fresh = { table: 'chains', record_id: chain, put: { bike_id: bike.bike_id, fitted_at_km: 0 } };
  return [...(fitted_chain_id ? [] : [fresh]), { table: 'readings', record_id: newId(), put }];
}

/**
 * @param {Round} round
 * @param {Stand} stand
 * @param {'cleared'|'held'} state
 * @param {Change[]} made
 */
function after(round, stand, state, made) {
  const { draft } = now();
  const base = draftOf(round.id, stand.bike.bike_id);
  for (const key of [base, `${base}/hold`, `${base}/clear`]) keepForm(key, { reasons: [], text: '' });
  const back = made.flatMap((one) => {
    if (one.table === 'round_checks')
      return { table: one.table, record_id: one.record_id, remove: /** @type {const} */ (true) };
    return one.table === 'readings'
      ? { table: one.table, record_id: one.record_id, put: { void_reason: t('round.void') } }
      : [];
  });
  told(state, `round/${round.id}`, stand.bike.fields.name, back, entered(draft) ? draft : null);
  change(cleared(draft));
  set({ flash: '' });
  location.hash = `#/round/${round.id}`;
}
