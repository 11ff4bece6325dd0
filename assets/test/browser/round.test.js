import assert from 'node:assert/strict';
import { test } from 'node:test';
import { door } from './harness/doors.js';
import { tabTo, undoIsOneTabAway } from './harness/keys.js';
import { assertLooks } from './harness/look.js';
import { becomes } from './harness/patience.js';
import { goTo, type } from './harness/phone.js';
import { line, phoneWithLoaners, stands } from './harness/rounds.js';
import { more, reads } from './harness/stories.js';

/** @typedef {import('playwright-core').Page} Page */

// 12 1/16 in over 24 pitches is 0.5208 %: past no limit on a hub gear (1.0) nor on
// 9 sprockets (0.75); 12 1/8 in is 1.04 % (common practice, no source).
test('a round alone, by touch and offline: two touches a bike, a worn one held, summary', async (t) => {
  const { page, tap, touches, ids } = await phoneWithLoaners(t);
  await type(page, 'Your name', 'Ada');
  await tap('Start, 5 bikes');
  await stands(page, '0 of 5 cleared, 0 held, 5 not seen yet');
  assert.equal(touches(), 2, 'name and start');
  const tops = page.locator('.bar-count').evaluateAll((all) => all.map((one) => one.getBoundingClientRect().top));
  assert.equal(new Set(await tops).size, 1, 'the counts take one line of a phone');

  await tap('Next: Dipper', 'link');
  await tap('Clear it: seen, no reading');
  await stands(page, '1 of 5 cleared, 0 held, 4 not seen yet');
  assert.equal(touches(), 4, 'a bike seen and cleared: 2 touches');

  await tap('Next: Heron', 'link');
  await more(page).tap();
  await page.getByText('Plan a change').first().waitFor();
  await tap('Clear it with this reading');
  await stands(page, '2 of 5 cleared, 0 held, 3 not seen yet');
  assert.equal(touches(), 7, 'a bike read and cleared: 3 touches');

  await tap('Next: Kite', 'link'); // with a child seat: held to 0.5 %, not to the 1 % of one sprocket
  await page.getByText('Child seat.').waitFor();
  await more(page).tap();
  await page.getByText('Change the chain', { exact: true }).first().waitFor();
  assert.equal(await page.getByRole('button', { name: 'Clear it with this reading' }).count(), 0);
  await tap('Hold it…', 'link');
  await tap('Hold it');
  await stands(page, '2 of 5 cleared, 1 held, 2 not seen yet');
  assert.equal(touches(), 11, 'a worn one held: 4 touches');
  await line(page, 'Kite').getByText('0.52 %, Change the chain · Ada').waitFor();

  await type(page, 'Name or tag code', 'ott');
  await page.keyboard.press('Enter');
  await page.getByRole('heading', { name: 'Otter' }).waitFor();
  await tap('Hold it…', 'link');
  const first = page.getByRole('button', { name: 'Name a reason first' });
  await becomes(() => first.getAttribute('aria-disabled'), 'true');
  await page.locator('.tick', { hasText: 'Brakes' }).tap();
  await type(page, 'In your own words', 'front pads gone');
  await tap('Hold it');
  await stands(page, '2 of 5 cleared, 2 held, 1 not seen yet');
  await line(page, 'Otter').getByText('Brakes; front pads gone · Ada').waitFor();

  await tap('Finish with 1 not seen');
  await page.getByText('Only cleared bikes go out. These stay in:').waitFor();
  await tap('Undo');
  await tap('Next: Newt', 'link');
  await tap('Clear it: seen, no reading');
  await tap('Finish the round');
  await stands(page, '3 of 5 cleared, 2 held, 0 not seen yet');

  await page.reload();
  await stands(page, '3 of 5 cleared, 2 held, 0 not seen yet');
  await page.getByText('Who cleared and held what').tap();
  await becomes(() => page.locator('.checks > li').count(), 5);
  const heron = await door(page, 'openBike', ids.Heron);
  const [reading] = /** @type {any[]} */ (Object.values(heron.readings));
  assert.deepEqual([reading.fields.at_km, reading.fields.by], [800, 'Ada']);
  const [check] = /** @type {any[]} */ (Object.values(heron.checks));
  assert.equal(check.fields.reading_id, reading.record_id);

  await page.getByRole('link', { name: 'All rounds' }).tap();
  await becomes(() => page.locator('a.row', { hasText: 'Still held since' }).count(), 2, 'held ones are overdue');
});

