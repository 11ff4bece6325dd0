import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { test } from 'node:test';
import { assertAccessible, assertFits, assertRoomy } from './harness/look.js';
import { becomes } from './harness/patience.js';
import { goTo, newPhone, openAndKeep, type } from './harness/phone.js';
import { startServer } from './harness/server.js';
import { drawn, verdict } from './harness/stories.js';

/** @typedef {import('playwright-core').Page} Page */

const ROOT = new URL('../../../', import.meta.url).pathname;
const SEED = 21;

/** @param {string[]} more flags @returns {{path: string, elongation_percent: number, check_line_mm: number, thickness_mm: number}} */
function picture(...more) {
  const path = join(mkdtempSync(join(tmpdir(), 'tautspan-')), 'picture.jpg');
  const args = ['run', './internal/tools/picture', '-seed', String(SEED), '-out', path, ...more];
  return { path, ...JSON.parse(execFileSync('go', args, { cwd: ROOT, encoding: 'utf8' })) };
}

/** @param {any} t a phone with no network on which photographs are turned on */
async function withPhotos(t) {
  const server = await startServer(t);
  const phone = await newPhone(t, server.origin);
  await openAndKeep(phone.page, '/#/kit');
  await phone.tap('Turn it on');
  await phone.page.locator('section', { hasText: 'Photograph' }).getByText('Ready for offline').waitFor();
  await server.stop();
  await phone.offline(true);
  return phone;
}

/** @param {Page} page @param {number} mm of what lies on the chain */
const thick = (page, mm) => page.locator(`.choice:has(input[name=thick][value="${mm}"])`).tap();

/** @param {Page} page @param {string|{name: string, mimeType: string, buffer: Buffer}} file */
async function give(page, file) {
  await page.locator('input[type=file]').first().setInputFiles(file);
  await page.locator('#photo-result').waitFor();
  await drawn(page);
}

test('photograph: turned on, print measured, picture confirmed, then a verdict, with no network', async (t) => {
  const { path, elongation_percent, check_line_mm, thickness_mm } = picture();
  const { page, tap } = await withPhotos(t);
  await goTo(page, '/#/check');
  await page.locator('.choice', { hasText: 'Photo' }).tap();
  await assertFits(page, 'six instruments');
  await tap('Take a picture', 'link');
  await page.getByText('not yet proven').waitFor();
  assert.equal(await page.locator('input[type=file]').count(), 0, 'no picture without a measured print');
  await assertAccessible(page, 'before the print is measured');
  await assertRoomy(page, 'before the print is measured');
  await type(page, 'reading 1', check_line_mm.toFixed(1));
  await type(page, 'reading 2', check_line_mm.toFixed(1).replace('.', ','));
  await page.reload();
  await page.getByText(`${check_line_mm.toFixed(1)}0 mm, give or take 0.16 mm`).waitFor();
  assert.equal(await page.locator('input[type=file]').count(), 0, 'no picture without its thickness');
  await thick(page, thickness_mm);
  await give(page, path);
  await page.getByText('What was found').waitFor();
  await assertAccessible(page, 'a picture to confirm');
  await assertFits(page, 'a picture to confirm');
  await assertRoomy(page, 'a picture to confirm');
  assert.doesNotMatch(await page.locator('.photo').innerText(), /\d %/, 'no number before it is confirmed');
  assert.equal(await page.getByRole('button', { name: 'Confirm all three' }).getAttribute('aria-disabled'), 'true');
  await page.getByRole('checkbox', { name: 'A ring sits on each' }).tap();
  await page.getByRole('checkbox', { name: 'The chain was pulled taut' }).tap();
  await page.getByRole('checkbox', { name: 'lay flat on the plates' }).tap();
  await tap('Show the result');
  await page.locator('.tag', { hasText: '% longer' }).waitFor();
  await verdict(page);
  const [, percent] = /([\d.]+) % longer/.exec(await page.locator('.tag').innerText()) ?? [];
  assert.ok(Math.abs(Number(percent) - elongation_percent) < 0.2, `${percent}, drawn with ${elongation_percent}`);
  await page.getByText('not yet proven').waitFor();
  await page.reload();
  await verdict(page);
  await tap('Keep this reading');
  await page.getByText('Kept on this phone.').waitFor();
  await goTo(page, '/#/kept');
  await page.getByText(`Photograph: ${percent} % longer over 18 pitches`).waitFor();
});

