import assert from 'node:assert/strict';
import { test } from 'node:test';
import { tabTo } from './harness/keys.js';
import { assertLooks } from './harness/look.js';
import { becomes } from './harness/patience.js';
import { goTo, newPhone, openAndKeep, type } from './harness/phone.js';
import { startServer } from './harness/server.js';

/** @typedef {import('playwright-core').Page} Page */

/** @param {Page} page the short answer, once the engine has given it */
function answer(page) {
  return page.getByRole('region', { name: 'Answer' }).and(page.locator('.tag'));
}

/** @param {Page} page @param {string} name a chip */
function chip(page, name) {
  return page.locator('.choice', { hasText: new RegExp(`^\\s*${name}\\s*$`) }).first();
}

/** Asks how long the chain must be; some chips are called the same in the question before. @param {Page} page */
async function howLong(page) {
  await chip(page, 'How long').tap();
  await page.getByRole('textbox', { name: /Crank axle to rear axle/ }).waitFor();
}

/** Fit on a phone with no signal. @param {any} t */
async function offline(t) {
  const server = await startServer(t);
  const phone = await newPhone(t, server.origin);
  await openAndKeep(phone.page);
  await server.stop();
  await phone.offline(true);
  await phone.tap('Fit', 'link');
  return phone;
}

// Outer width 6.5 to 6.8 mm is a chain for 9 sprockets (two general cycling pages).
test('which chain: a width and the bike, by touch and offline', async (t) => {
  const { page, touches } = await offline(t);
  await type(page, /Outer width/, '6,6');
  await answer(page).getByText('Derailleur chain for 9 sprockets').waitFor();
  await chip(page, 'Derailleur').tap();
  await chip(page, '9').tap();
  await page.getByText('Suits this bike').first().waitFor();
  assert.equal(touches(), 4);
  await page.getByRole('img', { name: /6\.60 mm lies nearest to: Derailleur chain for 9/ }).waitFor();
  await page.getByText('All families as a table').tap();
  await page.getByRole('row', { name: /Derailleur chain for 9 sprockets 6\.50–6\.80/ }).waitFor();
  await chip(page, '11').tap();
  await page.getByText('Does not suit this bike').first().waitFor();
  await assertLooks(page, 'which chain');
});

// 5.79 mm lies between the widths for 11 (up to 5.74) and 10 sprockets (from 5.84).
test('which chain: a width between two families names neither as the answer', async (t) => {
  const { page } = await offline(t);
  await type(page, /Outer width/, '5.79');
  await answer(page).getByText('Not sure yet').waitFor();
  await answer(page)
    .getByText(/11 sprockets: \d+\s%.*10 sprockets: \d+\s%/)
    .waitFor();
  await page.getByText('Do not buy, join or fit a chain on this alone.').waitFor();
});

// 2C + F/4 + R/4 + 1 in inches: 410 mm, 50/28 teeth gives 52.8 in, so 53 in or
// 106 pitches (common workshop rule, by hand); 116 less 106 is 10.
test('how long: from loose numbers to the cut list of a 116, by touch and offline', async (t) => {
  const { page, touches } = await offline(t);
  await howLong(page);
  await type(page, /Crank axle to rear axle/, '410');
  await type(page, /^Chainrings/, '50/34');
  await type(page, /^Sprockets/, '11-13-15-17-19-21-24-28');
  await chip(page, '116').tap();
  await answer(page).getByText('106 pitches').waitFor();
  await answer(page).getByText('take 10 off the 116').waitFor();
  assert.equal(touches(), 6);
  await page.getByText('Keep 53 link pairs (106 pitches), take off 5 link pairs (10 pitches).').waitFor();
  await page
    .getByRole('img', { name: /A chain of 116 pitches.*53 link pairs.* stay, 5 link pairs.* come off/ })
    .waitFor();
  await page
    .getByRole('img', { name: /Chainring of 50 teeth and sprocket of 28 teeth, axles 410\.0 mm apart/ })
    .waitFor();
  await page.getByRole('button', { name: /34 to 11 teeth: .* spare/ }).tap();
  await page.getByRole('img', { name: /Chainring of 34 teeth and sprocket of 11 teeth/ }).waitFor();
  await page.getByText(/too short a chain can tear off/i).waitFor();
  await assertLooks(page, 'how long');
});