test('a held bike is cleared by a named reason, and that it was held stays in sight', async (t) => {
  const { page, tap, touches, ids } = await phoneWithLoaners(t);
  const [round] = await door(page, 'save', [
    { table: 'rounds', put: { name: 'Saturday', started_at: new Date().toISOString() } },
  ]);
  const at = new Date(Date.now() - 60_000).toISOString();
  await door(page, 'save', [
    {
      table: 'round_checks',
      put: { round_id: round, bike_id: ids.Heron, at, state: 'held', reason: 'Brakes', by: 'Bo' },
    },
  ]);
  await goTo(page, `/#/round/${round}`);
  await line(page, 'Heron').tap();
  await page.getByRole('heading', { name: 'Heron' }).waitFor();
  assert.equal(await page.getByRole('button', { name: /^Clear/ }).count(), 0, 'no way to clear it in silence');
  await more(page).tap(); // a good reading says nothing about brakes
  await page.getByRole('link', { name: 'Clear it anyway…' }).tap();
  await page.getByText('It was held: Brakes').waitFor();
  await page.locator('.tick', { hasText: 'Mended and tried' }).tap();
  await tap('Clear it');
  await stands(page, '1 of 5 cleared, 0 held, 4 not seen yet');
  assert.equal(touches(), 5);
  await page.getByText(/^\s*Cleared\s*1\s*$/).tap();
  await line(page, 'Heron').getByText('Was held: Brakes').waitFor();
  await tap('Undo');
  await stands(page, '0 of 5 cleared, 1 held, 4 not seen yet');
  const heron = await door(page, 'openBike', ids.Heron);
  const [reading] = /** @type {any[]} */ (Object.values(heron.readings));
  assert.ok(reading.fields.void_reason, 'the reading that was taken back is voided, not gone');
  await line(page, 'Heron').tap();
  await reads(page, '12 1/16 in'); // and what was entered is back
});

test('what is half entered survives a look at another bike, Check, and a reload', async (t) => {
  const { page, tap } = await phoneWithLoaners(t);
  await goTo(page, '/#/check');
  await more(page).tap();
  await reads(page, '12 1/16 in');
  await goTo(page, '/#/round');
  await tap('Start, 5 bikes');
  await tap('Next: Dipper', 'link');
  await page.locator('#value').fill('12 1/');
  await page.getByLabel('Note').fill('bell is lo');
  await tap('Hold it…', 'link');
  await page.locator('.tick', { hasText: 'Wheels' }).tap();
  await page.getByLabel('In your own words').fill('rim is wor');
  await becomes(() => page.getByLabel('Wheels or tyres').isChecked(), true);
  await page.reload();
  await becomes(() => page.getByLabel('In your own words').inputValue(), 'rim is wor');
  await becomes(() => page.getByLabel('Wheels or tyres').isChecked(), true);
  await page.goBack();
  await reads(page, '12 1/');
  await becomes(() => page.getByRole('button', { name: /^Clear it/ }).getAttribute('aria-disabled'), 'true');
  await page.getByRole('link', { name: 'All bikes of the round' }).tap();
  await line(page, 'Heron').tap();
  await page.getByText('No reading yet').waitFor();
  await goTo(page, '/#/check');
  await reads(page, '12 1/16 in'); // Check's own, as it was left
  await page.reload();
  await goTo(page, '/#/round');
  await page.getByRole('link', { name: /^Go on/ }).tap();
  await line(page, 'Dipper').tap();
  await reads(page, '12 1/');
  await becomes(() => page.getByLabel('Note').inputValue(), 'bell is lo');
});

test('a reading on a bike without a chain is kept with its first one, once it is said what that has run', async (t) => {
  const { page, tap, ids } = await phoneWithLoaners(t);
  await tap('Start, 5 bikes');
  await line(page, 'Otter').tap();
  await more(page).tap();
  await page.getByText('No chain is recorded on this bike.').waitFor();
  await page.getByText('Change the chain', { exact: true }).waitFor(); // 0.52 % of 0.5 with 11 sprockets
  await tap('Hold it…', 'link');
  await tap('Hold it');
  await stands(page, '0 of 5 cleared, 1 held, 4 not seen yet');
  const before = await door(page, 'openBike', ids.Otter);
  assert.equal(before.meaning.chains.length, 0, 'no distance is made up');
  const [check] = /** @type {any[]} */ (Object.values(before.checks));
  assert.deepEqual([check.fields.reason, check.fields.reading_id], ['0.52 %, Change the chain', undefined]);
  await tap('Undo');
  await line(page, 'Otter').tap();
  await reads(page, '12 1/16 in');
  await page.getByRole('button', { name: '500', exact: true }).tap();
  await page.getByText('No chain is recorded on this bike.').waitFor({ state: 'detached' });
  await tap('Hold it…', 'link');
  await tap('Hold it');
  await stands(page, '0 of 5 cleared, 1 held, 4 not seen yet');
  const { meaning, readings } = await door(page, 'openBike', ids.Otter);
  assert.deepEqual([meaning.chains[0].km, meaning.chains[0].reading_ids.length], [500, 1]);
  const [reading] = /** @type {any[]} */ (Object.values(readings));
  assert.equal(reading.fields.at_km, 500);
});