test('a steel rule beside the rivets is the scale, and its own error is kept with the reading', async (t) => {
  const { path, elongation_percent, thickness_mm } = picture('-ruled');
  const { page, tap } = await withPhotos(t);
  await goTo(page, '/#/photo');
  await page.locator('.choice', { hasText: 'Steel rule' }).tap();
  await page.getByText('First say how thick it is.').waitFor();
  assert.equal(await page.getByRole('textbox').count(), 0, 'no print is asked for');
  await thick(page, thickness_mm);
  await page.reload();
  await page.locator('input[type=file]').first().waitFor({ state: 'attached' });
  await assertAccessible(page, 'a steel rule');
  await assertFits(page, 'a steel rule');
  await assertRoomy(page, 'a steel rule');
  await give(page, path);
  await page.getByText('What was found').waitFor();
  await page.getByRole('checkbox', { name: 'A ring sits on each' }).tap();
  await page.getByRole('checkbox', { name: 'The chain was pulled taut' }).tap();
  await page.getByRole('checkbox', { name: 'lay flat on the plates' }).tap();
  await tap('Show the result');
  await page.locator('.tag', { hasText: '% longer' }).waitFor();
  const [, percent] = /([\d.]+) % longer/.exec(await page.locator('.tag').innerText()) ?? [];
  assert.ok(Math.abs(Number(percent) - elongation_percent) < 0.2, `${percent}, drawn with ${elongation_percent}`);
  const draft = await page.evaluate(() => JSON.parse(String(localStorage.getItem('tautspan.draft'))));
  const { shared_standard_uncertainty_percent: own, standard_uncertainty_percent: all } = draft.photo.reading;
  assert.ok(own > 0.02 && own < 0.03 && all > own, `${own} of ${all}`); // 0.1/√3 mm of 254
});

test('a picture that cannot be trusted gives a reason and no number', async (t) => {
  const tilted = picture('-tilt', '17');
  const { page, tap } = await withPhotos(t);
  await goTo(page, '/#/photo');
  await type(page, 'reading 1', String(tilted.check_line_mm.toFixed(1)));
  await thick(page, tilted.thickness_mm);
  await give(page, tilted.path);
  await page.getByText('The phone was tilted too far').waitFor();
  assert.equal(await page.getByRole('button', { name: 'Show the result' }).count(), 0);
  await assertAccessible(page, 'a refused picture');
  await tap('Another picture');
  const buffer = Buffer.from('GIF89a, and no picture at all');
  await give(page, { name: 'picture.jpg', mimeType: 'image/jpeg', buffer });
  await page.getByText('This is not a JPEG or PNG picture').waitFor();
  await give(page, tilted.path);
  await page.getByText('The phone was tilted too far').waitFor();
});

// The print itself is what the engine looks for, and its size is that of paper.
test('the printed frame is to scale, on one sheet, and known by the engine', async (t) => {
  const { page } = await withPhotos(t);
  await goTo(page, '/#/frame');
  await page.locator('.photo-frame').waitFor();
  await assertRoomy(page, 'the frame to print');
  await page.emulateMedia({ media: 'print' });
  await page.setViewportSize({ width: 794, height: 1123 });
  const box = await page.locator('.photo-frame').boundingBox();
  const mm = (/** @type {number} */ px) => (px * 25.4) / 96;
  assert.ok(Math.abs(mm(box?.height ?? 0) - 268) < 0.05 && Math.abs(mm(box?.width ?? 0) - 36) < 0.05);
  const pdf = (await page.pdf({ format: 'A4', preferCSSPageSize: true })).toString('latin1');
  assert.equal((pdf.match(/\/Type\s*\/Page\b(?!s)/g) ?? []).length, 1);
  const shot = join(mkdtempSync(join(tmpdir(), 'tautspan-')), 'frame.png');
  writeFileSync(shot, await page.screenshot());
  await page.emulateMedia({ media: 'screen' });
  await goTo(page, '/#/photo');
  await type(page, 'reading 1', '240');
  await thick(page, 0.3);
  await give(page, shot);
  await page.getByText('does not look like a chain').waitFor();
  await page.locator('.photo-strips').waitFor();
  assert.equal(await page.getByText('were not found').count(), 0);
});

test('turned off again, it is gone from Check', async (t) => {
  const { page, tap } = await withPhotos(t);
  await tap('Turn it off');
  await page.getByRole('button', { name: 'Turn it on' }).waitFor();
  await becomes(() => page.evaluate(() => caches.has('wanted-later')), false);
  await goTo(page, '/#/check');
  await page.locator('.choice', { hasText: 'Screen' }).waitFor();
  assert.equal(await page.locator('.choice', { hasText: 'Photo' }).count(), 0);
});
