import assert from 'node:assert/strict';
import { test } from 'node:test';
import { tabTo, undoIsOneTabAway } from './harness/keys.js';
import { assertAccessible, assertLooks, atEnd } from './harness/look.js';
import { becomes } from './harness/patience.js';
import { goTo, newPhone } from './harness/phone.js';
import { startServer } from './harness/server.js';
import { chooseInstrument, more } from './harness/stories.js';

/** @typedef {import('playwright-core').Page} Page */

/** Every state of the screens, each by the steps that lead to it from the one before. */
const STATES = /** @type {[string, (page: Page) => Promise<unknown>][]} */ ([
  ['Check, empty', (page) => page.getByText('No reading yet').waitFor()],
  [
    'Check, drive',
    async (page) => {
      await page.locator('.setup button').first().tap();
      await page.locator('.choice', { hasText: 'Hub gear' }).waitFor();
    },
  ],
  [
    'Check, span and marks',
    async (page) => {
      await page.locator('.setup button').nth(1).tap();
      await page.locator('.choice', { hasText: 'Other count' }).waitFor();
    },
  ],
  [
    'Check, other count',
    async (page) => {
      await page.getByRole('radio', { name: 'Other count' }).check({ force: true });
      await page.getByRole('button', { name: 'Two pitches more' }).waitFor();
    },
  ],
  [
    'Check, verdict',
    async (page) => {
      await page.getByRole('radio', { name: '12 in', exact: true }).check({ force: true });
      await page.getByRole('button', { name: 'Done' }).tap();
      await more(page).tap();
      await page.getByText('Where the doubt comes from').tap();
      await page.locator('details[open]').waitFor();
    },
  ],
  [
    'Check, thrice',
    async (page) => {
      await page.getByRole('button', { name: 'Measure thrice' }).tap();
      await more(page).tap();
      await more(page).tap();
      await page.getByText('Change it and look at the sprockets').first().waitFor();
    },
  ],
  [
    'Check, unreadable',
    async (page) => {
      await page.locator('#value').fill('12 1/');
      await page.locator('#value').blur();
      await page.getByText('Cannot tell from this').waitFor();
    },
  ],
  [
    'Check, gauge',
    async (page) => {
      await chooseInstrument(page, 'Gauge');
      await page.getByRole('button', { name: 'Dropped in' }).first().tap();
      await page.getByText('% longer than new').waitFor();
    },
  ],
  [
    'Check, compare',
    async (page) => {
      await chooseInstrument(page, 'Compare');
      await more(page).tap();
      await page.getByText('% longer than new').waitFor();
    },
  ],
  [
    'Check, caliper',
    async (page) => {
      await chooseInstrument(page, 'Caliper');
      await page.locator('.setup button').nth(1).tap();
      await page.getByText('Roller').first().waitFor();
    },
  ],
  [
    'Check, kept',
    async (page) => {
      await chooseInstrument(page, 'Compare');
      await page.getByRole('button', { name: 'Keep this reading' }).tap();
      await page.getByText('Kept on this phone.').waitFor();
    },
  ],
  [
    'Kept readings',
    async (page) => {
      await goTo(page, '/#/kept');
      await page.getByText('Compare: 0.5 mm over 100 pitches').waitFor();
    },
  ],
  [
    'Kept readings, deleted',
    async (page) => {
      await page.getByRole('button', { name: 'Delete' }).tap();
      await page.getByText('Deleted.').waitFor();
    },
  ],
  [
    'Kit',
    async (page) => {
      await goTo(page, '/#/kit');
      await page.getByRole('heading', { name: 'Kit' }).waitFor();
    },
  ],
]);

test('every state is accessible in both themes and fits 320 px and text of twice the size', async (t) => {
  const server = await startServer(t);
  const { page } = await newPhone(t, server.origin);
  await goTo(page, '/');
  for (const [state, arrive] of STATES) {
    await arrive(page);
    await assertLooks(page, state);
  }
});

