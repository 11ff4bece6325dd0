/**
 * The page with doors from a test to what its screens call, for what has no
 * screen or would be slow by touch. Everything behind the doors is the page's
 * own.
 */
import { after } from 'node:test';
import { buildEdition } from './edition.js';

/** @typedef {import('playwright-core').Page} Page */

const SCRIPT = `
import * as garageDoors from '../data/garage.js';
import * as sharingDoors from '../sync/sharing.js';
const text = async () => (await sharingDoors.exportAll()).blob.text();
const take = (file) => sharingDoors.importFile(new Blob([file]));
globalThis.doors = { ...garageDoors, ...sharingDoors, exportText: text, importText: take, state: () => now() };
`;

/** @type {Promise<{program: string, remove: () => Promise<void>}>|undefined} */
let edition;

/** @returns {Promise<string>} path of the program with doors, built once a file */
export async function programWithDoors() {
  edition ??= buildEdition('doors', SCRIPT);
  return (await edition).program;
}

after(async () => (await edition)?.remove());

/**
 * Calls one of the page's own functions.
 * @param {Page} page
 * @param {string} name
 * @param {...unknown} args
 * @returns {Promise<any>} what it gives, or `{fault}` or `{reason}` of what it throws
 */
export async function door(page, name, ...args) {
  await page.waitForFunction(() => /** @type {any} */ (globalThis).doors?.state().garage);
  return page.evaluate(async ([called, given]) => {
    try {
      return await /** @type {any} */ (globalThis).doors[called](...given);
    } catch (error) {
      const { fault, reason, message } = /** @type {any} */ (error);
      return { fault, reason, message };
    }
  }, /** @type {const} */ ([name, args]));
}

/** @typedef {import('../../../src/data/garage.js').GarageState} GarageState */

/** After this long something will not come any more, ms; generous, since machines differ. */
const PATIENCE_MS = 30_000;

/**
 * @param {Page} page
 * @param {(garage: GarageState) => unknown} test
 * @returns {Promise<GarageState>} once it is true of the garage
 */
export async function until(page, test) {
  const end = Date.now() + PATIENCE_MS;
  for (;;) {
    const now = await garage(page);
    if (test(now)) return now;
    if (Date.now() > end) throw new Error(`not so in time: ${test}, but ${JSON.stringify(now)}`);
    await page.waitForTimeout(20);
  }
}

/** @param {Page} page @returns {Promise<import('../../../src/data/garage.js').GarageState>} */
export async function garage(page) {
  return (await door(page, 'state')).garage;
}
