import assert from 'node:assert/strict';
import { test } from 'node:test';
import { addBike, chip, offline } from './harness/bikes.js';
import { garage, programWithDoors } from './harness/doors.js';
import { assertLooks } from './harness/look.js';
import { becomes } from './harness/patience.js';
import { goTo, type } from './harness/phone.js';

/** @typedef {import('playwright-core').Page} Page */

/** @param {Page} page @param {string|RegExp} name */
function button(page, name) {
  return page.getByRole('button', { name });
}

test('everything about a bike can be said, is refused where it cannot be, and is kept half typed', async (t) => {
  const phone = await offline(t, await programWithDoors());
  const { page, tap } = phone;
  await addBike(phone, 'Grey tourer');
  await tap('Everything about this bike', 'link');
  await chip(page, '10').tap();
  await page.locator('.choice', { hasText: 'Gritty' }).tap();
  await chip(page, 'Child seat').tap();
  await page.getByText('For chain length and gears').tap();
  /** @type {Record<string, string>} */
  const texts = {
    name: 'Grey tourer 2',
    km_per_week: '80',
    tag: 'K-04',
    set: 'loaners',
    note: 'squeaks',
    chainrings: '50/34',
    sprockets: '11-13-15',
    chainstay_mm: '430',
    longest_chainstay_mm: '400',
    etrto: '37-622',
    max_sprocket: '34',
    capacity_teeth: '39',
    adjust_forward_mm: '5',
    adjust_back_mm: '12',
  };
  for (const [name, text] of Object.entries(texts)) await page.locator(`#edit-${name}`).fill(text);
  await assertLooks(page, 'everything about a bike');
  await page.reload();
  await becomes(() => page.locator('#edit-note').inputValue(), 'squeaks');
  await becomes(() => page.locator('#edit-adjust_back_mm').inputValue(), '12');
  await tap('Save');
  await page.locator('#edit-longest_chainstay_mm-fault').waitFor(); // 400 is less than 430
  await page.locator('#edit-longest_chainstay_mm').fill('431,5');
  await page.locator('#edit-chainrings').fill('fifty');
  await page.locator('#edit-chainrings-fault').waitFor();
  await becomes(() => button(page, 'Save').getAttribute('aria-disabled'), 'true');
  await page.locator('#edit-chainrings').fill('50 34');
  await tap('Save');
  await page.getByRole('heading', { name: 'Grey tourer 2', level: 1, exact: true }).waitFor();
  const [bike] = (await garage(page)).bikes;
  assert.deepEqual(bike.fields, {
    name: 'Grey tourer 2',
    drive: 'derailleur',
    rear_sprockets: 10,
    care: 'gritty',
    bears: ['child_seat'],
    km_per_week: 80,
    tag: 'K-04',
    set: 'loaners',
    note: 'squeaks',
    chainrings: [50, 34],
    sprockets: [11, 13, 15],
    chainstay_mm: 430,
    longest_chainstay_mm: 431.5,
    etrto: '37-622',
    derailleur: { max_sprocket: 34, capacity_teeth: 39 },
    adjust_mm: [-5, 12],
  });
  await tap('Everything about this bike', 'link');
  await button(page, 'Remove this bike').tap();
  await page.getByText('“Grey tourer 2” is removed.').waitFor();
  await tap('Undo');
  await page.getByRole('link', { name: /Grey tourer 2/ }).waitFor();
});

test('what is half typed about distance and care is there after a reload', async (t) => {
  const phone = await offline(t);
  const { page, tap } = phone;
  await addBike(phone, 'Grey tourer');
  await tap('Distance', 'link');
  await chip(page, 'A ride').tap();
  await type(page, 'Ridden, km', '40');
  await page.reload();
  await button(page, 'Note 40 km').waitFor();
  await tap('Back', 'link');
  await tap('Care', 'link');
  await chip(page, 'Wiped').tap();
  await type(page, 'Note', 'after the ford');
  await page.reload();
  await becomes(() => page.locator('#care-note').inputValue(), 'after the ford');
  await button(page, 'Note it').tap();
  await page.getByText('Care noted.').waitFor();
  await goTo(page, '/#/add');
  await type(page, 'What do you call it?', 'Half a na');
  await page.reload();
  await becomes(() => page.locator('#bike-name').inputValue(), 'Half a na');
});
