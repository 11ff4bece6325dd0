/** One garage's exchange with its server: what is new goes there, what is new there comes here. */
import { adopt } from '../data/whole.js';
import { commit, garageNamed } from '../data/garage-store.js';
import { unsentAfter } from '../data/garage-read.js';
import { untilKept } from '../data/tabs.js';
import { ServerFault, call } from './client.js';
import { Known } from './known.js';
import { restampAhead } from './restamp.js';
import { putAside, retell, setBack } from './retell.js';
import { clockIsRight } from './rhythm.js';
import { prepare, take } from './take.js';

/**
 * @typedef {import('../data/garage-store.js').Unsent} Unsent
 * @typedef {{cursor: string, past: number|undefined, told: ReturnType<typeof call>}} Early what was asked for before its turn
 */

/** The most operations the contract allows in a call. */
const MOST_OPS = 500;

/** A call is kept to about this size, so that a weak signal loses little, characters. */
const MOST_TEXT = 256 * 1024;

/**
 * Runs until both have everything. What went through stays, whatever happens
 * after.
 * @param {string} key of the garage
 * @param {AbortSignal} [signal]
 * @returns {Promise<void>}
 * @throws {import('./client.js').ServerFault|import('./client.js').NoSignal|import('../data/database.js').KeepError}
 */
export async function exchange(key, signal) {
  await adopt(key);
  let restamped = false;
  /** @type {Known|null} */
  let known = null;
  let early = /** @type {Early|null} */ (null);
  for (let after = ''; ;) {
    const garage = await garageNamed(key);
    if (!garage?.token || garage.shut) return;
    if (garage.retelling === 'aside') await putAside(key);
    const ask = (/** @type {string} */ cursor, /** @type {Unsent[]} */ some) => {
      const body = { cursor, ops: some.map(({ op }) => op) };
      return call('POST', `/garages/${garage.id}/sync`, { token: garage.token, body, signal });
    };
    const asked = early?.cursor === garage.cursor && early.past === garage.past ? early.told : null;
    const silent = asked || garage.retelling;
    const { sent, upTo } = silent ? { sent: [], upTo: asked ? after : '' } : await nextBatch(key, after);
    /** @type {Awaited<ReturnType<typeof call>>} */
    const { answer, serverMS } = await (asked ?? ask(garage.cursor, sent)).catch((error) => shut(key, error));
    early = null;
    if (answer.set_back) {
      await setBack(garage, answer.cursor);
      after = '';
      continue;
    }
    if (answer.more) known ??= await Known.of(key);
    if (answer.more && !garage.retelling && !(await unsentAfter(key, upTo, 1)).length) {
      early = { cursor: answer.cursor, past: garage.past, told: ask(answer.cursor, []) };
      early.told.then(({ answer: next }) => known && prepare(next, known)).catch(() => {}); // told when its turn comes
    }
    const taken = await take(garage, sent, answer, known);
    after = taken ? upTo : '';
    const ahead = answer.rejected.some((/** @type {{code: string}} */ one) => one.code === 'clock_ahead');
    if (!taken) continue;
    if (ahead && !restamped && clockIsRight(Date.now(), serverMS)) {
      await restampAhead(key);
      restamped = true;
      after = '';
    } else if (garage.retelling && !answer.more) {
      await retell(key);
    } else if (!answer.more && !(await unsentAfter(key, after, 1)).length) {
      return;
    }
  }
}

/**
 * @param {string} key
 * @param {string} after clock
 * @returns {Promise<{sent: Unsent[], upTo: string}>} what to send next, and the clock up to which that goes; what
 *   other devices made may have one clock, and stays together
 */
async function nextBatch(key, after) {
  const sent = [];
  let size = 0;
  let upTo = after;
  const next = await unsentAfter(key, after, MOST_OPS);
  const cut = next.length === MOST_OPS ? next[MOST_OPS - 1].hlc : '';
  for (const one of next) {
    const waits = !one.refused || one.waits;
    if (waits) size += JSON.stringify(one.op).length;
    if (sent.length && one.hlc !== upTo && (size > MOST_TEXT || one.hlc === cut)) break;
    if (waits) sent.push(one);
    upTo = one.hlc;
  }
  return { sent, upTo };
}

/**
 * Notes that the server does not know this phone, or the garage, any more.
 * @param {string} key
 * @param {unknown} error
 * @returns {Promise<never>}
 */
async function shut(key, error) {
  /** @type {Record<number, 'revoked'|'gone'>} */
  const reasons = { 401: 'revoked', 404: 'gone' };
  const reason = error instanceof ServerFault ? reasons[error.status] : undefined;
  if (reason) {
    await untilKept(async () => {
      const now = await garageNamed(key);
      return now ? commit(key, now.turn, { garage: { shut: reason } }) : Infinity;
    });
  }
  throw error;
}
