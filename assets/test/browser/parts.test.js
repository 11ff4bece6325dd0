import assert from 'node:assert/strict';
import { test } from 'node:test';
import { goTo, newPhone, openAndKeep } from './harness/phone.js';
import { startServer } from './harness/server.js';

/** @typedef {import('playwright-core').Page} Page */

/** Keeps parts of the app away, as a line that breaks does. @param {Page} page @returns {Promise<() => Promise<void>>} ends it */
async function withoutParts(page) {
  const parts = /\/files\/(garage|fit)-/;
  await page.route(parts, (route) => route.abort());
  return () => page.unroute(parts);
}

const FAILED = 'could not be fetched';

test('a part that cannot be had is said, Check goes on, and trying again brings it', async (t) => {
  const server = await startServer(t);
  const { page, tap } = await newPhone(t, server.origin, { alone: true });
  const back = await withoutParts(page);
  await page.goto('/');
  await page.getByRole('heading', { name: 'Check a chain' }).waitFor();
  await tap('Bikes', 'link');
  await page.getByRole('alert').getByText(FAILED).waitFor();
  await page.getByRole('heading', { name: 'Check a chain' }).waitFor();
  await tap('Check', 'link');
  await page.getByText(FAILED).waitFor({ state: 'detached' });

  await tap('Fit', 'link');
  await page.getByText(FAILED).waitFor();
  await back();
  await tap('Try again');
  await page.getByRole('heading', { name: 'Fit a chain', exact: true }).waitFor();
  await tap('Bikes', 'link');
  await page.getByText('No bike yet').waitFor();
});

test('opened by the address of a part that cannot be had, the app is at Check and says so', async (t) => {
  const server = await startServer(t);
  const { page, tap } = await newPhone(t, server.origin, { alone: true });
  const back = await withoutParts(page);
  await page.evaluate((link) => location.assign(link), `${server.origin}/#/round`);
  await page.getByText(FAILED).waitFor();
  await page.getByRole('heading', { name: 'Check a chain' }).waitFor();
  await back();
  await tap('Try again');
  await page.getByRole('heading', { name: 'Round', exact: true }).waitFor();
});

test('after one visit to Check every part opens with no network, though none was opened before', async (t) => {
  const server = await startServer(t);
  const phone = await newPhone(t, server.origin);
  await openAndKeep(phone.page);
  await server.stop();
  for (const [place, words] of [
    ['fit', 'Fit a chain'],
    ['kit', 'Kit'],
  ]) {
    await phone.page.goto('about:blank');
    await goTo(phone.page, `/#/${place}`);
    await phone.page.getByRole('heading', { name: words, exact: true }).waitFor();
  }
  // The licences of what others made go along with it.
  const licences = await phone.page.getByRole('link', { name: 'Licences' }).getAttribute('href');
  const text = await phone.page.evaluate(async (url) => (await fetch(String(url))).text(), licences);
  for (const work of ['lit-html', 'idb', 'lean-qr', 'Go', 'zerolog', 'go-sqlite3']) {
    assert.match(text, new RegExp(`^(\\S*/)?${work}( v?[\\d.]+)?$`, 'm'), work);
  }
});
