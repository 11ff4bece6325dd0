/** Joining a garage by a link, and what becomes of what was on the phone before. */
import { drop } from '../app/forms.js';
import { focusNext } from '../app/focus.js';
import { now, set } from '../app/store.js';
import { KeepError } from '../data/database.js';
import { NoSignal } from '../sync/client.js';
import { bringIn, join } from '../sync/sharing.js';
import { nameHolder } from './share-actions.js';

/**
 * @typedef {{status: 'ask'|'busy'|'joined'|'brought', told: Awaited<ReturnType<typeof join>>|null,
 *   wrong: ''|'signal'|'fault', fault: import('../data/request.js').Fault|null}} Join
 */

/** Name of the form with this phone's name. */
export const FORM = 'join';

/** @param {string} code of the invitation, empty once it was used */
export function openJoin(code) {
  if (code) put({ status: 'ask', told: null, wrong: '', fault: null });
}

/** @param {string} name of this phone */
export async function joinNow(name) {
  if (now().join.status === 'busy') return;
  put({ status: 'busy', wrong: '' });
  try {
    const told = await join(now().argument, name);
    drop(FORM);
    nameHolder(name);
    // The secret leaves the address, and the history of the browser with it.
    history.replaceState(null, '', '#/join/');
    set({ argument: '' });
    put({ status: 'joined', told });
    focusNext('place');
  } catch (error) {
    failed(error, 'ask');
  }
}

/** @param {string} key of a garage of this phone that goes into the joined one */
export async function bring(key) {
  if (now().join.status === 'busy') return;
  put({ status: 'busy', wrong: '' });
  try {
    await bringIn(key);
    put({ status: 'brought' });
    focusNext('place');
  } catch (error) {
    failed(error, 'joined');
  }
}

/** @param {unknown} error @param {Join['status']} status to go back to */
function failed(error, status) {
  if (error instanceof KeepError) set({ trouble: error.reason });
  const fault = /** @type {any} */ (error).fault ?? null;
  put({ status, wrong: error instanceof NoSignal ? 'signal' : fault ? 'fault' : '', fault });
}

/** @param {Partial<Join>} part */
function put(part) {
  set({ join: { ...now().join, ...part } });
}