test('steps: the closure chosen changes them, and what is ticked stays ticked', async (t) => {
  const { page } = await offline(t);
  await howLong(page);
  await type(page, /Crank axle to rear axle/, '410');
  await type(page, /^Chainrings/, '44');
  await type(page, /^Sprockets/, '11 34');
  await answer(page)
    .getByText(/pitches/)
    .waitFor();
  await chip(page, 'Special pin').tap();
  await page
    .getByText(/used once only; an old pin is never pressed back in\.$/)
    .first()
    .waitFor();
  const steps = page.locator('.ticks input');
  const all = await steps.count();
  await page.locator('.tick').first().tap();
  await page
    .locator('.tick')
    .nth(all - 1)
    .tap();
  await page.getByText(`2 of ${all} done`).waitFor();
  await page.reload();
  await page.getByText(`2 of ${all} done`).waitFor();
  for (const word of ['stiff link', 'Skip test', 'takes a finger off', 'The joint is shut']) {
    await page.getByText(word).first().waitFor({ state: 'attached' });
  }
});

// Exact length round 16/44 teeth is 97 pitches at 421.65 mm (computed: midway
// between 96 at 415.237 and 98 at 428.053 mm), so at 421.55 mm only an odd count
// has the wanted play.
test('how long: fixed axles close only with a half link, and the app says so', async (t) => {
  const { page } = await offline(t);
  await howLong(page);
  await chip(page, 'One sprocket').tap();
  await type(page, /Crank axle to rear axle/, '421.55');
  await type(page, /^Chainring teeth/, '44');
  await type(page, /^Sprocket teeth/, '16');
  await answer(page).getByText('No count fits').waitFor();
  await page.getByText(/With a half link 97 pitches would fit/).waitFor();
  await page.locator('.choice', { hasText: 'A half link may be used' }).tap();
  await answer(page).getByText('97 pitches with a half link').waitFor();
  await page
    .getByText(/half link is weaker/i)
    .first()
    .waitFor();
  await page.getByText('Put the half link in with its own pin').waitFor();
  await assertLooks(page, 'fixed axles');
});

test('fixed axles: pairs that close are found, and the axle’s way is shown', async (t) => {
  const { page } = await offline(t);
  await howLong(page);
  await chip(page, 'Hub gear').tap();
  await type(page, /Crank axle to rear axle/, '415');
  await type(page, /^Chainring teeth/, '44');
  await type(page, /^Sprocket teeth/, '16');
  await type(page, /go back by/, '14');
  await answer(page).getByText('96 pitches').waitFor();
  await page.getByText('Find a chainring and sprocket').tap();
  await type(page, 'Chainring, from', '40');
  await answer(page).getByText('96 pitches').waitFor();
  await type(page, 'Chainring, to', '48');
  await type(page, 'Sprocket, from', '14');
  await type(page, 'Sprocket, to', '20');
  await page.getByRole('heading', { name: 'Pairs that close' }).waitFor();
  await page.locator('.wide tbody tr').nth(3).waitFor();
  await assertLooks(page, 'pairs');
});

