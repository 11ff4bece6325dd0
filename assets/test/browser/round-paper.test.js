import assert from 'node:assert/strict';
import { test } from 'node:test';
import { door, programWithDoors } from './harness/doors.js';
import { becomes } from './harness/patience.js';
import { goTo, newPhone, openAndKeep } from './harness/phone.js';
import { readQR } from './harness/qr-reader.js';
import { addLoaners, line, phoneWithLoaners, stands } from './harness/rounds.js';
import { startServer } from './harness/server.js';

/** @typedef {import('playwright-core').Page} Page */

/** A4 at 96 dots an inch, as browsers lay out paper. */
const PAPER = { width: 794, height: 1123 };

/** @param {Page} page shows it as it would be printed */
async function onPaper(page) {
  await page.emulateMedia({ media: 'print' });
  await page.setViewportSize(PAPER);
}

/** @param {Page} page @returns {Promise<number>} sheets of A4 in the PDF that the browser prints */
async function sheets(page) {
  const pdf = await page.pdf({ format: 'A4', preferCSSPageSize: true });
  assert.equal(pdf.subarray(0, 5).toString('latin1'), '%PDF-');
  return (pdf.toString('latin1').match(/\/Type\s*\/Page\b(?!s)/g) ?? []).length;
}

// An independent reader (ZXing in C++) reads the tags off a picture of the printed page.
test('printed tags hold each bike’s address, which opens it', async (t) => {
  const { page, tap, ids, server } = await phoneWithLoaners(t);
  await page.getByRole('link', { name: 'Tags to print' }).tap();
  await page.getByText('which only this machine can reach').waitFor();
  await tap('Give 2 bikes a code');
  await page.getByText('Every bike has a code now.').waitFor();
  const codes = page.locator('.tag-code').filter({ hasText: /^[2-9A-Z]{3}$/ });
  await becomes(async () => new Set(await codes.allInnerTexts()).size, 5);
  await onPaper(page);
  const texts = await readQR(await page.screenshot({ fullPage: true }));
  assert.deepEqual(
    texts.sort(),
    Object.values(ids)
      .map((id) => `${server.origin}/#/bike/${id}`)
      .sort(),
  );
  assert.equal(await sheets(page), 1);
  assert.equal(await page.getByRole('button', { name: 'Print the tags' }).isVisible(), false);
  await page.emulateMedia({ media: 'screen' });
  await goTo(page, texts[0]); // any camera, any phone of the garage
  const [name] = Object.entries(ids).find(([, id]) => texts[0].endsWith(id)) ?? [];
  await page.getByRole('heading', { name }).waitFor();
});

test('tags are printed black on white in the dark theme too', async (t) => {
  const { page, ids } = await phoneWithLoaners(t, { theme: 'dark' });
  await goTo(page, '/#/tags');
  await becomes(() => page.locator('.qr').count(), 5);
  await page.setViewportSize({ width: 360, height: 2400 }); // so that the dock lies over none
  assert.equal(
    (await readQR(await page.locator('.tag-sheet').screenshot())).length,
    Object.keys(ids).length,
    'on screen',
  );
  await onPaper(page);
  assert.equal((await readQR(await page.screenshot({ fullPage: true }))).length, Object.keys(ids).length, 'on paper');
  assert.equal(await page.evaluate(() => getComputedStyle(document.body).color), 'rgb(0, 0, 0)');
});

test('the sheet says of every bike how it stands, by word and shape, and nothing else is printed', async (t) => {
  const { page, tap, ids } = await phoneWithLoaners(t);
  const [round] = await door(page, 'save', [
    { table: 'rounds', put: { name: 'Saturday', started_at: '2026-03-07T08:00:00Z', set: 'loaners' } },
  ]);
  const check = (/** @type {string} */ name, /** @type {object} */ more) => ({
    table: 'round_checks',
    put: { round_id: round, bike_id: ids[name], at: '2026-03-07T08:10:00Z', by: 'Ada', ...more },
  });
  await door(page, 'save', [check('Heron', { state: 'held', reason: 'Brakes' }), check('Kite', { state: 'cleared' })]);
  await goTo(page, `/#/round/${round}`);
  await tap('Finish with 3 not seen');
  await page.getByText('Only cleared bikes go out.').first().waitFor();
  await onPaper(page);
  const row = page.locator('.paper tbody tr');
  await row
    .nth(1)
    .filter({ hasText: /Heron\s+Held\s+Brakes\s+Ada\s/ })
    .waitFor();
  await row
    .nth(2)
    .filter({ hasText: /Kite\s+Cleared\s+Ada\s/ })
    .waitFor();
  await row
    .nth(0)
    .filter({ hasText: /Dipper\s+Not seen yet\s*$/ })
    .waitFor();
  await becomes(() => page.locator('.paper tbody svg').count(), 5);
  assert.equal(await page.locator('.dock').isVisible(), false);
  assert.equal(await page.locator('.round-bar').isVisible(), false);
  assert.equal(await sheets(page), 1);
});

