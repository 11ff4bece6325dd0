import assert from 'node:assert/strict';
import { test } from 'node:test';
import { assertAccessible, assertFits } from './harness/look.js';
import { until } from './harness/patience.js';
import { arrived, goTo, newPhone, openAndKeep } from './harness/phone.js';
import { startServer } from './harness/server.js';

/** @typedef {import('playwright-core').Page} Page */

/** @param {any} t @param {import('./harness/phone.js').Options} [options] */
async function offline(t, options) {
  const server = await startServer(t);
  const phone = await newPhone(t, server.origin, options);
  await openAndKeep(phone.page);
  await server.stop();
  await phone.offline(true);
  return phone;
}

/** @param {Page} page @returns {Promise<number>} px from line to line, as drawn */
async function apart(page) {
  const [, upper, lower] = /M0 ([\d.]+)H1000M0 ([\d.]+)H/.exec(
    (await page.locator('.glass-lines path').getAttribute('d')) ?? '',
  ) ?? [''];
  return Number(lower) - Number(upper);
}

/** Moves the lower line to a distance from the upper one, by touch. @param {Page} page @param {number} px @param {number} ratio */
async function moveTo(page, px, ratio) {
  for (const [name, pace] of /** @type {const} */ ([
    ['far', 24],
    ['near', 4],
    ['fine', 1 / ratio],
  ])) {
    const from = await apart(page);
    const steps = Math.round((px - from) / pace);
    const button = page.getByRole('button', { name: `Line ${steps < 0 ? 'up' : 'down'}, ${name}` });
    for (let i = 0; i < Math.abs(steps); i++) await button.tap();
    await until(
      () => apart(page),
      (now) => Math.abs(now - from - steps * pace) < 0.1 / ratio,
      `${from} px and ${steps} times ${pace}`,
    );
  }
  const off = px - (await apart(page));
  assert.ok(Math.abs(off) <= 0.5 / ratio + 1e-9, `${off} px off`);
}

test('a glass that was opened by its address is left into the app, not out of it', async (t) => {
  const { page, tap } = await newPhone(t, (await startServer(t)).origin);
  await goTo(page, '/#/glass/rule');
  await tap('Back');
  await arrived(page, '#/check');
});

// A screen of 5.5 px/mm: 100 mm are 550 px; 8 pitches are 101.6 mm, and 0.9 %
// longer 102.5144 mm, so 563.83 px (computed).
const PX_PER_MM = 5.5;

for (const ratio of [1, 2, 2.625, 3]) {
  test(`screen as a rule: set against a rule, then a verdict, offline, at ${ratio} device px per px`, async (t) => {
    const { page, tap } = await offline(t, { ratio });
    await page.locator('.choice', { hasText: 'Screen' }).tap();
    await tap('Set it with a steel rule', 'link');
    const [, mm] = /to the (\d+) mm mark/.exec((await page.locator('.glass-before').textContent()) ?? '') ?? [];
    await assertAccessible(page, 'how to set the screen');
    await assertFits(page, 'how to set the screen');
    await tap('Show the lines');
    for (let i = 1; i <= 4; i++) {
      await page.getByText(`${i} of 4`).waitFor();
      await moveTo(page, Number(mm) * PX_PER_MM, ratio);
      await tap('Take it');
    }
    await page.getByText('Lay the chain on the glass').waitFor();
    await goTo(page, '/#/kit');
    await page.getByText(/a millimetre is known to 0\.\d+ %/).waitFor();
    await goTo(page, '/#/check');
    await tap('Measure on the glass', 'link');
    const [, pitches] =
      /the pin (\d+) pitches on/.exec((await page.locator('.glass-before').textContent()) ?? '') ?? [];
    assert.equal(Number(pitches) % 2, 0);
    await tap('Show the lines');
    await assertAccessible(page, 'the lines');
    for (let i = 1; i <= 5; i++) {
      await page.getByText(`${i} of 5`).waitFor();
      await moveTo(page, Number(pitches) * 12.7 * 1.009 * PX_PER_MM, ratio);
      if (i === 2) {
        await page.reload();
        await page.getByText('2 of 5').waitFor();
      }
      await tap('Take it');
    }
    const verdict = page.getByRole('region', { name: 'Verdict' });
    await verdict.getByText('Change').first().waitFor();
    const [, percent] = /([\d.]+) % longer/.exec((await verdict.textContent()) ?? '') ?? [];
    assert.ok(Math.abs(Number(percent) - 0.9) < 0.1, percent);
    await assertFits(page, 'a reading of the screen');
    await tap('Keep this reading');
    await page.getByText('Kept on this phone.').waitFor();
  });
}

test('another way of holding the phone is refused, and said', async (t) => {
  const { page, tap } = await offline(t);
  await page.evaluate(() => {
    const display = { ratio: devicePixelRatio, zoom: 1, width: 360, height: 740, upright: true };
    const made = {
      px_per_mm: 6,
      standard_uncertainty: 0.004,
      against: 'rule',
      settings: [],
      display,
      at: '2026-06-01T08:00:00Z',
    };
    localStorage.setItem('tautspan.calibration', JSON.stringify(made));
  });
  await page.reload();
  await page.locator('.choice', { hasText: 'Screen' }).tap();
  await tap('Measure on the glass', 'link');
  await page.getByRole('button', { name: 'Show the lines' }).waitFor();
  await page.setViewportSize({ width: 740, height: 360 });
  await page.getByText(/another size, zoom or way of holding/).waitFor();
  assert.equal(await page.getByRole('button', { name: 'Show the lines' }).count(), 0);
});

test('settings that differ too much give no calibration', async (t) => {
  const { page, tap } = await offline(t);
  await goTo(page, '/#/glass/card');
  await tap('Show the lines');
  for (let i = 1; i <= 4; i++) {
    await page.getByText(`${i} of 4`).waitFor();
    await moveTo(page, i === 3 ? 500 : 480, 1);
    await tap('Take it');
  }
  await page.getByText('These differ too much').waitFor();
  await tap('Start again');
  await page.getByText('1 of 4').waitFor();
});

// A browser's own bars come and go, and the window with them, while the screen stays as it is.
test('a window that grows changes no length that is being set, and one too small says so', async (t) => {
  const { page, tap } = await offline(t);
  const cdp = await page.context().newCDPSession(page);
  const high = (/** @type {number} */ height) =>
    cdp.send('Emulation.setDeviceMetricsOverride', {
      ...{ width: 360, height, screenWidth: 360, screenHeight: 740, deviceScaleFactor: 1, mobile: true },
    });
  await high(740);
  await goTo(page, '/#/glass/rule');
  const [, mm] = /to the (\d+) mm mark/.exec((await page.locator('.glass-before').textContent()) ?? '') ?? [];
  await tap('Show the lines');
  await moveTo(page, Number(mm) * PX_PER_MM, 1);
  await tap('Take it');
  await page.getByText('2 of 4').waitFor();
  await high(600);
  await page.getByText('The window has changed meanwhile').waitFor();
  await high(900);
  for (let i = 2; i <= 4; i++) {
    await page.getByText(`${i} of 4`).waitFor();
    await moveTo(page, Number(mm) * PX_PER_MM, 1);
    await tap('Take it');
  }
  await until(
    () => page.evaluate(() => JSON.parse(localStorage.getItem('tautspan.calibration') ?? '{}').px_per_mm ?? 0),
    (perMM) => Math.abs(perMM - PX_PER_MM) < 0.03,
    'set for the length that was asked for',
  );
});
