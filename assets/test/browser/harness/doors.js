/**
 * The page with doors from a test to what its screens call, for what has no
 * screen or would be slow by touch. Everything behind the doors is the page's
 * own.
 */
import { after } from 'node:test';
import { DOORS, buildDoors } from './doors-edition.js';
import { until as look } from './patience.js';

/** @typedef {import('playwright-core').Page} Page */

/** @type {Promise<{program: string, remove: () => Promise<void>}>|undefined} */
let edition;

/** @returns {Promise<string>} path of the program with doors: the run's, else built for this file */
export async function programWithDoors() {
  const ofRun = process.env[DOORS];
  if (ofRun) return ofRun;
  edition ??= buildDoors();
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

/**
 * @param {Page} page
 * @param {(garage: GarageState) => unknown} test
 * @returns {Promise<GarageState>} once it is true of the garage
 */
export function until(page, test) {
  return look(() => garage(page), test);
}

/** @param {Page} page @returns {Promise<import('../../../src/data/garage.js').GarageState>} */
export async function garage(page) {
  return (await door(page, 'state')).garage;
}
