/** Steps and invented bikes that the stories of Bikes share. */
import { becomes } from './patience.js';
import { newPhone, openAndKeep, type } from './phone.js';
import { startServer } from './server.js';

/**
 * @typedef {import('playwright-core').Page} Page
 * @typedef {import('./phone.js').Phone} Phone
 */

/** Bikes on a phone with no signal. @param {any} t @param {string} [program] @returns {Promise<Phone>} */
export async function offline(t, program) {
  const server = await startServer(t, program);
  const phone = await newPhone(t, server.origin);
  await openAndKeep(phone.page);
  await server.stop();
  await phone.offline(true);
  return phone;
}

/** @param {Page} page @param {string} name a chip */
export function chip(page, name) {
  return page.locator('.choice', { hasText: new RegExp(`^\\s*${name}\\s*$`) }).first();
}

/** @param {Page} page @param {string} name @param {string} value the fact as it stands on a bike's page */
export async function fact(page, name, value) {
  await page.locator('.facts > div', { hasText: name }).getByText(value, { exact: true }).first().waitFor();
}

/** Adds a bike by touch and stays on its page. @param {Phone} phone @param {string} name */
export async function addBike({ page, tap }, name) {
  await tap('Bikes', 'link');
  await tap('Add a bike', 'link');
  await type(page, 'What do you call it?', name);
  await tap('Add it');
  await page.getByRole('heading', { name, level: 1 }).waitFor();
}

/** Waits until the newest entry of a bike's log is this. @param {Page} page @param {string} entry */
export async function logBegins(page, entry) {
  await page.locator('.log strong').first().getByText(entry, { exact: true }).waitFor();
}

/** Waits until a bike's log is just this. @param {Page} page @param {string[]} entries */
export async function logIs(page, entries) {
  await becomes(() => page.locator('.log strong').allInnerTexts(), entries);
}

const DAY_MS = 86_400_000;

/**
 * A bike with a chain read now and then, as changes to save. Invented.
 * @param {number} n distinguishes its records
 * @param {{fields: Record<string, any>, km: number, wear: number[], every?: number}} bike wear: elongation of each
 *   reading in percent, the readings spread over `km`; one each `every` days
 */
export function readBike(n, { fields, km, wear, every = 30 }) {
  const [bike, chain] = ['b', 'c'].map((one) => `${n.toString(16).padStart(8, '0')}-0000-4000-8000-00000000000${one}`);
  const at = (/** @type {number} */ i) => new Date(Date.now() - (wear.length - i) * every * DAY_MS).toISOString();
  return [
    { table: 'bikes', record_id: bike, put: { drive: 'derailleur', ...fields } },
    { table: 'chains', record_id: chain, put: { bike_id: bike, fitted_at_km: 0, km_before: 0 } },
    ...wear.flatMap((percent, i) => {
      const at_km = Math.round((km * (i + 1)) / wear.length);
      const span_mm = Math.round(304.8 * (10 + percent / 10)) / 10;
      return [
        { table: 'distances', put: { bike_id: bike, at: at(i), odometer_km: at_km } },
        {
          table: 'readings',
          put: { chain_id: chain, at: at(i), at_km, by: 'Ada', reading: { kind: 'rule', pitches: 24, span_mm } },
        },
        {
          table: 'care',
          put: { chain_id: chain, at: at(i), at_km, did: ['wiped', 'lubricated'], lubricant: 'oil' },
        },
      ];
    }),
  ];
}

/** A shed of invented bikes in every standing. */
export function shed() {
  return [
    {
      fields: { name: 'Grey tourer', rear_sprockets: 10, care: 'usual', km_per_week: 90 },
      km: 3200,
      wear: [0.2, 0.47],
    },
    { fields: { name: 'Mud runner', rear_sprockets: 11, care: 'gritty', km_per_week: 60 }, km: 1400, wear: [0.3, 0.6] },
    {
      fields: { name: 'Loaner 1', rear_sprockets: 9, tag: 'K-01', set: 'loaners', bears: ['child_seat'] },
      km: 2100,
      wear: [0.3],
    },
    { fields: { name: 'Loaner 2', rear_sprockets: 9, tag: 'K-02', set: 'loaners' }, km: 800, wear: [] },
    { fields: { name: 'Town bike', drive: 'hub', care: 'enclosed', km_per_week: 40 }, km: 5200, wear: [0.2, 0.4] },
    {
      fields: { name: 'Old courier', drive: 'single', care: 'gritty', km_per_week: 150 },
      km: 6000,
      wear: [0.4, 0.9, 1.3],
    },
    { fields: { name: 'Vélo bleu', rear_sprockets: 12, care: 'clean', km_per_week: 200 }, km: 900, wear: [0.05, 0.11] },
    { fields: { name: 'Orchard cart', rear_sprockets: 8, note: 'apples' }, km: 2500, wear: [0.5, 0.7] },
  ].flatMap((bike, i) => readBike(i + 1, bike));
}