// 44/16 and 2200 mm: ratio 2.75, 6.05 m, 75.82 gear inches, 32.67 km/h at 90 a
// minute (reference value, computed).
test('gears: by keyboard alone, metric and in inches', async (t) => {
  const server = await startServer(t);
  const { page } = await newPhone(t, server.origin, { width: 1280, height: 800, mouse: true });
  await goTo(page, '/#/fit');
  await page.getByRole('radio', { name: 'Which chain' }).focus();
  await page.keyboard.press('ArrowRight');
  await page.keyboard.press('ArrowRight');
  await tabTo(page, /^Chainrings/);
  await page.keyboard.type('44');
  await tabTo(page, /^Sprockets/);
  await page.keyboard.type('16 18');
  await tabTo(page, /^Wheel, crank/);
  await page.keyboard.press('Enter');
  await tabTo(page, /^Rolled-out wheel/);
  await page.keyboard.type('2200');
  await answer(page).getByText('2 gears').waitFor();
  const row = page.getByRole('row', { name: /^44 × 16/ });
  await row.filter({ hasText: /2\.75\s*6\.05\s*75\.8\s*32\.7/ }).waitFor();
  await assertLooks(page, 'gears');
  await goTo(page, '/#/kit');
  await page.locator('.choice', { hasText: 'Inches' }).click();
  await becomes(() => page.getByRole('radio', { name: 'Inches' }).isChecked(), true);
  await goTo(page, '/#/fit');
  // 32.67 km/h is 20.30 mph by the definition of the mile.
  await row.filter({ hasText: /2\.75\s*75\.8\s*20\.3/ }).waitFor();
  await page.getByRole('img', { name: /2 gears on a ladder, from 67 in to 76 in/ }).waitFor();
  await assertLooks(page, 'gears in inches');
});

test('gears with all that can be asked: every value stands on the page of a phone, none beside it', async (t) => {
  const { page } = await offline(t);
  await goTo(page, '/#/fit');
  await chip(page, 'Gears').tap();
  await type(page, /^Chainrings/, '34 50');
  await type(page, /^Sprockets/, '11 13 15 17 19 21 24 28');
  await page.getByText('Wheel, crank').tap();
  await type(page, 'Rolled-out wheel', '2105');
  await type(page, /^Crank/, '172.5');
  await page.locator('summary', { hasText: 'angle' }).tap();
  for (const [field, mm] of Object.entries({ chainstay: '415', sprocket_spacing: '3.7', chainline: '43.5' })) {
    await page.locator(`#gears-${field}_mm`).fill(mm);
  }
  const table = page.locator('.wide');
  await table.locator('td[data-name=Angle]').first().waitFor();
  await table.getByText('50 × 19').nth(1).waitFor(); // as good as another
  for (const width of [360, 320]) {
    await page.setViewportSize({ width, height: 740 });
    const [needs, has] = await table.evaluate((one) => [one.scrollWidth, one.clientWidth]);
    assert.ok(needs <= has, `${needs} px of table in ${has} px at ${width}`);
  }
  await assertLooks(page, 'all of a gear');
});

test('wrong numbers get plain words at their field, and nothing typed is lost', async (t) => {
  const { page } = await offline(t);
  await howLong(page);
  await type(page, /Crank axle to rear axle/, 'far');
  await page.getByText('This is not a length.').waitFor();
  await type(page, /^Chainrings/, '50 34');
  await type(page, /^Sprockets/, '11 28');
  await page.getByRole('textbox', { name: /Crank axle to rear axle/ }).fill('41');
  const field = page.getByRole('textbox', { name: /Crank axle to rear axle/ });
  await page.locator('#length-chainstay_mm-fault', { hasText: '100' }).waitFor();
  await becomes(() => field.getAttribute('aria-invalid'), 'true');
  assert.match((await field.getAttribute('aria-describedby')) ?? '', /length-chainstay_mm-fault/);
  await assertLooks(page, 'a fault');
  await page.reload();
  await becomes(() => page.getByRole('textbox', { name: /^Sprockets/ }).inputValue(), '11 28');
  await becomes(() => field.inputValue(), '41');
  await page.getByRole('button', { name: 'Empty these fields' }).tap();
  await page.getByText('Emptied.').waitFor();
  await becomes(() => field.inputValue(), '');
  await page.getByRole('button', { name: 'Undo' }).tap();
  await page.getByText('Emptied.').waitFor({ state: 'hidden' });
  await becomes(() => field.inputValue(), '41');
});
