/** Kit's places, each by the steps that lead to it from the one before. */
import { goTo } from './phone.js';

/** @typedef {import('playwright-core').Page} Page */

/** With a garage on this phone only, which is shared on the way. @type {[string, (page: Page) => Promise<unknown>][]} */
export const SHARE_SCENES = [
  ['share', (page) => goTo(page, '/#/share')],
  [
    'share-invited',
    async (page) => {
      await page.getByRole('textbox', { name: 'Name of the garage' }).fill('Canal ride group');
      await page.getByRole('textbox', { name: 'Name of this phone' }).fill('Ines’ phone');
      await page.getByRole('button', { name: 'Share this garage' }).click();
      await page.getByRole('button', { name: 'Make an invitation' }).click();
      await page.locator('.invitation .qr').evaluate((qr) => qr.scrollIntoView({ block: 'start' }));
    },
  ],
  ['backup', (page) => goTo(page, '/#/backup')],
  ['backup-delete', (page) => page.getByRole('button', { name: 'Delete it…' }).click()],
];

/** In the demo, which has instruments. @type {[string, (page: Page) => Promise<unknown>][]} */
export const TOOL_SCENES = [
  ['instruments', (page) => goTo(page, '/#/instruments')],
  ['instrument', (page) => page.getByRole('link', { name: /Group’s gauge/ }).click()],
  [
    'kit-german',
    async (page) => {
      await goTo(page, '/#/kit');
      await page.getByRole('radio', { name: 'Deutsch' }).check({ force: true });
      await page.getByRole('heading', { name: 'Kiste' }).waitFor();
    },
  ],
  [
    'bike-german',
    async (page) => {
      await goTo(page, '/#/bikes');
      await page.locator('.bike-list a').first().click();
    },
  ],
];
