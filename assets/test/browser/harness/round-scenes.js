/** Round's screens, each by the steps that lead to it from the one before, in the demo's garage. */
import { goTo } from './phone.js';

/** @typedef {import('playwright-core').Page} Page */

/** @param {Page} page */
export async function enterDemo(page) {
  await goTo(page, '/#/bikes');
  await page.getByRole('button', { name: 'Look round with invented bikes' }).click();
  await page.getByText('Nothing here is real.').waitFor();
}

/** @type {[name: string, arrive: (page: Page) => Promise<unknown>][]} */
export const ROUND_SCENES = [
  ['round-home', (page) => goTo(page, '/#/round')],
  ['round-walk', (page) => page.getByRole('link', { name: /^Go on/ }).click()],
  ['round-bike', (page) => page.getByRole('link', { name: /^Next/ }).click()],
  [
    'round-worn',
    async (page) => {
      for (let i = 0; i < 2; i++) await page.getByRole('button', { name: 'One mark more' }).click();
    },
  ],
  ['round-hold', (page) => page.getByRole('link', { name: 'Hold it…' }).click()],
  [
    'round-held',
    async (page) => {
      await page.getByRole('button', { name: 'Hold it' }).click();
      await page.locator('.sheet a.row.held').first().click();
    },
  ],
  ['round-clear', (page) => page.getByRole('link', { name: 'Clear it…' }).click()],
  [
    'round-summary',
    async (page) => {
      await page.goBack();
      await page.getByRole('link', { name: 'All bikes of the round' }).click();
      await page.getByRole('button', { name: /^Finish/ }).click();
    },
  ],
  [
    'round-tags',
    async (page) => {
      await goTo(page, '/#/tags');
      await page.getByRole('button', { name: /^Give/ }).click();
      await page.getByText('Every bike has a code now.').waitFor();
      await page.getByRole('button', { name: 'Print the tags' }).waitFor();
    },
  ],
];
