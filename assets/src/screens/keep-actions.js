/** Gives a reading to a bike, to a new bike, or to none. */
import { focusNext } from '../app/focus.js';
import { leave } from '../app/leave.js';
import { now, set } from '../app/store.js';
import { cleared } from '../data/draft.js';
import { gone } from '../data/distance-entry.js';
import { newId } from '../data/ids.js';
import { instrumentOf } from '../data/instruments.js';
import { readingChanges } from '../data/keep-reading.js';
import { recallKept, rewrite } from '../data/kept.js';
import { forget, keep, recall } from '../data/local.js';
import { wearRequest } from '../data/meaning.js';
import { mayLead } from '../data/roles.js';
import { readFar } from '../parts/distances.js';
import { inverse } from '../data/undo.js';
import { t } from '../words/t.js';
import { askFor, put, takeUp } from './bike-work.js';
import { fitted, knownDistance, usualMode } from './change-actions.js';
import { change, keepDraft, settled } from './check-actions.js';
import { size } from './kept.js';

/**
 * @typedef {import('../app/store.js').State} State
 * @typedef {import('../data/kept.js').Kept} Kept
 * @typedef {{source: string, bike_id: string, first: string, search: string, name: string, mode: 'odometer'|'since', text: string,
 *   ran: string, odometer: string}} Keeping source: id of a loose reading, empty for the one on Check; bike_id: empty while none is
 *   chosen, `new` for a new one; first: chosen to begin with; ran: what a chain nobody
 *   knew has run, odometer: what a new bike's shows, both as typed
 */

/** @type {Keeping} */
const EMPTY = {
  source: '',
  bike_id: '',
  first: '',
  search: '',
  name: '',
  mode: 'odometer',
  text: '',
  ran: '',
  odometer: '',
};

/** @param {string} source id of a loose reading, empty for the one on Check */
export async function openKeep(source) {
  const kept = recall('keeping', { ...EMPTY, source: 'none' });
  const { draft, garage } = now();
  const [only = NEW, more] = garage?.bikes.map((one) => one.bike_id) ?? [];
  const first = (source ? '' : draft.bike?.bike_id) || (more ? '' : only);
  const keeping = kept.source === source ? kept : { ...EMPTY, source, bike_id: first, first };
  set({ keeping, loose: null, refused: '', flash: '' });
  const loose = source ? (await recallKept()).find((one) => one.record_id === source) : null;
  if (now().keeping?.source !== source) return;
  set({ loose: loose ?? null });
  if (keeping.bike_id && keeping.bike_id !== NEW) takeUp(keeping.bike_id, begin);
}

/** Stands for a bike that is not there yet. */
export const NEW = 'new';

/** @param {Partial<Keeping>} part */
export function putKeeping(part) {
  const keeping = { ...(now().keeping ?? EMPTY), ...part };
  set({ keeping, trouble: keep('keeping', keeping) });
}

/** @param {string} bike_id */
export function chooseBike(bike_id) {
  putKeeping({ bike_id, text: '', ran: '' });
  if (bike_id !== NEW) takeUp(bike_id, begin);
  focusNext(bike_id === NEW ? 'keep-name' : 'keep-done');
}

/**
 * How far is asked as it is best known, unless something is typed already; and
 * the reading is judged for this bike.
 * @param {import('../data/garage.js').BikeDetail} detail
 */
async function begin(detail) {
  const { keeping } = now();
  if (keeping && !keeping.text) putKeeping({ mode: usualMode(detail) });
  await settled();
  const from = source(now());
  if (!from) return;
  const chain = detail.chains[detail.meaning.fitted_chain_id ?? '']?.fields ?? {};
  askFor('judged', 'wear', wearRequest(detail.bike.fields, chain, from.requests[from.counted]));
}

/** @param {State} state @returns {import('../data/kept.js').KeptFields|null} the reading that is to be kept */
export function source({ keeping, loose, draft, result }) {
  if (keeping?.source) return loose?.fields ?? null;
  if (result.status !== 'ok') return null;
  const at = new Date(draft.at ?? Date.now()).toISOString();
  return {
    at,
    requests: result.requests,
    counted: result.counted,
    answer: result.answers[result.counted],
    note: '',
    ...instrumentOf(draft),
  };
}

/**
 * @param {State} state
 * @returns {{ready: boolean, ran: number|null, odometer: number|null, gone: import('../data/distance-entry.js').Gone|null,
 *   asksRan: boolean}} asksRan: the chain is not known yet, so it is asked what it has run
 */
