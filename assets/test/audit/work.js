/**
 * How long a first visit keeps the page's main thread busy, in time of the
 * processor, which does not depend on what else the machine does: node
 * test/audit/work.js after `make build`. Blocking is what Lighthouse calls so:
 * what each task after the first text takes beyond 50 ms, on a processor four
 * times slower.
 */
import { chromium } from 'playwright-core';
import { findChromium } from '../browser/harness/phone.js';
import { startServer } from '../browser/harness/server.js';
import { session } from '../browser/harness/session.js';

const PLACES = ['check', 'bikes', 'fit', 'round', 'kit'];
const CATEGORIES = ['toplevel', 'devtools.timeline', 'v8', 'loading', 'blink.user_timing'];
const RUNS = 5;
const SLOWER = 4;
const BLOCKING_MS = 50;

/**
 * @typedef {{name: string, ph: string, pid: number, tid: number, ts: number, dur: number, tdur: number,
 *   args: any}} Event
 *   ts, dur, tdur in µs; tdur is time of the processor
 * @typedef {{drawn: number, scripts: number, longest: number, blocking: number}} Work ms
 */

await session(async (t) => {
  const { origin } = await startServer(t);
  const browser = await chromium.launch({ executablePath: findChromium(), args: ['--no-sandbox', '--disable-gpu'] });
  t.after(() => browser.close());
  console.log(`ms of the processor, median of ${RUNS}   to drawn  scripts  longest task  blocking at 1/${SLOWER}`);
  for (const place of PLACES) {
    /** @type {Work[]} */
    const works = [];
    for (let i = 0; i < RUNS; i++) works.push(await visit(browser, `${origin}/#/${place}`));
    const median = (/** @type {keyof Work} */ what) =>
      works
        .map((work) => work[what])
        .sort((a, b) => a - b)
        [RUNS >> 1].toFixed(1);
    const [drawn, scripts, longest, blocking] = [
      median('drawn').padStart(23),
      median('scripts').padStart(8),
      median('longest').padStart(13),
      median('blocking').padStart(15),
    ];
    console.log(`${place.padEnd(12)}${drawn} ${scripts} ${longest} ${blocking}`);
  }
});

/** @param {import('playwright-core').Browser} browser @param {string} url @returns {Promise<Work>} of a phone that was never here */
async function visit(browser, url) {
  const context = await browser.newContext({ viewport: { width: 412, height: 823 }, isMobile: true, hasTouch: true });
  const page = await context.newPage();
  await page.addInitScript(() => {
    const watcher = new MutationObserver(() => {
      if (!document.getElementById('place')) return;
      watcher.disconnect();
      performance.mark('place is drawn');
    });
    watcher.observe(document, { childList: true, subtree: true });
  });
  await browser.startTracing(page, { categories: CATEGORIES });
  await page.goto(url);
  await page.getByText('Ready for offline').waitFor();
  const trace = await browser.stopTracing();
  await context.close();
  return work(JSON.parse(trace.toString()).traceEvents);
}

/** @param {Event[]} events @returns {Work} */
function work(events) {
  const mark = /** @type {Event} */ (events.find(({ name }) => name === 'place is drawn'));
  const mine = events.filter(({ pid, tid, ph }) => pid === mark.pid && tid === mark.tid && ph === 'X');
  const begun = mark.ts - mark.args.data.startTime * 1000;
  const text = events.find(({ name, pid, ts }) => name === 'firstContentfulPaint' && pid === mark.pid && ts > begun);
  const ms = (/** @type {Event} */ { tdur = 0 }) => tdur / 1000;
  const sum = (/** @type {number[]} */ all) => all.reduce((total, one) => total + one, 0);
  const tasks = mine.filter(({ name, ts }) => name === 'ThreadControllerImpl::RunTask' && ts >= begun);
  const late = tasks.filter(({ ts, dur }) => ts + dur > (text?.ts ?? begun));
  return {
    drawn: sum(tasks.filter(({ ts }) => ts <= mark.ts).map(ms)),
    scripts: sum(mine.filter(({ name }) => /^v8\.(compile|evaluate)Module$/.test(name)).map(ms)),
    longest: Math.max(...tasks.map(ms)),
    blocking: sum(late.map((task) => Math.max(0, SLOWER * ms(task) - BLOCKING_MS))),
  };
}