test('a long round is printed on several sheets', async (t) => {
  const { page } = await phoneWithLoaners(t);
  const many = Array.from({ length: 75 }, (_, i) => ({ table: 'bikes', put: { name: `Loaner ${i}`, drive: 'hub' } }));
  await door(page, 'save', many);
  const [round] = await door(page, 'save', [
    { table: 'rounds', put: { name: 'All', started_at: '2026-03-07T08:00:00Z' } },
  ]);
  await goTo(page, `/#/round/${round}`);
  await page.getByText('Show 12 more').waitFor();
  await becomes(() => page.locator('.paper tbody tr').count(), 80, 'paper has all of them');
  await onPaper(page);
  const count = await sheets(page);
  assert.ok(count >= 2 && count <= 5, `${count} sheets`);
});

test('a tag for each of hundreds of bikes, drawn by and by', async (t) => {
  const { page } = await phoneWithLoaners(t);
  const many = (/** @type {number} */ n, /** @type {string} */ name) =>
    Array.from({ length: n }, (_, i) => ({ table: 'bikes', put: { name: `${name} ${i}`, drive: 'hub' } }));
  await door(page, 'save', many(295, 'Loaner'));
  await goTo(page, '/#/tags');
  await page.getByRole('button', { name: 'Print the tags' }).waitFor();
  await becomes(() => page.locator('.qr').count(), 300);
  await door(page, 'save', many(20, 'Late')); // as another phone's, while the page is open
  await becomes(() => page.locator('.qr').count(), 320);
  await page.getByRole('button', { name: 'Print the tags' }).waitFor();
});

// Chromium on Linux has no reader of codes of its own: an independent one stands in
// for the browser's, behind the same interface, and reads a real picture of a tag.
test('where the browser reads codes, a photograph of a tag opens its bike', async (t) => {
  const server = await startServer(t, await programWithDoors());
  const phone = await newPhone(t, server.origin);
  const { page } = phone;
  await phone.context.exposeBinding('readCode', (_, base64) => readQR(Buffer.from(base64, 'base64')));
  await phone.context.addInitScript(() => {
    /** @type {any} */ (globalThis).BarcodeDetector = class {
      /** @param {ImageBitmap} picture */
      async detect(picture) {
        const canvas = new OffscreenCanvas(picture.width, picture.height);
        canvas.getContext('2d')?.drawImage(picture, 0, 0);
        const bytes = new Uint8Array(await (await canvas.convertToBlob()).arrayBuffer());
        const found = await /** @type {any} */ (globalThis).readCode(btoa(String.fromCharCode(...bytes)));
        return found.map((/** @type {string} */ rawValue) => ({ rawValue }));
      }
    };
  });
  await openAndKeep(page);
  await addLoaners(page);
  await goTo(page, '/#/tags');
  const tag = page.locator('.paper-tag', { hasText: 'Newt' });
  await tag.locator('.qr').waitFor();
  const photo = await tag.screenshot();
  const nothing = await page.locator('.plate').screenshot();
  await goTo(page, '/#/round');
  await page.getByRole('button', { name: 'Start, 5 bikes' }).tap();
  const input = page.getByLabel('Scan a tag');
  await input.setInputFiles({ name: 'wall.png', mimeType: 'image/png', buffer: nothing });
  await page.getByText('No tag’s code was found in the picture.').waitFor();
  await input.setInputFiles({ name: 'broken.png', mimeType: 'image/png', buffer: Buffer.from('no picture') });
  await page.getByText('No tag’s code was found in the picture.').waitFor();
  await input.setInputFiles({ name: 'tag.png', mimeType: 'image/png', buffer: photo });
  await page.getByRole('heading', { name: 'Newt' }).waitFor();
});

test('where it does not, the page says what to do, and typing a code finds the bike', async (t) => {
  const { page, tap } = await phoneWithLoaners(t);
  await tap('Start, 5 bikes');
  await page.getByText('point the phone’s own camera at a tag').waitFor();
  assert.equal(await page.getByText('Scan a tag').count(), 0);
  const field = page.getByLabel('Name or tag code');
  await field.fill('zz9');
  await page.getByText('No bike of this round is called or tagged so.').waitFor();
  await field.fill('cd-9');
  await becomes(() => page.locator('a.row').count(), 1);
  await line(page, 'Dipper').waitFor();
  await page.keyboard.press('Enter');
  await page.getByRole('heading', { name: 'Dipper' }).waitFor();
  await tap('Clear it: seen, no reading');
  await stands(page, '1 of 5 cleared, 0 held, 4 not seen yet');
});