test('the rider’s own choice of theme is accessible too, and is remembered', async (t) => {
  const server = await startServer(t);
  const { page } = await newPhone(t, server.origin);
  await goTo(page, '/#/kit');
  await page.getByRole('radio', { name: 'Slate' }).check({ force: true });
  await atEnd(page);
  await assertAccessible(page, 'Kit, slate');
  await page.reload();
  await becomes(() => page.evaluate(() => document.documentElement.dataset.theme), 'dark');
  await page.getByRole('radio', { name: 'Inches' }).check({ force: true });
  await goTo(page, '/#/check');
  await page.locator('.setup button').nth(1).tap();
  await page.getByText('1/32').waitFor();
  assert.equal(await page.getByText('254 mm').count(), 0);
});

test('with room beside it the dock lies beside the paper, which has no empty column under it', async (t) => {
  const server = await startServer(t);
  const { page } = await newPhone(t, server.origin, { width: 1280, height: 800, mouse: true });
  for (const place of ['check', 'bikes', 'kit']) {
    await goTo(page, `/#/${place}`);
    const [dock, ...others] = await page.evaluate(() => {
      const parts = [...document.querySelectorAll('.dock, .frame > :not(.dock, .skip)')];
      parts.sort((a, b) => Number(b.matches('.dock')) - Number(a.matches('.dock')));
      parts.splice(1, 0, /** @type {Element} */ (document.querySelector('.plate')));
      return parts.map((one) => one.getBoundingClientRect().toJSON());
    });
    for (const { right } of others) assert.ok(right < dock.left, `${place}: ${right} of ${dock.left} px`);
    assert.ok(dock.top < 20 && others[0].top === 0, `${place}: dock at ${dock.top}, name plate at ${others[0].top} px`);
  }
});

test('with the keyboard alone: a reading, its verdict, kept, looked up and deleted', async (t) => {
  const server = await startServer(t);
  const { page } = await newPhone(t, server.origin, { width: 1280, height: 800, mouse: true });
  await goTo(page, '/');
  await page.getByText('No reading yet').waitFor();
  await page.keyboard.press('Tab');
  assert.equal(await page.evaluate(() => document.activeElement?.textContent), 'Skip to the reading');
  await tabTo(page, /^Far end of the span/);
  await page.keyboard.press('ArrowRight');
  await page.getByText('Change the chain', { exact: true }).waitFor();
  await tabTo(page, /^Start afresh$/, 'Shift+Tab');
  await page.keyboard.press('Enter');
  await undoIsOneTabAway(page, /^\s*Emptied/);
  await page.keyboard.press('Enter');
  await page.getByText('Change the chain', { exact: true }).waitFor();
  await tabTo(page, /^Keep this reading/);
  await page.keyboard.press('Enter');
  await page.getByText('Kept on this phone.').waitFor();
  await tabTo(page, /^Kept readings/, 'Shift+Tab');
  await page.keyboard.press('Enter');
  await page.getByText('Rule: 12 1/16 in over 24 pitches').waitFor();
  await tabTo(page, /^Delete/);
  await page.keyboard.press('Enter');
  await page.getByText('Deleted.').waitFor();
  await undoIsOneTabAway(page, /^\s*Deleted/);
  await page.keyboard.press('Enter');
  await page.getByText('Rule: 12 1/16 in over 24 pitches').waitFor();
});

test('nothing moves for those who asked for no motion, and focus is never covered', async (t) => {
  const server = await startServer(t);
  const { page } = await newPhone(t, server.origin);
  await page.emulateMedia({ reducedMotion: 'reduce' });
  await goTo(page, '/');
  await more(page).tap();
  await page.getByText('Where the doubt comes from').waitFor();
  const moving = await page.evaluate(() => document.getAnimations().length);
  assert.equal(moving, 0);
  for (let i = 0; i < 40; i++) {
    await page.keyboard.press('Tab');
    const [top, dock] = await page.evaluate(() => {
      const { activeElement } = document;
      const inDock = activeElement?.closest('.dock, .skip') || activeElement === document.body;
      const tops = [activeElement, document.querySelector('.dock')].map((one) => one?.getBoundingClientRect().top ?? 0);
      return inDock ? [0, 1] : tops;
    });
    assert.ok(top < dock, `focus at ${top} px is under the dock at ${dock} px`);
  }
});
