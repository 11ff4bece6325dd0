/**
 * What comes to and goes from a large garage, and a round of all its bikes, on a
 * processor slowed down four times: how long the page is deaf to the thumb, and
 * how much of the processor the page takes.
 */
import { openAndKeep } from '../browser/harness/phone.js';
import { slowCPU } from './page.js';
import { file, longest, watchTasks } from './shed.js';

/**
 * @typedef {import('playwright-core').Page} Page
 * @typedef {import('../browser/harness/phone.js').Phone} Phone
 * @typedef {{task: number, busy: number}} Moved the longest task, ms, and the page's own time for 1,000 records, ms
 * @typedef {{open: number, scroll: number, search: number, clear: number}} Walk the longest task of each, ms
 */

/** So many bikes with 20 readings each, 62 records. */
const BIKES = 80;

const RECORDS = BIKES * 62;

/** @param {Phone} phone */
async function ready({ page, context }) {
  await page.addInitScript(watchTasks);
  await openAndKeep(page, '/#/check');
  await page.waitForFunction(() => /** @type {any} */ (globalThis).stateNow?.().garage);
  await slowCPU(context, page);
}

/**
 * @param {Phone} phone
 * @param {() => Promise<unknown>} work that moves all the records
 * @returns {Promise<Moved>}
 */
async function moved({ page, context }, work) {
  const cdp = await context.newCDPSession(page);
  await cdp.send('Performance.enable', { timeDomain: 'threadTicks' });
  const busy = async () => {
    const { metrics } = await cdp.send('Performance.getMetrics');
    return Number(metrics.find(({ name }) => name === 'TaskDuration')?.value);
  };
  const before = await busy();
  const task = await longest(page, work);
  return { task, busy: (1e6 * ((await busy()) - before)) / RECORDS };
}

/**
 * @param {Phone} one that takes a file in and shares it
 * @param {Phone} other that joins and pulls it
 * @returns {Promise<{taken: Moved, pulled: Moved}>}
 */
export async function comings(one, other) {
  await ready(one);
  await one.page.evaluate((text) => Object.assign(globalThis, { text }), file(0, BIKES, 20));
  const taken = await moved(one, () => {
    return one.page.evaluate(() => /** @type {any} */ (globalThis).takeIn(/** @type {any} */ (globalThis).text));
  });
  const link = await one.page.evaluate(async () => {
    const { share, invite, stateNow } = /** @type {any} */ (globalThis);
    await share('Shed', 'One');
    const agreed = () => stateNow().garage.sync.state === 'idle' && stateNow().garage.sync.unsent === 0;
    while (!agreed()) await new Promise((again) => setTimeout(again, 500));
    return (await invite('leader', 1, 3600)).code;
  });
  await ready(other);
  const pulled = await moved(other, async () => {
    await other.page.evaluate((code) => /** @type {any} */ (globalThis).join(code, 'Other'), link);
    await other.page.waitForFunction(
      (n) => {
        const { garage } = /** @type {any} */ (globalThis).stateNow();
        return garage.sync.state === 'idle' && garage.bikes.length === n;
      },
      BIKES,
      { timeout: 600_000, polling: 500 },
    );
  });
  return { taken, pulled };
}

/** @param {Page} page with a large garage @returns {Promise<number>} ms of the longest task while all of it becomes a file */
export function givingOut(page) {
  return longest(page, () => page.evaluate(() => /** @type {any} */ (globalThis).giveOut()));
}

/** @param {Page} page with a large garage @returns {Promise<Walk>} through a round of all its bikes, a third of them seen */
export async function walk(page) {
  const id = await page.evaluate(async () => {
    const { saveNow, stateNow } = /** @type {any} */ (globalThis);
    const at = new Date().toISOString();
    const [round_id] = await saveNow([{ table: 'rounds', put: { name: 'All', started_at: at } }]);
    const seen = stateNow().garage.bikes.filter((/** @type {any} */ _, /** @type {number} */ i) => i % 3 === 0);
    const check = ({ bike_id = '' }) => ({
      table: 'round_checks',
      put: { round_id, bike_id, at, by: 'Ada', state: 'cleared' },
    });
    await saveNow(seen.map(check));
    return round_id;
  });
  const open = await longest(page, async () => {
    await page.evaluate((round) => void (location.hash = `#/round/${round}`), id);
    await page.locator('.paper tbody tr').nth(499).waitFor({ state: 'attached' });
  });
  const scroll = await longest(page, async () => {
    await page.getByRole('button', { name: /^Show \d+ more/ }).tap();
    await page.evaluate(async () => {
      for (let i = 0; i < 60; i++) {
        scrollBy(0, 200);
        await new Promise(requestAnimationFrame);
      }
    });
  });
  const search = await longest(page, async () => {
    await page.locator('#find').focus();
    for (const key of ['K', '-', '4', '1', 'Backspace', 'Backspace', 'Backspace', 'Backspace']) {
      await page.keyboard.press(key, { delay: 150 });
    }
  });
  await page.locator('.dock a.main').tap();
  const clear = await longest(page, async () => {
    await page.getByRole('button', { name: /^Clear it/ }).tap();
    await page.locator('#undo').waitFor();
  });
  return { open, scroll, search, clear };
}
