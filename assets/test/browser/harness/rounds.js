/** Bikes for rounds, invented, and the steps that stories of a round share. */
import { door, programWithDoors } from './doors.js';
import { goTo, newPhone, openAndKeep } from './phone.js';
import { startServer } from './server.js';

/** @typedef {import('playwright-core').Page} Page */

/** @type {[name: string, fields: object, chain: boolean][]} */
const LOANERS = [
  ['Dipper', { drive: 'hub', care: 'usual', tag: 'CD9' }, true],
  ['Heron', { drive: 'derailleur', rear_sprockets: 9, care: 'gritty', tag: 'CF3' }, true],
  ['Kite', { drive: 'single', care: 'usual', tag: 'CG5', bears: ['child_seat'] }, true],
  ['Newt', { drive: 'hub', care: 'enclosed' }, true],
  ['Otter', { drive: 'derailleur', rear_sprockets: 11, care: 'gritty' }, false],
];

/**
 * Puts five loaners, four with a chain of 800 km, on the phone.
 * @param {Page} page
 * @returns {Promise<Record<string, string>>} their ids by name
 */
export async function addLoaners(page) {
  const bikes = LOANERS.map(([name, fields]) => ({ table: 'bikes', put: { name, set: 'loaners', ...fields } }));
  const ids = await door(page, 'save', bikes);
  const chained = ids.filter((/** @type {string} */ _, /** @type {number} */ i) => LOANERS[i][2]);
  await door(page, 'save', [
    ...chained.map((/** @type {string} */ bike_id) => ({ table: 'chains', put: { bike_id, fitted_at_km: 0 } })),
    ...chained.map((/** @type {string} */ bike_id) => ({
      table: 'distances',
      put: { bike_id, at: '2026-03-01T08:00:00Z', odometer_km: 800 },
    })),
  ]);
  return Object.fromEntries(LOANERS.map(([name], i) => [name, ids[i]]));
}

/**
 * @param {any} t
 * @param {import('./phone.js').Options} [options]
 * @returns {Promise<import('./phone.js').Phone & {ids: Record<string, string>, server: import('./server.js').Server}>}
 *   a phone with the loaners on it, at Round, with no network any more
 */
export async function phoneWithLoaners(t, options) {
  const server = await startServer(t, await programWithDoors());
  const phone = await newPhone(t, server.origin, options);
  await openAndKeep(phone.page);
  const ids = await addLoaners(phone.page);
  await server.stop();
  await phone.offline(true);
  await goTo(phone.page, '/#/round');
  return { ...phone, ids, server };
}

/** @param {Page} page @param {string} counts "2 of 5 cleared, 1 held, 2 not seen yet" */
export async function stands(page, counts) {
  await page.getByRole('img', { name: counts }).waitFor();
}

/** @param {Page} page @param {string} name of a bike in the list of a round */
export function line(page, name) {
  return page.locator('a.row', { hasText: name }).first();
}
