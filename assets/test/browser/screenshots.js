/** Takes every place, with a shed of invented bikes, Round and instruments in the demo, at two sizes in both themes: node test/browser/screenshots.js FOLDER. */
import { mkdir } from 'node:fs/promises';
import { join } from 'node:path';
import { shed } from './harness/bikes.js';
import { buildEdition } from './harness/edition.js';
import { SHARE_SCENES, TOOL_SCENES } from './harness/kit-scenes.js';
import { goTo, newPhone } from './harness/phone.js';
import { ROUND_SCENES, enterDemo } from './harness/round-scenes.js';
import { startServer } from './harness/server.js';
import { session } from './harness/session.js';

/** @typedef {import('playwright-core').Page} Page */

const SIZES = [
  { width: 360, height: 740 },
  { width: 1280, height: 800 },
];

/** A bike of the shed. */
const BIKE = '00000001-0000-4000-8000-00000000000b';

/** What is shown of it. */
const OF_BIKE = ['bike', 'distance', 'care', 'edit', 'chains', 'change', 'shopping', 'cost'];

/** What is done in a place before its picture is taken. @type {Record<string, (page: Page) => Promise<void>>} */
const SCENES = {
  check: async (page) => {
    await page.getByRole('textbox').first().fill('12 1/16');
  },
  bikes: async (page) => {
    await page.locator('.wear-strip').nth(6).waitFor();
  },
  fit: async (page) => {
    await page.getByRole('textbox', { name: /Outer width/ }).fill('5.79');
    await page.getByRole('img').first().scrollIntoViewIfNeeded();
  },
};

/** The same for one bike. @type {Record<string, (page: Page) => Promise<unknown>>} */
const BIKE_SCENES = {
  cost: async (page) => {
    for (const [part, price] of Object.entries({ chain: '35', sprockets: '60', chainring: '50' })) {
      await page.locator(`#price-${part}`).fill(price);
    }
    await page.getByText('Each way').waitFor();
  },
  change: (page) => page.getByText('How long it may last').waitFor(),
  shopping: (page) => page.getByText('Its length').waitFor(),
};

/** The wear fan, further down on the bike's page. @param {Page} page */
async function toFan(page) {
  await goTo(page, `/#/bike/${BIKE}`);
  await page.locator('.fan').evaluate((fan) => fan.scrollIntoView({ block: 'start' }));
}

/** A reading about to be kept for the bike. @param {Page} page */
async function toKeep(page) {
  await goTo(page, `/#/check/${BIKE}`);
  await page.waitForFunction(() => /** @type {any} */ (document.querySelector('#value'))?.value.includes('12 1/16'));
  await page.locator('.tag:not(.busy) .figure').waitFor();
  await page.getByRole('button', { name: 'Keep this reading' }).click();
  await page.getByText('This chain has then run').waitFor();
}

const folder = String(process.argv[2] ?? '');
if (!folder) throw new Error('usage: node test/browser/screenshots.js FOLDER');

await session(async (t) => {
  await mkdir(folder, { recursive: true });
  const { program, remove } = await buildEdition(
    'pictures',
    "import { save } from '../data/garage.js'; globalThis.keep = save;",
  );
  t.after(remove);
  const server = await startServer(t, program);
  for (const theme of /** @type {const} */ (['light', 'dark'])) {
    for (const size of SIZES) {
      const { page } = await newPhone(t, server.origin, { ...size, theme, mouse: size.width > 600 });
      await goTo(page, '/');
      await page.getByText('Ready for offline').waitFor();
      const places = await page.locator('nav a').evaluateAll((links) => links.map((a) => a.getAttribute('href') ?? ''));
      await page.evaluate((changes) => /** @type {any} */ (globalThis).keep(changes), shed());
      const name = (/** @type {string} */ place) => join(folder, `${place}-${theme}-${size.width}.png`);
      for (const place of places) await take(page, place, name(place.slice(2)));
      await take(page, '#/add', name('add'));
      for (const place of OF_BIKE) await take(page, `#/${place}/${BIKE}`, name(place), BIKE_SCENES[place]);
      await toFan(page);
      await shoot(page, name('fan'));
      await toKeep(page);
      await shoot(page, name('keep'));
      for (const [scene, arrive] of SHARE_SCENES) {
        await arrive(page);
        await shoot(page, name(scene));
      }
      const { page: demo } = await newPhone(t, server.origin, { ...size, theme, mouse: size.width > 600 });
      await enterDemo(demo);
      for (const [scene, arrive] of [...ROUND_SCENES, ...TOOL_SCENES]) {
        await arrive(demo);
        await shoot(demo, name(scene));
      }
    }
  }
});

/**
 * @param {Page} page
 * @param {string} place as in #/check
 * @param {string} path
 * @param {(page: Page) => Promise<unknown>} [scene] what is done there first
 */
async function take(page, place, path, scene = SCENES[place.slice(2)]) {
  await goTo(page, `/${place}`);
  await scene?.(page);
  await shoot(page, path);
}

/** @param {Page} page @param {string} path */
async function shoot(page, path) {
  await page.waitForTimeout(500); // the answer, and whatever moves, has come to rest
  await page.screenshot({ path, animations: 'disabled', scale: 'css' });
}
