import assert from 'node:assert/strict';
import { test } from 'node:test';
import { shell } from './harness/bike-work.js';
import { door, programWithDoors } from './harness/doors.js';
import { becomes } from './harness/patience.js';
import { arrived, goTo, newPhone, openAndKeep } from './harness/phone.js';
import { startServer } from './harness/server.js';

/** @typedef {import('playwright-core').Page} Page */

/** Two invented bikes: what is known of each decides what can be said about its next chain. */
const TOURER = {
  name: 'Grey tourer',
  drive: 'derailleur',
  rear_sprockets: 9,
  chainrings: [28, 38, 48],
  sprockets: [11, 13, 15, 17, 20, 23, 26, 30, 34],
  chainstay_mm: 442,
  care: 'usual',
};
const HUB = { name: 'Canal hub', drive: 'hub', care: 'enclosed' };

/** @param {any} t */
async function withBikes(t) {
  const server = await startServer(t, await programWithDoors());
  const phone = await newPhone(t, server.origin);
  await openAndKeep(phone.page);
  await server.stop();
  await phone.offline(true);
  const [tourer, hub] = await door(phone.page, 'save', [
    { table: 'bikes', put: TOURER },
    { table: 'bikes', put: HUB },
  ]);
  await door(phone.page, 'save', [
    { table: 'chains', put: { bike_id: tourer, fitted_at_km: 0, pitches: 112, class: 'derailleur_9' } },
    { table: 'chains', put: { bike_id: hub, fitted_at_km: 0 } },
  ]);
  return { ...phone, tourer, hub };
}

test('the shopping list says what the engine says: family, widths, length, what to cut, how to join', async (t) => {
  const { page, tourer } = await withBikes(t);
  await goTo(page, `/#/shopping/${tourer}`);
  const family = (await shell('identify', { drive: 'derailleur', rear_sprockets: 9 })).candidates[0];
  const { chainstay_mm, chainrings, sprockets } = TOURER;
  const { pitches } = await shell('length', { chainstay_mm, chainrings, sprockets });
  await page.getByText(family.name).waitFor();
  const [lo, hi] = family.outer_width_mm.map((/** @type {number} */ mm) => mm.toFixed(2));
  await page.getByText(`outer width ${lo} to ${hi} mm`).waitFor();
  await page.getByText(`inner width ${family.inner_width_mm.toFixed(1)} mm`).waitFor();
  await page.getByText(`${pitches} pitches`, { exact: true }).waitFor();
  // common practice, no source: chains of this length are sold with 114 pitches
  assert.equal(pitches, 114);
  await page.getByText('One of 114 pitches fits uncut.').waitFor();
  await page.getByText('The one on it is recorded with 112 pitches.').waitFor();
  for (const advice of family.closure_advice) await page.getByText(advice).waitFor();
  assert.equal(await page.getByText('More than one family is possible').count(), 0, 'the bike settles it');
});

test('where the bike says too little, the list says what is missing and does not guess', async (t) => {
  const { page, hub } = await withBikes(t);
  await goTo(page, `/#/shopping/${hub}`);
  await page.getByText('It can be one of these. Measure the outer width of the old chain').waitFor();
  await page.getByText('Not known yet: Crank axle to rear axle, Chainrings, Sprockets.').waitFor();
  await page.getByText('More than one family is possible. Do not buy').waitFor();
  assert.equal(await page.getByText(/\d+ pitches/).count(), 0);
  await page.getByRole('link', { name: 'Fill it in' }).tap();
  await arrived(page, `#/edit/${hub}/numbers`);
  await becomes(() => inSight(page, '#edit-chainrings'), true, 'what is missing is open and in sight');
  for (const [field, text] of Object.entries({ chainrings: '44', sprockets: '18', chainstay_mm: '450' }))
    await page.locator(`#edit-${field}`).fill(text);
  await page.getByRole('button', { name: 'Save' }).tap();
  await arrived(page, `#/shopping/${hub}`);
  await page.getByText('Not known yet').waitFor({ state: 'detached' });
});

