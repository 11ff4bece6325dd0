import assert from 'node:assert/strict';
import { test } from 'node:test';
import { addBike, chip, fact, logBegins, logIs, offline, readBike } from './harness/bikes.js';
import { door, programWithDoors } from './harness/doors.js';
import { assertLooks } from './harness/look.js';
import { becomes } from './harness/patience.js';
import { type } from './harness/phone.js';

/** @typedef {import('playwright-core').Page} Page */

/** @param {Page} page @param {string|RegExp} name */
function button(page, name) {
  return page.getByRole('button', { name });
}

test('distance by odometer, ride and week; the chain keeps what it has run', async (t) => {
  const phone = await offline(t);
  const { page, tap, touches } = phone;
  await addBike(phone, 'Grey tourer');
  await tap('Distance', 'link');
  await chip(page, 'A ride').tap();
  await type(page, 'Ridden, km', '40,5');
  await assertLooks(page, 'distance, a ride');
  await button(page, 'Note 41 km').tap();
  await fact(page, 'The bike has gone', '41 km');

  // The first odometer figure: the chain has run the 40.5 km known of it, not 12 034.
  const before = touches();
  await tap('Distance', 'link');
  await type(page, 'Odometer shows, km', '12034');
  await assertLooks(page, 'distance, the first odometer figure');
  await button(page, 'Note 12\u202f034 km').tap();
  assert.equal(touches() - before, 3); // Distance, the field, Note
  await fact(page, 'The bike has gone', '12\u202f034 km');
  await fact(page, 'This chain has run', '41 km');

  await tap('Distance', 'link');
  await page.getByText('Last time it showed 12\u202f034 km').waitFor();
  await type(page, 'Odometer shows, km', '12134');
  await page.getByText('That is 100 km more than last time.').waitFor();
  await page.locator('#run-odometer').fill('99999');
  await page.getByText('That is very far for the time since then.').waitFor();
  await page.locator('#run-odometer').fill('12');
  await page.getByText('That is less than last time.').waitFor();
  await page.locator('#run-odometer').fill('-12');
  await page.getByText('This cannot be read as a number.').waitFor();
  await becomes(() => button(page, 'First say how far').getAttribute('aria-disabled'), 'true');
  await page.locator('#run-odometer').fill('99999999');
  await button(page, /^Note/).tap();
  await page.getByText(/Not saved: .*1000000/).waitFor();
  await page.locator('#run-odometer').fill('12134');
  await button(page, 'Note 12\u202f134 km').tap();
  await fact(page, 'This chain has run', '141 km');

  await tap('Distance', 'link');
  await chip(page, 'By the week').tap();
  await type(page, 'About how far a week, km', '70');
  await button(page, 'Save it').tap();
  await page.getByText('Saved.').waitFor();
  await logIs(page, ['Odometer 12\u202f134 km', 'Odometer 12\u202f034 km', '41 km ridden']);
  await page.locator('.log summary').first().tap();
  await button(page, 'Remove this entry').tap();
  await fact(page, 'The bike has gone', '12\u202f034 km');
  await tap('Undo');
  await fact(page, 'The bike has gone', '12\u202f134 km');
});

test('a chain as old as the odometer, or put on at a known figure', async (t) => {
  const phone = await offline(t);
  const { page, tap } = phone;
  for (const [since, ran] of [
    ['At 0, with the odometer', '1\u202f250 km'],
    ['At a known figure', '250 km'],
  ]) {
    await addBike(phone, since);
    await tap('Distance', 'link');
    await type(page, 'Odometer shows, km', '1250');
    await chip(page, since).tap();
    if (since === 'At a known figure') await type(page, 'Odometer then, km', '1000');
    await button(page, /^Note/).tap();
    await fact(page, 'This chain has run', ran);
  }
});

/** One ride over the equator. @param {number} degrees of longitude in each of ten steps @param {string} [head] */
function gpx(degrees, head = '') {
  const points = Array.from(
    { length: 11 },
    (_, i) => `<trkpt lat="0" lon="${(i * degrees).toFixed(4)}"><time>2026-03-01T08:${10 + i}:00Z</time></trkpt>`,
  );
  return `<?xml version="1.0"?>${head}<gpx xmlns="http://www.topografix.com/GPX/1/1" version="1.1" creator="a test"><trk><trkseg>${points.join('')}</trkseg></trk></gpx>`;
}

