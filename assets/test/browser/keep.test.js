import assert from 'node:assert/strict';
import { test } from 'node:test';
import { becomes } from './harness/patience.js';
import { goTo, newPhone, openAndKeep } from './harness/phone.js';
import { startServer } from './harness/server.js';
import { chooseDrive, chooseInstrument, more, reads } from './harness/stories.js';

test('a reading typed halfway survives a reload', async (t) => {
  const server = await startServer(t);
  const { page } = await newPhone(t, server.origin);
  await goTo(page, '/');
  await page.locator('#value').pressSequentially('12 1/');
  await page.reload();
  await reads(page, '12 1/');
});

test('a reading from another day says so before anyone rides by it', async (t) => {
  const server = await startServer(t);
  const { page } = await newPhone(t, server.origin);
  await page.clock.install({ time: new Date('2026-03-01T08:00:00Z') });
  await goTo(page, '/');
  await more(page).tap();
  await page.getByText('Change the chain', { exact: true }).waitFor();
  await page.clock.setSystemTime(new Date('2026-03-02T08:00:00Z'));
  await page.reload();
  await page.getByText('This reading is from').waitFor();
  await more(page).tap();
  await page.getByText('This reading is from').waitFor({ state: 'detached' });
});

test('a reading survives the crash of its tab', async (t) => {
  const server = await startServer(t);
  const phone = await newPhone(t, server.origin);
  await openAndKeep(phone.page); // what the crash cuts off is the page, not the worker's script
  await chooseInstrument(phone.page, 'Caliper');
  await phone.page.locator('#value').fill('119,9');
  const crashed = phone.page.waitForEvent('crash');
  phone.page.goto('chrome://crash').catch(() => {});
  await crashed;
  const page = await phone.context.newPage();
  await goTo(page, '/');
  await reads(page, '119,9');
});

test('a kept reading is there after a reload offline, takes a note, and its deletion can be undone', async (t) => {
  const server = await startServer(t);
  const phone = await newPhone(t, server.origin);
  const { page, tap } = phone;
  await openAndKeep(page);
  await server.stop();
  await phone.offline(true);
  await more(page).tap();
  await tap('Keep this reading');
  await page.getByText('Kept on this phone.').waitFor();
  await page.getByText('No reading yet').waitFor(); // room for the next one
  await page.reload();
  await page.getByRole('link', { name: 'Kept readings' }).tap();
  await page.getByText('Rule: 12 1/16 in over 24 pitches').waitFor();
  const note = page.getByLabel('Name or note');
  await note.pressSequentially('blue bike');
  await page.reload();
  await becomes(() => note.inputValue(), 'blue bike');
  await tap('Delete');
  await page.getByText('Deleted.').waitFor();
  await tap('Undo');
  await page.getByText('Rule: 12 1/16 in over 24 pitches').waitFor();
  await tap('Delete');
  await page.getByText('Deleted.').waitFor();
  await page.reload();
  await page.getByText('Nothing kept yet.').waitFor();
});

test('keeping before the engine has answered keeps the reading once, when it has', async (t) => {
  const server = await startServer(t);
  const { page } = await newPhone(t, server.origin);
  /** @type {() => void} */
  let letThrough = () => {};
  const through = new Promise((done) => (letThrough = () => done(undefined)));
  await page.route('**/*.wasm', (route) => through.then(() => route.continue()));
  await goTo(page, '/');
  await more(page).tap();
  const keep = page.getByRole('button', { name: 'Keep this reading' });
  await keep.tap();
  await keep.tap();
  letThrough();
  await page.getByText('Kept on this phone.').waitFor();
  await page.getByRole('link', { name: 'Kept readings' }).tap();
  await page.getByText('Rule: 12 1/16 in over 24 pitches').waitFor();
  assert.equal(await page.locator('.kept-list > li').count(), 1);
});

