import { test } from 'node:test';
import { door } from './harness/doors.js';
import { becomes } from './harness/patience.js';
import { goTo } from './harness/phone.js';
import { line, phoneWithLoaners } from './harness/rounds.js';

const MANY = 150;

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
  await goTo(page, `/#/round/${round}`);
  const rows = page.locator('.rows > li');
  await page.getByText(`Show ${MANY - 70 - 60} more`).tap();
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