export function standing(state) {
  const { keeping, work, settings } = state;
  const { units } = settings;
  const isNew = keeping?.bike_id === NEW;
  const detail = work && work.bike_id === keeping?.bike_id ? work.detail : null;
  const ran = readFar(keeping?.ran ?? '', units);
  const asksRan = isNew || Boolean(detail && unknownAge(detail, mayLead(state.garage?.role)));
  const then = detail && keeping ? gone(keeping, knownDistance(detail, source(state)?.at), units) : null;
  const odometer = isNew ? readFar(keeping?.odometer ?? '', units) : null;
  const named = isNew ? Boolean(keeping?.name.trim()) : Boolean(detail);
  const ready = named && (asksRan ? ran !== null && !Number.isNaN(ran) && !Number.isNaN(odometer) : !then?.fault);
  return { ready, ran, odometer, gone: then, asksRan };
}

/** Whether it is asked what the bike's chain had run before its first reading. @param {import('../data/garage.js').BikeDetail} detail @param {boolean} lead whether it can be noted */
function unknownAge(detail, lead) {
  const chain = fitted(detail);
  return !chain || (lead && !chain.reading_ids.length && detail.chains[chain.chain_id].fields.km_before === undefined);
}

/** Keeps it where it was said to belong, and goes there. */
export async function finishKeep() {
  const state = now();
  const { keeping, draft, work, loose } = state;
  const from = source(state);
  const { ready, ran, odometer, gone: then, asksRan } = standing(state);
  if (!keeping || !from || !ready) return;
  const isNew = keeping.bike_id === NEW;
  const bike_id = isNew ? newId() : keeping.bike_id;
  const on = work?.detail && !isNew ? fitted(work.detail) : null;
  const changes = readingChanges(
    { ...from, note: [from.note, placesOf(from.requests, from.counted)].filter(Boolean).join('\n') },
    {
      bike_id,
      chain_id: on?.chain_id ?? newId(),
      distance: odometer === null ? (asksRan ? null : (then?.put ?? null)) : { odometer_km: odometer },
      at_km: asksRan ? Number(ran) : Number(then?.chainKM),
      newChain: on
        ? null
        : {
            fitted_at_km: isNew ? (odometer ?? 0) : (work?.detail?.meaning.km ?? 0),
            km_before: Number(ran),
          },
      newBike: isNew ? { name: keeping.name.trim(), ...driveOf(draft) } : null,
    },
  );
  // What it had run before the bike's own count of it began.
  if (on && asksRan) {
    changes.unshift({ table: 'chains', record_id: on.chain_id, put: { km_before: Math.max(0, Number(ran) - on.km) } });
  }
  const before = Object.values(work?.detail?.chains ?? {});
  const ids = await put(changes);
  if (!ids) return;
  forget('keeping');
  if (loose) await rewrite({ ...loose, removed: true });
  else change(cleared(now().draft));
  const name = isNew ? keeping.name.trim() : work?.detail?.bike.fields.name;
  set({ did: { text: t('keep.done.on', { name }), undo: takenBack(changes, ids, before), at: Date.now() } });
  leave(`#/bike/${bike_id}`);
}

/** What takes it back: a reading is voided, what was added for it is removed. @param {import('../data/chain-change.js').Change[]} changes @param {string[]} ids @param {import('../data/undo.js').Row[]} before */
function takenBack(changes, ids, before) {
  const reading = { table: 'readings', record_id: ids[ids.length - 1], put: { void_reason: t('ahead.undo.reason') } };
  return [reading, ...inverse(changes, ids, before)];
}

/** Keeps it on this phone, with no bike. */
export async function keepLoose() {
  forget('keeping');
  if (!now().keeping?.source) await keepDraft();
  leave(now().keeping?.source ? '#/kept' : '#/check');
}

/** @param {import('../data/draft.js').Draft} draft what Check says about the bike's drive */
function driveOf({ drive: { kind, sprockets, chosen } }) {
  if (!chosen) return { drive: 'derailleur' };
  return kind === 'derailleur' ? { drive: kind, rear_sprockets: sprockets } : { drive: kind };
}

/** The other places measured go into the note, so that none is lost. @param {any[]} requests @param {number} counted */
export function placesOf(requests, counted) {
  const others = requests.filter((_, i) => i !== counted).map(({ reading }) => size(reading));
  return others.length ? t('keep.places', { list: others.join(' · ') }) : '';
}
