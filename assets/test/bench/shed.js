/**
 * A large garage on a slow phone: 500 bikes with 100,000 records, the processor
 * slowed down four times. What counts is how long the page is deaf to the thumb.
 */
import { buildEdition } from '../browser/harness/edition.js';
import { openAndKeep } from '../browser/harness/phone.js';
import { readBike } from '../browser/harness/bikes.js';
import { slowCPU } from './page.js';

/**
 * @typedef {import('playwright-core').Page} Page
 * @typedef {import('../browser/harness/phone.js').Phone} Phone
 * @typedef {{seeded: number, load: number, open: number, scroll: number, search: number, fan: number}} Shed
 *   `seeded` s until all was taken in and worked out; `load`, `open`, `scroll`, `search`: the longest task, ms;
 *   `fan`: ms from the tap on a bike to its fan
 */

const BIKES = 500;

/** With a bike, its chain and three records a reading, 200 records a bike: 100,000 in all. */
const READINGS = 66;

const SCRIPT = `
import { now } from '../app/store.js';
import { exportAll, importFile, invite, join, startSharing } from '../sync/sharing.js';
import { save } from '../data/garage.js';
globalThis.takeIn = (text) => importFile(new Blob([text]));
Object.assign(globalThis, { giveOut: exportAll, invite, join, share: startSharing, saveNow: save, stateNow: now });
`;

/** The page with a way in for a file. */
export function edition() {
  return buildEdition('bench', SCRIPT);
}

/** @param {number} first @param {number} past @param {number} readings of each @returns {string} some bikes as a file that was given out */
export function file(first, past, readings) {
  /** @type {Record<string, {record_id: string, fields: object}[]>} */
  const tables = {};
  let loose = first * 1000;
  for (let i = first; i < past; i++) {
    const loaner = { tag: `K-${i}`, set: i % 3 ? 'loaners' : 'own' };
    const fields = { name: `Bike ${i}`, rear_sprockets: 8 + (i % 5), care: 'usual', km_per_week: 50, ...loaner };
    const worn = 0.1 + (i % 90) / 100;
    const wear = Array.from({ length: readings }, (_, n) => (worn * (n + 1)) / readings);
    /** @type {{table: string, record_id?: string, put: object}[]} */
    const changes = readBike(i + 1, { fields, km: 3000 + i, wear, every: 7 });
    for (const { table, record_id, put } of changes) {
      const id = record_id ?? `${(loose++).toString(16).padStart(8, '0')}-0000-4000-9000-000000000000`;
      (tables[table] ??= []).push({ record_id: id, fields: put });
    }
  }
  return JSON.stringify({ format: 'tautspan-garage-1', garage_id: '', name: 'Shed', exported_at: '', tables });
}

/** @param {Page} page @returns {Promise<void>} once every bike has its forecast */
function workedOut(page) {
  return page
    .waitForFunction(
      (n) => {
        const { garage } = /** @type {any} */ (globalThis).stateNow?.() ?? {};
        return garage?.bikes.length === n && garage.bikes.every((/** @type {any} */ bike) => bike.forecast);
      },
      BIKES,
      { timeout: 1_200_000, polling: 1000 },
    )
    .then(() => undefined);
}

/** Runs in the page before its own scripts: notes every task of 50 ms and more. */
export function watchTasks() {
  /** @type {number[]} */
  const long = [];
  Object.assign(globalThis, { long });
  new PerformanceObserver((list) => long.push(...list.getEntries().map((task) => task.duration))).observe({
    type: 'longtask',
    buffered: true,
  });
}

/** @param {Page} page @param {() => Promise<unknown>} work @returns {Promise<number>} ms of the longest task meanwhile */
export async function longest(page, work) {
  await page.waitForTimeout(500);
  await page.evaluate(() => /** @type {any} */ (globalThis).long.splice(0));
  await work();
  await page.waitForTimeout(1000);
  return page.evaluate(() => Math.max(0, .../** @type {any} */ (globalThis).long));
}

/** @param {Phone} phone @param {number} [readings] of each bike @returns {Promise<Shed>} */
export async function shed({ page, context }, readings = READINGS) {
  await openAndKeep(page, '/#/check');
  const from = Date.now();
  await page.waitForFunction(() => /** @type {any} */ (globalThis).stateNow?.().garage);
  await page.evaluate((text) => /** @type {any} */ (globalThis).takeIn(text), file(0, BIKES, readings));
  await workedOut(page);
  const seeded = (Date.now() - from) / 1000;
  await page.addInitScript(watchTasks);
  await slowCPU(context, page);
  await page.goto('/#/bikes');
  await page.reload();
  await page.locator('.bike-line').first().waitFor();
  await page.waitForTimeout(3000);
  const load = await page.evaluate(() => Math.max(0, .../** @type {any} */ (globalThis).long));
  await page.getByRole('link', { name: 'Check', exact: true }).tap();
  const open = await longest(page, async () => {
    await page.getByRole('link', { name: 'Bikes', exact: true }).tap();
    await page.locator('.bike-line').first().waitFor();
  });
  const scroll = await longest(page, () => scrollDown(page));
  const search = await longest(page, async () => {
    await page.evaluate(() => scrollTo(0, 0));
    await page.locator('#find').focus();
    for (const key of 'bike 41') await page.keyboard.type(key, { delay: 150 });
    await page.getByText(`15 of ${BIKES}`).waitFor();
  });
  return { seeded, load, open, scroll, search, fan: await fan(page) };
}

/** As by a thumb that flings again and again, until the last bike is drawn. @param {Page} page */
async function scrollDown(page) {
  await page.evaluate(async () => {
    while (innerHeight + scrollY < document.body.scrollHeight - 2) {
      scrollBy(0, 120);
      await new Promise(requestAnimationFrame);
    }
  });
  await page.locator('[data-piece]').last().locator('.bike-line').last().waitFor();
}

/** @param {Page} page @returns {Promise<number>} ms from the tap on a bike to its fan, the median of five */
async function fan(page) {
  const times = [];
  for (const i of [0, 1, 2, 3, 4]) {
    times.push(
      await page.evaluate(async (n) => {
        const line = /** @type {HTMLElement} */ (document.querySelectorAll('.bike-line')[n]);
        const from = performance.now();
        line.click();
        while (!document.querySelector('.fan svg')) await new Promise(requestAnimationFrame);
        return performance.now() - from;
      }, i),
    );
    await page.goBack();
    await page.locator('.bike-line').nth(5).waitFor();
  }
  return times.sort((a, b) => a - b)[2];
}
