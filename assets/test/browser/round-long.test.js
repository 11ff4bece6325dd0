import assert from 'node:assert/strict';
import { test } from 'node:test';
import { door } from './harness/doors.js';
import { becomes } from './harness/patience.js';
import { goTo } from './harness/phone.js';
import { line, phoneWithLoaners } from './harness/rounds.js';

const MANY = 150;

/** Runs in the page: notes how many lines each drawing adds. */
function watchDrawing() {
  /** @type {{lines: number, paper: number}[]} */
  const drawn = [];
  Object.assign(globalThis, { drawn });
  const count = (/** @type {string} */ what) => document.querySelectorAll(what).length;
  const before = { lines: count('.rows > li'), paper: 0 };
  new MutationObserver(() => {
    const now = { lines: count('.rows > li'), paper: count('.paper tbody tr') };
    const more = { lines: now.lines - before.lines, paper: now.paper - before.paper };
    // Round itself draws the bar too, and again when a forecast in the background is done.
    if (document.getElementById('place')?.dataset.place?.startsWith('round/')) drawn.push(more);
    Object.assign(before, now);
  }).observe(document.body, { childList: true, subtree: true });
}

test('a round of hundreds of bikes is drawn by parts, and nothing of it is left out or old', async (t) => {
  const { page } = await phoneWithLoaners(t);
  const bikes = Array.from({ length: MANY }, (_, i) => ({
    table: 'bikes',
    put: { name: `Shed ${i}`, drive: 'hub', tag: `S-${i}`, set: 'shed' },
  }));
  const ids = await door(page, 'save', bikes);
  const at = (/** @type {number} */ i) => new Date(Date.UTC(2026, 2, 7, 8, i)).toISOString();
  const [round] = await door(page, 'save', [
    { table: 'rounds', put: { name: 'Shed', started_at: at(0), set: 'shed' } },
  ]);
  const checks = ids.slice(0, 70).map((/** @type {string} */ bike_id, /** @type {number} */ i) => ({
    table: 'round_checks',
    put: { round_id: round, bike_id, at: at(i), by: `Person ${i}`, state: 'cleared' },
  }));
  await door(page, 'save', checks);
  await page.evaluate(watchDrawing);
  await goTo(page, `/#/round/${round}`);
  await becomes(() => page.locator('.paper tbody tr').count(), MANY);
  const drawn = await page.evaluate(() => /** @type {any} */ (globalThis).drawn);
  assert.deepEqual(drawn[0], { lines: 8, paper: 0 }, 'what fills the window comes first, and nothing to print with it');
  const most = Math.max(...drawn.map((/** @type {any} */ { lines, paper }) => lines + paper));
  assert.ok(most <= 20, `${most} lines in one go would keep a slow phone from answering`);
  const rows = page.locator('.rows > li');
  await page.getByText(`Show ${MANY - 70 - 68} more`).tap();
  await line(page, `Shed ${MANY - 1}`).waitFor();
  await becomes(() => rows.count(), MANY - 70, 'the cleared ones are folded away');
  await page.getByText(/^\s*Cleared\s*70\s*$/).tap();
  await line(page, 'Shed 69').waitFor();
  await becomes(() => rows.count(), MANY);

  await page.getByText('Who cleared and held what').tap();
  const log = page.locator('.checks > li');
  await becomes(() => log.count(), 70);
  await log.first().getByText('Person 69').waitFor(); // the latest first

  // A change from elsewhere shows in the list, in the log and on the sheet.
  await door(page, 'save', [
    { table: 'round_checks', put: { round_id: round, bike_id: ids[149], at: at(99), state: 'held', reason: 'Brakes' } },
  ]);
  await line(page, 'Shed 149').getByText('Brakes').waitFor();
  await becomes(() => log.count(), 71);
  const sheet = page.locator('.paper tbody tr');
  await becomes(() => sheet.count(), MANY);
  await sheet
    .filter({ hasText: 'Shed 149' })
    .filter({ hasText: /Held\s*Brakes/ })
    .waitFor({ state: 'attached' });

  await page.locator('#find').fill('S-120');
  await line(page, 'Shed 120').waitFor();
  await becomes(() => rows.count(), 1, 'also what was not drawn yet is found');
});
