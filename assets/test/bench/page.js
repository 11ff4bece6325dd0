/** The page's speeds, on lines and processors slowed down by the browser. */
import { openAndKeep } from '../browser/harness/phone.js';
import { more } from '../browser/harness/stories.js';

/** @typedef {import('../browser/harness/phone.js').Phone} Phone */

/** What the answer to a reading of 12 1/16 in says; the clock stops when it stands on the page. */
const ANSWER = '0.52 % longer than new';

/** Slow 4G as used in lab tests: 1.6 Mbit/s down, 750 kbit/s up, 150 ms there and back. */
const SLOW_4G = { offline: false, latency: 150, downloadThroughput: 1.6e6 / 8, uploadThroughput: 750e3 / 8 };

/**
 * A first visit over a slow line; the rider nudges once as soon as there is
 * something to nudge.
 * @param {Phone} phone
 * @returns {Promise<{text: number, answer: number}>} s from navigation
 */
export async function slowStart({ page, context }) {
  const cdp = await context.newCDPSession(page);
  await cdp.send('Network.enable');
  await cdp.send('Network.emulateNetworkConditions', SLOW_4G);
  await page.addInitScript(stopwatch, ANSWER);
  await page.goto('/', { waitUntil: 'commit' });
  await more(page).tap();
  const answer = await answered(page);
  const text = await page.evaluate(() => performance.getEntriesByName('first-contentful-paint')[0].startTime / 1000);
  return { text, answer };
}

/**
 * Opening the kept app, where a reading was left halfway, with no network.
 * @param {Phone} phone
 * @param {import('../browser/harness/server.js').Server} server
 * @returns {Promise<number>} s from navigation to the answer
 */
export async function offlineStart({ page, context, offline }, server) {
  await openAndKeep(page);
  await page.locator('#value').fill('12 1/16');
  await page.getByText(ANSWER).first().waitFor();
  await server.stop();
  await offline(true);
  await slowCPU(context, page);
  await page.addInitScript(stopwatch, ANSWER);
  const times = [];
  for (let i = 0; i < 5; i++) {
    await page.reload({ waitUntil: 'commit' });
    times.push(await answered(page));
  }
  return quantile(times, 0.5);
}

/**
 * One nudge: the work of the touch itself, and of the frame that shows it.
 * @param {Phone} phone
 * @returns {Promise<{median: number, p95: number}>} ms
 */
export async function nudges({ page, context }) {
  await openAndKeep(page);
  await page.locator('#value').fill('12 1/16');
  await page.getByText(ANSWER).first().waitFor();
  await slowCPU(context, page);
  const times = await page.evaluate(async () => {
    const buttons = [...document.querySelectorAll('button')].filter((b) => /^[+−]$/.test(b.textContent?.trim() ?? ''));
    const took = [];
    for (let i = 0; i < 60; i++) {
      await new Promise((rest) => setTimeout(rest, 80));
      // Asked for first, so that it marks the beginning of the frame's work.
      const frame = new Promise((painted) => {
        requestAnimationFrame(() => {
          const from = performance.now();
          scheduler.postTask(() => painted(performance.now() - from), { priority: 'user-blocking' });
        });
      });
      const from = performance.now();
      buttons[i % buttons.length].click();
      const touch = performance.now() - from;
      took.push(touch + (await frame));
    }
    return took;
  });
  return { median: quantile(times, 0.5), p95: quantile(times, 0.95) };
}

/**
 * A bike of the invented garage is touched in the list, its forecast known: how
 * long until its wear fan is painted.
 * @param {Phone} phone
 * @returns {Promise<{median: number, p95: number}>} ms
 */
export async function fans({ page, context }) {
  await openAndKeep(page, '/#/bikes');
  await page.getByRole('button', { name: 'Look round with invented bikes' }).tap();
  await page.getByText('Nothing here is real.').waitFor({ timeout: 120_000 });
  await page.waitForTimeout(5000); // forecasts are worked out behind the screen
  await slowCPU(context, page);
  const times = [];
  for (let i = 0; i < 16; i++) {
    await page.goto('/#/bikes');
    const bike = page.locator('.bike-line').nth(i % 4);
    await bike.scrollIntoViewIfNeeded();
    await page.waitForTimeout(500);
    await page.evaluate(untilFan);
    await bike.tap();
    await page.locator('html[data-fan]').waitFor({ state: 'attached' });
    const took = await page.evaluate(() => Number(document.documentElement.dataset.fan));
    if (i >= 4) times.push(took); // each once before, so that its forecast is known
  }
  return { median: quantile(times, 0.5), p95: quantile(times, 0.95) };
}

/** Runs in the page: notes how long after the touch the fan is painted. */
function untilFan() {
  delete document.documentElement.dataset.fan;
  const begin = (/** @type {Event} */ touch) => {
    const watcher = new MutationObserver(() => {
      if (!document.querySelector('.fan svg')) return;
      watcher.disconnect();
      requestAnimationFrame(() =>
        setTimeout(() => (document.documentElement.dataset.fan = String(performance.now() - touch.timeStamp))),
      );
    });
    watcher.observe(document, { childList: true, subtree: true });
  };
  addEventListener('pointerup', begin, { once: true, capture: true });
}

/**
 * Runs in the page before its own scripts: notes when the answer is painted.
 * @param {string} answer
 */
function stopwatch(answer) {
  const watcher = new MutationObserver(() => {
    if (!document.body?.textContent?.includes(answer)) return;
    watcher.disconnect();
    requestAnimationFrame(() =>
      setTimeout(() => (document.documentElement.dataset.answered = String(performance.now()))),
    );
  });
  watcher.observe(document, { childList: true, subtree: true, characterData: true });
}

/** @param {import('playwright-core').Page} page @returns {Promise<number>} s from navigation */
async function answered(page) {
  await page.locator('html[data-answered]').waitFor({ state: 'attached', timeout: 60_000 });
  return (await page.evaluate(() => Number(document.documentElement.dataset.answered))) / 1000;
}

/** @param {import('playwright-core').BrowserContext} context @param {import('playwright-core').Page} page */
export async function slowCPU(context, page) {
  const cdp = await context.newCDPSession(page);
  await cdp.send('Emulation.setCPUThrottlingRate', { rate: 4 });
}

/** @param {number[]} values @param {number} q */
function quantile(values, q) {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(q * sorted.length))];
}
