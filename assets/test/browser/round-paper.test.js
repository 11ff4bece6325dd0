import assert from 'node:assert/strict';
import { test } from 'node:test';
import { door, programWithDoors } from './harness/doors.js';
import { newPhone, openAndKeep } from './harness/phone.js';
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
  const codes = await page.locator('.tag-code').allInnerTexts();
  assert.equal(new Set(codes).size, 5);
  for (const code of codes) assert.match(code, /^[2-9A-Z]{3}$/);
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
  await page.goto(texts[0]); // any camera, any phone of the garage
  const [name] = Object.entries(ids).find(([, id]) => texts[0].endsWith(id)) ?? [];
  await page.getByRole('heading', { name }).waitFor();
});

test('tags are printed black on white in the dark theme too', async (t) => {
  const { page, ids } = await phoneWithLoaners(t, { theme: 'dark' });
  await page.goto('/#/tags');
  await page.locator('.qr').first().waitFor();
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
  await page.goto(`/#/round/${round}`);
  await tap('Finish with 3 not seen');
  await onPaper(page);
  await page.locator('.paper').waitFor();
  const rows = (await page.locator('.paper tbody tr').allInnerTexts()).map((row) => row.replace(/\s+/g, ' ').trim());
  assert.match(rows[1], /Heron Held Brakes Ada /);
  assert.match(rows[2], /Kite Cleared Ada /);
  assert.match(rows[0], /Dipper Not seen yet$/);
  assert.equal(await page.locator('.paper tbody svg').count(), 5);
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
  await page.goto(`/#/round/${round}`);
  await page.getByText('Show 20 more').waitFor();
  assert.equal(await page.locator('.paper tbody tr').count(), 80, 'paper has all of them');
  await onPaper(page);
  const count = await sheets(page);
  assert.ok(count >= 2 && count <= 5, `${count} sheets`);
});

test('a tag for each of hundreds of bikes, drawn by and by', async (t) => {
  const { page } = await phoneWithLoaners(t);
  const many = Array.from({ length: 295 }, (_, i) => ({ table: 'bikes', put: { name: `Loaner ${i}`, drive: 'hub' } }));
  await door(page, 'save', many);
  await page.goto('/#/tags');
  await page.getByRole('button', { name: 'Print the tags' }).waitFor();
  assert.equal(await page.locator('.qr').count(), 300);
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
  await page.goto('/#/tags');
  const photo = await page.locator('.paper-tag', { hasText: 'Newt' }).screenshot();
  const nothing = await page.locator('.plate').screenshot();
  await page.goto('/#/round');
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
  assert.equal(await page.getByText('Scan a tag').count(), 0);
  await page.getByText('point the phone’s own camera at a tag').waitFor();
  const field = page.getByLabel('Name or tag code');
  await field.fill('zz9');
  await page.getByText('No bike of this round is called or tagged so.').waitFor();
  await field.fill('cd-9');
  await page.waitForFunction(() => document.querySelectorAll('a.row').length === 1);
  await line(page, 'Dipper').waitFor();
  await page.keyboard.press('Enter');
  await page.getByRole('heading', { name: 'Dipper' }).waitFor();
  await tap('Clear it: seen, no reading');
  await stands(page, '1 of 5 cleared, 0 held, 4 not seen yet');
});
