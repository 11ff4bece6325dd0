import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { test } from 'node:test';
import { english } from '../../src/words/en.js';
import { assertAccessible, assertFits, assertLooks, atEnd } from './harness/look.js';
import { becomes } from './harness/patience.js';
import { goTo, newPhone, openAndKeep } from './harness/phone.js';
import { startServer } from './harness/server.js';

/** @typedef {import('playwright-core').Page} Page */

const ROUTER = readFileSync(new URL('../../src/app/router.js', import.meta.url), 'utf8');

/** Every place of the router's table. */
const PLACES = [...ROUTER.matchAll(/^ {2}(\w+): \{ title/gm)].map(([, name]) => name);

/** English texts that would be noticed on a German screen: several words, nothing filled in. */
const ENGLISH = english
  .flatMap((one) => Object.values(one))
  .filter((text) => !text.includes('{') && / \w{2,}/.test(text) && text.length > 11);

/** @param {Page} page @param {string} where */
async function assertGerman(page, where) {
  const text = await page.evaluate(() => {
    const labels = [...document.querySelectorAll('[aria-label]')].map((one) => one.getAttribute('aria-label'));
    return `${document.title}\n${document.body.textContent}\n${labels.join('\n')}`;
  });
  const found = ENGLISH.filter((one) => text.includes(one));
  assert.deepEqual(found, [], `English on ${where}`);
  const sentence = text.match(/\b(the|and|with|which|chain|measure)\b[^\n]*/gi) ?? [];
  assert.deepEqual(sentence, [], `English on ${where}`);
}

/** @param {Page} page @param {string} where */
async function assertSound(page, where) {
  await assertLooks(page, where);
  await assertGerman(page, where);
}

test('every place speaks German, is accessible in both themes and fits', async (t) => {
  const server = await startServer(t);
  const { page } = await newPhone(t, server.origin, { locale: 'de-DE' });
  await goTo(page, '/');
  assert.ok(PLACES.length >= 4);
  for (const place of PLACES) {
    await goTo(page, `/#/${place}`);
    await page.locator('h1').first().waitFor({ state: 'attached' });
    assert.equal(await page.evaluate(() => document.documentElement.lang), 'de');
    await assertSound(page, place);
  }
});

/** Places that want a bike in their address, with a text that stands there once all of it is known. */
const OF_BIKE = {
  bike: 'Verlauf',
  care: 'Was gemacht wurde',
  chains: 'Auf dem Rad',
  distance: 'Strecke · ',
  edit: 'Wie es gefahren wird',
  change: 'Wie lange sie halten mag',
  shopping: 'Ihre Länge',
  cost: 'Jede Möglichkeit',
};

test('a whole garage speaks German: every place of a bike, a round and its bikes', async (t) => {
  const server = await startServer(t);
  const { page, tap } = await newPhone(t, server.origin, { locale: 'de-DE' });
  await goTo(page, '/#/bikes');
  await tap('Mit erfundenen Rädern umsehen');
  await page.getByText('Nichts davon ist echt.').waitFor();
  await page.locator('.bike-list a').first().waitFor();
  await page.getByText('Wird berechnet').first().waitFor({ state: 'detached' });
  await atEnd(page);
  await assertGerman(page, 'bikes');
  await assertAccessible(page, 'bikes');
  await assertFits(page, 'bikes');
  const bikes = await page.locator('.bike-list a').evaluateAll((all) => all.map((a) => a.getAttribute('href') ?? ''));
  const [id] = bikes.map((href) => href.split('/').pop());
  await goTo(page, '/#/round');
  const round = String(await page.locator('a.button.main[href^="#/round/"]').getAttribute('href'));
  for (const [place, text] of Object.entries(OF_BIKE)) {
    await goTo(page, `/#/${place}/${id}`);
    await page.getByText(text).first().waitFor();
    await assertSound(page, place);
  }
  for (const place of ['#/round', round, '#/tags', '#/instruments', '#/kit']) {
    await goTo(page, `/${place}`);
    await page.locator('h1').first().waitFor({ state: 'attached' });
    await assertSound(page, place);
  }
  await goTo(page, `/${round}`);
  await page.getByRole('link', { name: /^Nächstes/ }).tap();
  await page.getByRole('link', { name: 'Alle Räder des Rundgangs' }).waitFor();
  await assertSound(page, 'a bike of a round');
});

test('a verdict with its reasons, a chain family and an error are German', async (t) => {
  const server = await startServer(t);
  const { page } = await newPhone(t, server.origin, { locale: 'de-DE' });
  await goTo(page, '/');
  await page.locator('#value').fill('306,4 mm');
  await page.getByText('0,52 % länger als neu').waitFor();
  await page.getByText('Woher die Unsicherheit kommt').tap();
  await page.getByText('Die Grenze für diesen Antrieb ist 0,50 %.').waitFor();
  await assertSound(page, 'a verdict');
  await page.getByRole('button', { name: 'Ein Strich mehr' }).tap();
  await becomes(async () => (await page.locator('#value').inputValue()) !== '306,4 mm', true);
  await page.locator('#value').fill('9999 mm');
  await page.getByText('Das sind 9999 mm; erlaubt sind 1 bis 6000 mm.').waitFor();
  await assertSound(page, 'an error');
  await goTo(page, '/#/fit');
  await page.getByRole('textbox', { name: /Außenbreite/ }).fill('5,79');
  await page.getByText('Schaltungskette für 11 Ritzel').first().waitFor();
  await assertSound(page, 'a chain family');
});

test('the language is chosen in Kit, kept offline, and changes every word at once', async (t) => {
  const server = await startServer(t);
  const { page, offline } = await newPhone(t, server.origin);
  await openAndKeep(page, '/#/kit');
  await server.stop();
  await offline(true);
  await page.getByRole('radio', { name: 'Deutsch' }).check({ force: true });
  await page.getByRole('heading', { name: 'Kiste' }).waitFor();
  await page.reload();
  await page.getByRole('heading', { name: 'Kiste' }).waitFor();
  await becomes(() => page.evaluate(() => document.documentElement.lang), 'de');
  await page.getByRole('radio', { name: 'English' }).check({ force: true });
  await page.getByRole('heading', { name: 'Kit' }).waitFor();
  await becomes(() => page.evaluate(() => document.documentElement.lang), 'en');
});