/** Moves to what has that name with Tab alone, and presses a key there. @param {Page} page @param {RegExp} name @param {string} key */
async function byKey(page, name, key) {
  await tabTo(page, name);
  await page.keyboard.press(key);
}

test('a round with the keyboard alone', async (t) => {
  const { page } = await phoneWithLoaners(t, { width: 1280, height: 800, mouse: true });
  await byKey(page, /^Your name/, 'a');
  await byKey(page, /^Start, 5 bikes/, 'Enter');
  await byKey(page, /^Next: Dipper/, 'Enter');
  await page.getByRole('heading', { name: 'Dipper' }).waitFor();
  await byKey(page, /^One mark more/, 'Enter');
  await page.getByText('Ride on').first().waitFor();
  await byKey(page, /^Clear it with this reading/, 'Enter');
  await undoIsOneTabAway(page, /^\s*Dipper: cleared/);
  await stands(page, '1 of 5 cleared, 0 held, 4 not seen yet');
  await byKey(page, /^Next: Heron/, 'Enter');
  await byKey(page, /^Hold it…/, 'Enter');
  await page.getByRole('heading', { name: 'Hold Heron' }).waitFor();
  await page.getByLabel('Skips under load').focus();
  await page.keyboard.press('Space');
  await byKey(page, /^Hold it/, 'Enter');
  await undoIsOneTabAway(page, /^\s*Heron: held/);
  await stands(page, '1 of 5 cleared, 1 held, 3 not seen yet');
  await page.keyboard.press('Enter');
  await stands(page, '1 of 5 cleared, 0 held, 4 not seen yet');
  await page.waitForFunction(() => document.activeElement?.id === 'place');
  await byKey(page, /^Finish with 4/, 'Enter');
  await page.getByText('Only cleared bikes go out.').first().waitFor();
});

test('every screen of Round is accessible in both themes and fits', async (t) => {
  const { page, tap } = await phoneWithLoaners(t);
  await page.getByRole('button', { name: 'Start, 5 bikes' }).waitFor();
  await assertLooks(page, 'Round');
  await tap('Start, 5 bikes');
  await assertLooks(page, 'under way');
  await tap('Next: Dipper', 'link');
  await tap('Clear it: seen, no reading');
  await line(page, 'Kite').tap();
  await more(page).tap();
  await page.getByText('Change the chain', { exact: true }).first().waitFor();
  await assertLooks(page, 'one bike, strict');
  await tap('Hold it…', 'link');
  await assertLooks(page, 'hold');
  await page.locator('.tick', { hasText: 'Brakes' }).tap();
  await tap('Hold it');
  await page.getByText('Who cleared and held what').tap();
  await page.getByText(/^\s*Cleared\s*1\s*$/).tap();
  await assertLooks(page, 'under way, one held');
  await line(page, 'Kite').tap();
  await assertLooks(page, 'one bike, held');
  await page.getByRole('link', { name: 'Clear it…' }).tap();
  await assertLooks(page, 'clear');
  await page.goBack();
  await page.getByRole('link', { name: 'All bikes of the round' }).tap();
  await tap('Finish with 3 not seen');
  await page.getByText('Only cleared bikes go out.').first().waitFor();
  await assertLooks(page, 'summary');
  await page.getByRole('link', { name: 'All rounds' }).tap();
  await assertLooks(page, 'Round, with one before');
  await page.getByRole('link', { name: 'Tags to print' }).tap();
  await assertLooks(page, 'tags');
  await goTo(page, '/#/round/nothing');
  await page.getByText('There is no such round on this phone.').waitFor();
  await assertLooks(page, 'no such round');
});
