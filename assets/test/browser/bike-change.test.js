import assert from 'node:assert/strict';
import { test } from 'node:test';
import { firstReading, nextReading } from './harness/bike-work.js';
import { tabTo } from './harness/keys.js';
import { assertLooks, atEnd } from './harness/look.js';
import { becomes } from './harness/patience.js';
import { goTo, newPhone, openAndKeep, type } from './harness/phone.js';
import { startServer } from './harness/server.js';

/** @typedef {import('playwright-core').Page} Page */

/** @param {any} t @param {import('./harness/phone.js').Options} [options] */
async function withoutNetwork(t, options) {
  const server = await startServer(t);
  const phone = await newPhone(t, server.origin, options);
  await openAndKeep(phone.page);
  await server.stop();
  await phone.offline(true);
  return phone;
}

const NAME = 'Canal hub';

/** A hub gear bike whose chain was read three times. @param {Page} page */
async function worn(page) {
  await page.locator('.setup button').first().tap();
  await page.getByRole('radio', { name: 'Hub gear' }).check({ force: true });
  await page.getByRole('button', { name: 'Done' }).tap();
  await firstReading(page, { marks: 1, name: NAME, ran: /^500$/ });
  await nextReading(page, { marks: 1, name: NAME, km: '700' });
  await nextReading(page, { marks: 2, name: NAME, km: '800' });
  await page.locator('.fan-pin').nth(2).waitFor();
  await atEnd(page); // what still comes would move what is touched next
}

test('a chain changed, with no network: 2 touches when nothing else is to be said; its history carries on', async (t) => {
  const phone = await withoutNetwork(t);
  const { page, tap } = phone;
  await worn(page);
  const before = phone.touches();
  await page
    .getByRole('navigation', { name: 'More about this bike' })
    .getByRole('link', { name: 'Change the chain' })
    .tap();
  await page.getByText('The chain on it has run 2\u202f000 km.').waitFor();
  await page.getByText('From the readings of one finished chain of this bike.').waitFor();
  await tap('It is on');
  await page.getByText('The chain is on.').waitFor();
  assert.equal(phone.touches() - before, 2);
  await page.getByText('No reading yet').waitFor();
  await page.getByText('What comes is told by other chains until its first reading.').waitFor();
  await page.getByText('One earlier chain of this bike is counted in.').waitFor();
  await page.getByText(/retired/).waitFor();
  await nextReading(page, { marks: 1, name: NAME, km: '600' });
  await page.getByText('One earlier chain of this bike is counted in.').waitFor();
  await becomes(() => page.locator('.fan-pin').count(), 1);
  await page.locator('.fan-earlier').first().waitFor(); // the earlier chain stands faint behind
});

test('a change is taken back with one touch, and half a change survives a reload', async (t) => {
  const { page, tap } = await withoutNetwork(t);
  await worn(page);
  await page
    .getByRole('navigation', { name: 'More about this bike' })
    .getByRole('link', { name: 'Change the chain' })
    .tap();
  await page.getByRole('radio', { name: 'It rests' }).check({ force: true });
  await type(page, /^Pitches/, '10');
  await page.getByRole('checkbox', { name: /^The joint is shut/ }).check({ force: true });
  await page.reload();
  await becomes(() => page.locator('#chain-pitches').inputValue(), '10');
  await becomes(() => page.getByRole('radio', { name: 'It rests' }).isChecked(), true);
  await becomes(() => page.getByRole('checkbox', { name: /^The joint is shut/ }).isChecked(), true);
  await page.locator('#chain-pitches').fill('ten');
  await page.getByText('This is not a number that fits here.').waitFor();
  await page.getByRole('button', { name: 'It is on' }).tap({ force: true }); // not while a count cannot be read
  await page.locator('#chain-pitches').fill('100');
  await tap('It is on');
  await page.getByText('No reading yet').waitFor();
  await tap('Undo');
  await page.locator('.dock').getByText('Taken back.').waitFor();
  await page.locator('.tag .figure', { hasText: 'Last reading 1.04 %' }).waitFor();
  await page.locator('.fan-pin').nth(2).waitFor();
});