test('a ride from a GPX file, and files that are none', async (t) => {
  const phone = await offline(t);
  const { page, tap } = phone;
  await addBike(phone, 'Grey tourer');
  await tap('Distance', 'link');
  await chip(page, 'GPX file').tap();
  await assertLooks(page, 'distance, a file');
  const give = (/** @type {string} */ text) =>
    page
      .locator('input[type=file]')
      .setInputFiles({ name: 'ride.gpx', mimeType: 'text/xml', buffer: Buffer.from(text) });
  await give('no such thing');
  await page.locator('.fault').waitFor();
  await give(gpx(0.01, '<!DOCTYPE gpx [<!ENTITY a "b">]>'));
  await page.getByText(/document type/).waitFor();
  await give(gpx(0.01).slice(0, 400));
  await page.getByText(/cut off/).waitFor();
  // WGS84: a degree of longitude on the equator is 2π × 6378.137 km / 360 = 111.319 km, so a tenth is 11.1.
  await give(gpx(0.01));
  await page.getByText('ride.gpx: 11 km').waitFor();
  await assertLooks(page, 'distance, a file that was read');
  await page.reload();
  await page.getByText('ride.gpx: 11 km').waitFor();
  await button(page, 'Note 11 km').tap();
  await fact(page, 'The bike has gone', '11 km');
  await logIs(page, ['11 km ridden from a GPX file']);
  await tap('Distance', 'link');
  await chip(page, 'GPX file').tap();
  await give(gpx(0.01));
  await page.getByText('A ride that began at this very time is noted already.').waitFor();
});

test('lubricant on dirt is cautioned before it is noted, and not once the chain was cleaned', async (t) => {
  const phone = await offline(t);
  const { page, tap } = phone;
  await addBike(phone, 'Grey tourer');
  await tap('Care', 'link');
  await chip(page, 'Dirty').tap();
  await button(page, 'Note it').tap();
  await page.getByText('Care noted.').waitFor();
  await logIs(page, ['Looked over (found dirty)']);

  await tap('Care', 'link');
  await chip(page, 'Lubricated').tap();
  await page.getByText('Clean it first').waitFor();
  const warning = page.getByRole('alert');
  await warning.getByText('The chain is dirty.').waitFor();
  await warning.getByText(/carries the grit into the rollers/).waitFor();
  await assertLooks(page, 'care, lubricant on dirt');
  await button(page, 'Note it all the same').waitFor();
  await chip(page, 'Cleaned').tap();
  await page.getByText('Clean it first').waitFor({ state: 'detached' });
  await page
    .getByText(/Solvents burn/)
    .last()
    .waitFor();
  await chip(page, 'Oil').tap();
  await button(page, 'Note it').tap();
  await fact(page, 'Care', /** @type {any} */ (/^Wipe in/));
  await logBegins(page, 'Cleaned, lubricated (Oil)');

  await tap('Care', 'link');
  await chip(page, 'Lubricated').tap();
  await page
    .getByText(/Keep lubricant off rotor/)
    .last()
    .waitFor();
  assert.equal(await page.getByText('Clean it first').count(), 0);
});

test('rain and squeaking are noted in three taps, and ask for lubricant until it is given', async (t) => {
  const phone = await offline(t);
  const { page, tap } = phone;
  await addBike(phone, 'Grey tourer');
  await tap('Care', 'link');
  for (const did of ['Wiped', 'Cleaned', 'Lubricated', 'Oil']) await chip(page, did).tap();
  await button(page, 'Note it').tap();
  await fact(page, 'Care', /** @type {any} */ (/^Wipe in/));

  const before = phone.touches();
  await tap('Care', 'link');
  await chip(page, 'Ridden in rain').tap();
  await page.getByText('Wipe, then lubricate it now').waitFor();
  await button(page, 'Note it').tap();
  assert.equal(phone.touches() - before, 3);
  await fact(page, 'Care', 'Wipe, then lubricate it now');
  await logBegins(page, 'Looked over (ridden in rain)');

  await tap('Care', 'link');
  await page.getByText('Why, and how').tap();
  await page.getByText('Lubricate: It was ridden wet: water has washed lubricant out.').waitFor();
  await assertLooks(page, 'care, what is due and why');
  await chip(page, 'Wiped').tap();
  await button(page, 'Note it').tap();
  await fact(page, 'Care', 'Wipe, then lubricate it now');
  await tap('Care', 'link');
  for (const seen of ['Squeaks or rattles', 'Wiped', 'Lubricated']) await chip(page, seen).tap();
  await button(page, 'Note it').tap();
  await fact(page, 'Care', /** @type {any} */ (/^Wipe in/));
  await logBegins(page, 'Wiped, lubricated (Oil, squeaking)');
});