test('the cost plan is the engine’s, with prices kept for the garage and the flat optimum said', async (t) => {
  const { page, tap, tourer, hub } = await withBikes(t);
  await goTo(page, `/#/cost/${tourer}`);
  await page.getByText('With all three prices it is worked out here.').waitFor();
  for (const [label, text] of [
    ['A chain', '35'],
    ['A set of sprockets', '60,50'],
    ['The most used chainring', '50'],
  ]) {
    await page.getByLabel(label).fill(text);
  }
  await page.getByText('Each way').waitFor();
  await page.reload(); // half a list of prices is not lost
  await page.getByText('Each way').waitFor();
  const told = await shell('cost', {
    currency: 'EUR',
    prices: { chain: 3500, sprockets: 6050, chainring: 5000 },
    forecast: { drive: 'derailleur', rear_sprockets: 9, care: 'usual', readings: [], now_km: 0 },
  });
  const ways = page.locator('.ways > li');
  await becomes(() => ways.count(), told.policies.length);
  const shown = await ways.allInnerTexts();
  told.policies.forEach((/** @type {any} */ policy, /** @type {number} */ i) => {
    const sum = Number(shown[i].match(/([\d.]+)\s*EUR/)?.[1]);
    assert.ok(Math.abs(100 * sum - policy.cost_per_1000_km) <= 0.5 + 1e-6, shown[i]);
    const past = policy.change_at_percent > 0.75 + 1e-9; // the usual limit with 9 sprockets
    assert.equal(shown[i].includes('past the limit'), past, shown[i]);
  });
  await page.getByText('At 0.75 %: the limit of this bike.').waitFor();
  const [lo, hi] = told.flat_range_percent.map((/** @type {number} */ one) => one.toFixed(2));
  await page.getByText(`from ${lo} to ${hi} % it is within 2 % of the least`).waitFor();
  await page.getByText('This compares costs only.').waitFor();
  await tap('Keep the prices');
  await page.getByText('Prices kept, for every bike.').waitFor();
  await goTo(page, `/#/cost/${hub}`);
  await page.getByText('What chains cost on Canal hub').waitFor();
  await becomes(() => page.getByLabel('A set of sprockets').inputValue(), '60.50');
});

test('Fit fills itself in from a bike, is given back to it, and mixes no two bikes', async (t) => {
  const { page, tap, tourer } = await withBikes(t);
  await goTo(page, '/#/fit');
  await page.locator('.choice', { hasText: 'How long' }).first().tap();
  await page.locator('#fit-bike').selectOption({ label: 'Grey tourer' });
  await page.getByText('114 pitches', { exact: true }).waitFor();
  await page.getByText('Judged for the 112 pitches that are on it.').waitFor();
  await page
    .getByRole('textbox', { name: /^Crank axle/ })
    .first()
    .fill('44,8 cm');
  await page.getByText('New to the bike: crank axle to rear axle.').waitFor();
  await tap('Save to Grey tourer');
  await page.getByText('Saved to Grey tourer.').waitFor();
  await page.reload();
  const detail = await door(page, 'openBike', tourer);
  assert.equal(detail.bike.fields.chainstay_mm, 448);
  assert.deepEqual(detail.bike.fields.sprockets, TOURER.sprockets);
  await page.locator('#fit-bike').selectOption({ label: 'Canal hub' });
  await page.getByText('Still to fill in').waitFor();
  const stay = page.getByRole('textbox', { name: /^Crank axle/ }).first();
  await becomes(() => stay.inputValue(), '');
  await tap('Undo');
  await page.getByText(/^11\d pitches$/).waitFor();
});

/** @param {import('./harness/phone.js').Page} page @param {string} field @returns {Promise<boolean>} whether it stands over the dock */
function inSight(page, field) {
  return page.locator(field).evaluate((one) => {
    const { top, bottom } = one.getBoundingClientRect();
    return top > 0 && bottom < Number(document.querySelector('.dock')?.getBoundingClientRect().top);
  });
}