test('instrument, drive and marks are remembered; starting afresh can be undone', async (t) => {
  const server = await startServer(t);
  const { page, tap } = await newPhone(t, server.origin);
  await goTo(page, '/');
  await chooseDrive(page, 'Hub gear', null);
  await chooseInstrument(page, 'Compare');
  await page.locator('.setup button').nth(1).tap();
  await page.getByRole('radio', { name: '1/32' }).check({ force: true });
  await more(page).tap();
  await tap('Start afresh');
  await page.getByText('Emptied.').waitFor();
  await tap('Undo');
  await reads(page, '1/32 in');
  await page.getByRole('button', { name: 'Two pitches more' }).tap();
  await reads(page, ''); // another length is another reading
  await tap('Undo');
  await reads(page, '1/32 in');
  await page.reload();
  await page.getByText('Hub gear').waitFor();
  await becomes(() => page.getByRole('radio', { name: 'Compare' }).isChecked(), true);
  await page.getByText('100 pitches, marks 1/32').waitFor();
});

test('a full phone says so, keeps the reading on the screen, and goes on once there is room', async (t) => {
  const server = await startServer(t);
  const phone = await newPhone(t, server.origin);
  const { page, tap } = phone;
  await goTo(page, '/');
  await more(page).tap();
  const full = page.getByText('The phone’s storage is full');
  const devtools = await phone.context.newCDPSession(page);
  await devtools.send('Storage.overrideQuotaForOrigin', { origin: server.origin, quotaSize: 1 });
  await tap('Keep this reading');
  await full.waitFor();
  await reads(page, '12 1/16 in');
  await devtools.send('Storage.overrideQuotaForOrigin', { origin: server.origin });
  await tap('Keep this reading');
  await page.getByText('Kept on this phone.').waitFor();
  await full.waitFor({ state: 'detached' });

  await page.evaluate(() => {
    // localStorage has a quota of its own: fill it to the last character.
    for (let size = 2 ** 23; size >= 1; size = Math.floor(size / 2)) {
      try {
        localStorage.setItem(`filler${size}`, 'x'.repeat(size));
      } catch {
        // full at this size; try half of it
      }
    }
  });
  await page.locator('#value').fill('12 1/8 in, longer than anything kept so');
  await full.waitFor();
  await page.locator('#value').fill('12 1/8 in');
  await page.getByText('1.04 % longer than new').waitFor();
});

test('a database that fails where no screen waits for it is said all the same', async (t) => {
  const server = await startServer(t);
  const { page } = await newPhone(t, server.origin);
  await goTo(page, '/');
  await page.evaluate(() => {
    IDBIndex.prototype.getAll = () => {
      throw new DOMException('the disk is broken', 'UnknownError');
    };
  });
  await goTo(page, '/#/keep/11111111-1111-4111-8111-111111111111');
  await page.getByText('The phone could not keep this').waitFor();
});

test('another tab with a newer database is told apart from a full phone', async (t) => {
  const server = await startServer(t);
  const phone = await newPhone(t, server.origin);
  await goTo(phone.page, '/#/kept');
  await phone.page.getByText('Nothing kept yet.').waitFor();
  const other = await phone.context.newPage();
  await goTo(other, '/');
  await other.evaluate(
    () =>
      new Promise((done, fail) => {
        const asked = indexedDB.open('tautspan', 1000);
        asked.onsuccess = () => done(asked.result.close());
        asked.onerror = fail;
      }),
  );
  await phone.page.getByText('A newer version of this app is open in another tab').waitFor();
  await goTo(phone.page, '/#/check');
  await more(phone.page).tap();
  await phone.page.getByText('Change the chain', { exact: true }).waitFor(); // a reading is still answered
});

test('without its engine the app says so, keeps what is entered, and starts it again', async (t) => {
  const server = await startServer(t);
  const phone = await newPhone(t, server.origin);
  const { page } = phone;
  await page.route('**/*.wasm', (route) => route.abort());
  await goTo(page, '/');
  await page.getByText('The calculator stopped').waitFor();
  await more(page).tap();
  await page.getByText('What you entered is kept.').waitFor();
  await reads(page, '12 1/16 in');
  await page.unroute('**/*.wasm');
  await phone.tap('Start it again');
  await page.getByText('Change the chain', { exact: true }).waitFor();
  phone.problems.length = 0; // the file that was kept away is an error in the console
});