test('a reading is voided with a reason, and taken back by noting it once more', async (t) => {
  const phone = await offline(t, await programWithDoors());
  const { page, tap } = phone;
  const bike = { fields: { name: 'Mud runner', rear_sprockets: 11, care: 'gritty' }, km: 1200, wear: [0.2, 0.6] };
  await door(page, 'save', readBike(1, bike));
  await tap('Bikes', 'link');
  await tap('Mud runner', 'link');
  await page.getByText('Change the chain', { exact: true }).first().waitFor();
  // computed: 306.6 / 304.8 − 1 = 0.59 %
  await page.locator('.log summary', { hasText: 'Reading 0.59 %' }).tap();
  await assertLooks(page, 'a reading in the log');
  await button(page, 'it was misread or mistyped').tap();
  await page.getByText('That reading no longer counts.').waitFor();
  await page
    .getByText('Ride on', { exact: true })
    .or(page.getByText('Plan a change', { exact: true }))
    .first()
    .waitFor();
  await page.getByText('Does not count: it was misread or mistyped').waitFor({ state: 'attached' });
  await tap('Undo');
  await page.getByText('Change the chain', { exact: true }).first().waitFor();
  // One that does not count, and the same once more.
  await page.locator('.log strong', { hasText: 'Reading 0.59 %' }).nth(1).waitFor();
  await becomes(() => page.locator('.log .void').count(), 1);
});

test('chains take turns: put on, rest and retire, each with its own distance', async (t) => {
  const phone = await offline(t);
  const { page, tap } = phone;
  await addBike(phone, 'Grey tourer');
  const ride = async (/** @type {string} */ km) => {
    await tap('Distance', 'link');
    await chip(page, 'A ride').tap();
    await type(page, 'Ridden, km', km);
    await button(page, /^Note/).tap();
    await page.getByText('noted.').waitFor();
  };
  await ride('300');
  await tap('Chains', 'link');
  await tap('Add a chain');
  await page.getByText('Chain 2').waitFor();
  await page.getByText('Close the joining link fully').waitFor();
  await assertLooks(page, 'chains');
  await tap('Put on');
  await page.getByText('The chain is on.').waitFor();
  await tap('Back', 'link');
  await ride('50');
  await fact(page, 'This chain has run', '50 km Chain 2');
  await tap('Chains', 'link');
  const resting = page.locator('.chains > li', { hasText: 'Chain 1' });
  await resting.getByText('has run 300 km').waitFor();
  await resting.getByRole('button', { name: 'Put on' }).tap();
  await page.getByText('The chain is on.').waitFor();
  await page.locator('.chains > li', { hasText: 'Chain 2' }).getByRole('button', { name: 'Retire' }).tap();
  await page.getByRole('heading', { name: 'Retired' }).waitFor();
  await tap('Back', 'link');
  await ride('7');
  await fact(page, 'This chain has run', '307 km Chain 1');
  await page.locator('.log strong').getByText('Chain 2 retired', { exact: true }).waitFor();
  await tap('Chains', 'link');
  await page.locator('.chains > li', { hasText: 'Chain 2' }).getByText('has run 50 km').waitFor();
  await tap('About it', 'link');
  await type(page, 'Length, pitches', '1000');
  await tap('Save');
  await page
    .getByText(/allowed is 2 to 400/)
    .first()
    .waitFor();
  await assertLooks(page, 'about a chain, with a fault');
  await page.locator('#chain-pitches').fill('114');
  await tap('Save');
  await page.getByText('Saved.').waitFor();
});