test('in a rotation the rested chain comes back with what it has run', async (t) => {
  const { page, tap } = await withoutNetwork(t);
  await worn(page);
  const change = page
    .getByRole('navigation', { name: 'More about this bike' })
    .getByRole('link', { name: 'Change the chain' });
  await change.tap();
  await page.getByRole('radio', { name: 'It rests' }).check({ force: true });
  await tap('It is on');
  await page.getByText('No reading yet').waitFor();
  await nextReading(page, { marks: 1, name: NAME, km: '300' });
  await change.tap();
  await page.getByRole('radio', { name: 'It rests' }).check({ force: true });
  await page.getByRole('radio', { name: /2.000 km run/ }).check({ force: true });
  await page.getByText('How long it may last').waitFor({ state: 'detached' }); // it is no new chain
  await tap('It is on');
  await page.locator('.fan-pin').nth(2).waitFor(); // its three readings are back
  await nextReading(page, { marks: 2, name: NAME, km: '100' });
  await page.getByText(/at 2.100 km/).waitFor();
});

test('with the keyboard alone: a reading given to a new bike, then its chain changed', async (t) => {
  const { page } = await withoutNetwork(t, { width: 1280, height: 800, mouse: true });
  await page.locator('#value').focus();
  await page.keyboard.type('12 1/16');
  await page.getByText('0.52 % longer than new').waitFor();
  await press(page, /^Keep this reading$/);
  await page.getByText('Kept on this phone.').waitFor();
  await press(page, /^Give it to a bike$/);
  await page.getByRole('heading', { name: 'Where does it belong?' }).waitFor();
  await press(page, /^A new bike$/);
  await page.waitForFunction(() => document.activeElement?.id === 'keep-name');
  await page.keyboard.type('Quay');
  await press(page, /^1.000$/);
  await press(page, /^Keep it for Quay$/);
  await page.getByRole('heading', { name: 'Quay', level: 1 }).waitFor();
  await press(page, /^Change the chain$/);
  await page.getByRole('heading', { name: 'Another chain for Quay' }).waitFor();
  await press(page, /^It is on$/);
  await page.getByText('The chain is on.').waitFor();
});

/** Tabs until that has the focus, then presses it. @param {Page} page @param {RegExp} name */
async function press(page, name) {
  await tabTo(page, name);
  await page.keyboard.press('Enter');
}

test('every screen of a bike’s work is accessible in both themes, fits 320 px and twice the size, with room for a thumb', async (t) => {
  const { page } = await withoutNetwork(t);
  await worn(page);
  const id = (await page.evaluate(() => location.hash)).split('/')[2];
  /** @type {[string, () => Promise<unknown>][]} */
  const states = [
    [
      'the bike',
      async () => {
        await page.locator('.fan-table summary').tap();
        await page.locator('.fan-table table').first().waitFor();
      },
    ],
    ['shopping', () => at(page, `shopping/${id}`, 'To buy for')],
    [
      'costs',
      async () => {
        await at(page, `cost/${id}`, 'What chains cost');
        for (const [label, text] of [
          ['A chain', '35'],
          ['A set of sprockets', '60,50'],
          ['The most used', '5x'],
        ]) {
          await page.getByLabel(label).fill(text);
        }
        await page.getByText('This is not a sum').waitFor();
      },
    ],
    [
      'costs, worked out',
      async () => {
        await page.getByLabel('The most used').fill('50');
        await page.getByText('Each way').waitFor();
      },
    ],
    ['the change', () => at(page, `change/${id}`, 'Another chain')],
    [
      'where a reading belongs',
      async () => {
        await at(page, 'check', 'Check a chain');
        await page.getByRole('button', { name: 'One mark more' }).tap();
        await page.getByRole('button', { name: 'Keep this reading' }).tap();
        await page.getByText('This chain has then run').waitFor();
      },
    ],
    [
      'a new bike',
      async () => {
        await page.getByRole('button', { name: 'A new bike' }).tap();
        await page.getByRole('textbox', { name: 'Name of the bike' }).waitFor();
      },
    ],
    [
      'Fit from the bike',
      async () => {
        await at(page, 'fit', 'Fit a chain');
        await page.locator('#fit-bike').selectOption({ label: NAME });
        await page.getByRole('textbox', { name: /Outer width/ }).fill('8.9');
        await page.getByText('New to the bike').waitFor();
      },
    ],
  ];
  for (const [state, arrive] of states) {
    await arrive();
    await assertLooks(page, state);
  }
});

/** @param {Page} page @param {string} place @param {string} heading */
async function at(page, place, heading) {
  await goTo(page, `/#/${place}`);
  await page.getByRole('heading', { name: heading, level: 1 }).waitFor();
}
