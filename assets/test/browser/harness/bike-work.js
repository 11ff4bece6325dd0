/** Steps of the stories about bikes. */
import { execFile } from 'node:child_process';
import { promisify } from 'node:util';
import { type } from './phone.js';
import { PROGRAM } from './server.js';
import { more } from './stories.js';

/** @typedef {import('playwright-core').Page} Page */

/**
 * Nudges the pin so many marks past a new chain's end. The first touch puts it
 * one mark on.
 * @param {Page} page
 * @param {number} marks
 */
export async function nudge(page, marks) {
  for (let i = 0; i < marks; i++) await more(page).tap();
  await page.locator('.tag:not(.busy) .figure').waitFor();
}

/**
 * A first reading on a bike that is not there yet.
 * @param {Page} page on Check, with no bike on the phone
 * @param {{marks: number, name: string, ran: RegExp}} reading `ran`: what stands on the chip for the chain's distance
 */
export async function firstReading(page, { marks, name, ran }) {
  await nudge(page, marks);
  await page.getByRole('button', { name: 'Keep this reading' }).tap();
  await page.getByRole('link', { name: 'Give it to a bike' }).tap();
  await type(page, 'Name of the bike', name);
  await page.getByRole('button', { name: ran }).tap();
  await page.getByRole('button', { name: `Keep it for ${name}` }).tap();
  await page.getByRole('heading', { name, level: 1 }).waitFor();
}

/**
 * Another reading, from the bike's page, after some kilometres.
 * @param {Page} page on the bike's page
 * @param {{marks: number, name: string, km: string}} reading `km`: ridden since the last entry
 */
export async function nextReading(page, { marks, name, km }) {
  await page.getByRole('link', { name: 'Take a reading' }).tap();
  await page.getByRole('button', { name, exact: true }).waitFor(); // the bike whose chain it is
  await nudge(page, marks);
  await page.getByRole('button', { name: 'Keep this reading' }).tap();
  await type(page, /^Ridden since/, km);
  await page.getByRole('button', { name: `Keep it for ${name}` }).tap();
  await page.getByRole('heading', { name, level: 1 }).waitFor();
}

/** @param {Page} page @returns {Promise<string[][]>} the rows of the forecast's table behind the fan, as shown */
export async function forecastRows(page) {
  const fold = page.locator('.fan-table');
  if (!(await fold.evaluate((one) => /** @type {any} */ (one).open))) await fold.locator('summary').tap();
  await fold.locator('table').first().waitFor();
  return fold
    .locator('table', { hasText: 'From now on' })
    .locator('tbody tr')
    .evaluateAll((rows) => rows.map((row) => [...row.children].map((cell) => cell.textContent?.trim() ?? '')));
}

/** @param {string} name @param {object} request @returns {Promise<any>} the answer of the program in a shell */
export async function shell(name, request) {
  const run = promisify(execFile)(PROGRAM, ['calc', name]);
  run.child.stdin?.end(JSON.stringify(request));
  return JSON.parse((await run).stdout);
}
