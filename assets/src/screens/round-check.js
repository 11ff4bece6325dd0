/** A bike of a round is read, cleared or held. */
import { goToLine } from '../app/focus.js';
import { now, set } from '../app/store.js';
import { swapped } from '../data/aside.js';
import { cleared, entered } from '../data/draft.js';
import { newId } from '../data/ids.js';
import { instrumentOf } from '../data/instruments.js';
import { readingChanges } from '../data/keep-reading.js';
import { mayLead } from '../data/roles.js';
import { EMPTY, keepForm, recallForm, reasonText } from '../data/round-form.js';
import { clearing } from '../data/rounds.js';
import { inverse } from '../data/undo.js';
import { readFar } from '../parts/distances.js';
import { percent } from '../words/numbers.js';
import { named, t } from '../words/t.js';
import { change, isOld, settled } from './check-actions.js';
import { placesOf } from './keep-actions.js';
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
export function takeUp(roundId, bike) {
  const { draft } = now();
  const mine = draftOf(roundId, bike.bike_id);
  if (draft.for === mine) return;
  const next = swapped(draft, mine, judgedBy(bike));
  change(next, { flash: isOld(next) ? 'old' : '' });
}

/** Sprockets to assume while their number is not known: those with the strictest limit. */
const STRICTEST = 12;

/** The strictest of the default limits, in percent; what bears more than a rider keeps to it (common practice, no source). */
const STRICT_LIMIT = 0.5;

/**
 * @param {BikeSummary} bike
 * @returns {Pick<import('../data/draft.js').Draft, 'drive'|'bike'>} its drive, and the limit that its chain is held to
 */
function judgedBy({ bike_id, fields: { drive, rear_sprockets, bears }, chain }) {
  const strict = bears?.length ? STRICT_LIMIT : Infinity;
  const limit = Math.min(chain?.limit_percent ?? Infinity, strict);
  return {
    drive: { kind: drive, sprockets: rear_sprockets ?? STRICTEST, chosen: true },
    bike: { bike_id, ...(limit === Infinity ? {} : { limit_percent: limit }) },
  };
}

/** @param {State} state @returns {import('../data/rounds.js').Verdict|null} of the reading in hand */
export function readingVerdict({ draft, result }) {
  if (!entered(draft) || (result.status !== 'ok' && result.status !== 'waiting')) return null;
  return result.answers[result.counted]?.verdict ?? null;
}

/**
 * @param {State} state
 * @param {Stand['bike']} bike
 * @returns {boolean} whether a reading can be kept with it: its chain is known, or may be added and it is said what it has run
 */
export function keepsReading({ garage, argument, settings }, { bike_id, fitted_chain_id }) {
  if (fitted_chain_id) return true;
  const ran = readFar(recallForm(draftOf(argument.split('/')[0], bike_id)).ran, settings.units);
  return mayLead(garage?.role) && ran !== null && !Number.isNaN(ran);
}

/** @param {State} state @param {Stand} stand what it takes to clear the bike as things stand */
export function clearingNow(state, stand) {
  return clearing({ stand, verdict: readingVerdict(state), keeps: keepsReading(state, stand.bike) });
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
  const read = answer && keepsReading(state, stand.bike) ? reading(state, round, stand, at) : [];
  const words = answer ? readingWords(answer) : '';
  const note = [words, recallForm(base).text.trim()].filter(Boolean).join('. ');
  const put = {
    ...{ round_id: round.id, bike_id: stand.bike.bike_id, at, state: decided, ...by },
    ...(read.length ? { reading_id: read[read.length - 1].record_id } : {}),
    ...(reason || (decided === 'held' && !read.length) ? { reason: reason || words } : {}),
    ...(note ? { note } : {}),
  };
  return [...read, { table: 'round_checks', record_id: newId(), put }];
}

/** @param {import('../data/request.js').Answer} answer */
function readingWords({ elongation_percent, verdict }) {
  return t('round.reading', { percent: percent(elongation_percent), verdict: named('verdict', verdict) });
}

/**
 * @param {State} state
 * @param {Round} round
 * @param {Stand} stand
 * @param {string} at
 * @returns {Change[]} the reading, after a chain to keep it with if there was none; the reading is the last
 */
function reading({ draft, result: { requests, counted }, person, settings }, round, { bike }, at) {
  const { bike_id, fitted_chain_id, chain_km, km } = bike;
  const ran = fitted_chain_id ? null : readFar(recallForm(draftOf(round.id, bike_id)).ran, settings.units);
  const source = { at, requests, counted, note: placesOf(requests, counted), ...instrumentOf(draft) };
  const to = {
    ...{ bike_id, chain_id: fitted_chain_id ?? newId(), distance: null, newBike: null },
    at_km: ran ?? chain_km ?? 0,
    newChain: fitted_chain_id
      ? null
      : { fitted_at_km: km, ...(ran === null || Number.isNaN(ran) ? {} : { km_before: ran }) },
  };
  return readingChanges(source, to, person.trim()).map((one) => ({ record_id: newId(), ...one }));
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
  for (const key of [base, `${base}/hold`, `${base}/clear`]) keepForm(key, EMPTY);
  const read = made.find(({ table }) => table === 'readings');
  const voided = read ? [{ ...read, put: { void_reason: t('round.void') } }] : [];
  const back = [
    ...voided,
    ...inverse(
      made,
      made.map(({ record_id }) => String(record_id)),
      [],
    ),
  ];
  told(state, `round/${round.id}`, stand.bike.fields.name, back, entered(draft) ? draft : null);
  change(cleared(draft));
  set({ flash: '' });
  goToLine(`#/round/${round.id}`, 'undo');
}
