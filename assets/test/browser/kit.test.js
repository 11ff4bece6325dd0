import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { test } from 'node:test';
import { assertLooks } from './harness/look.js';
import { becomes } from './harness/patience.js';
import { goTo, newPhone, openAndKeep, type } from './harness/phone.js';
import { readQR } from './harness/qr-reader.js';
import { startServer } from './harness/server.js';

/** @typedef {import('./harness/phone.js').Phone} Phone */

/** @param {Phone} phone @param {string} name */
async function addBike({ page, tap }, name) {
  await goTo(page, '/#/add');
  await type(page, 'What do you call it?', name);
  await tap('Add it');
  await page.getByRole('heading', { name }).waitFor();
}

/** @param {Phone} phone */
async function shareFromKit({ page, tap }) {
  await goTo(page, '/#/kit');
  await page.getByRole('link', { name: 'Sharing and phones' }).tap();
  await type(page, 'Name of the garage', 'Canal group');
  await type(page, 'Name of this phone', 'Ines’ phone');
  await tap('Share this garage');
  await page.getByText('Shared. Now invite somebody.').waitFor();
}

test('two phones by touch: shared, invited by QR code, in step, shut out, and nothing lost', async (t) => {
  const server = await startServer(t);
  const ines = await newPhone(t, server.origin, { alone: true });
  const tom = await newPhone(t, server.origin, { alone: true });
  await addBike(ines, 'Barge');
  const before = ines.touches();
  await shareFromKit(ines);
  await ines.tap('Make an invitation');
  await ines.page.locator('.invitation .qr').waitFor();
  // Kit is opened by its address; two fields, two taps on what leads on, one each to share and to invite.
  assert.equal(ines.touches() - before, 5, 'touches from Kit to an invitation');
  await ines.page.locator('.invitation .qr').evaluate((qr) => qr.scrollIntoView({ block: 'start' }));
  const [url] = await readQR(await ines.page.locator('.invitation .qr').screenshot());
  assert.equal(url, await ines.page.locator('#invite-link').inputValue());
  await assertLooks(ines.page, 'Sharing, invited');

  await goTo(tom.page, url);
  await type(tom.page, 'Name of this phone', 'Tom’s phone');
  await tom.tap('Join');
  await tom.page.getByText('You are in: Canal group').waitFor();
  await goTo(tom.page, '/#/bikes');
  await tom.page.getByText('Barge').waitFor();
  await goTo(tom.page, '/#/share');
  await tom.page.getByText('This phone is: checker.').waitFor();
  await tom.page.getByText('Everything is with the server, as of').waitFor();
  assert.equal(await tom.page.getByText('Invite somebody').count(), 0, 'inviting is for owners');

  await ines.tap('Look the phones up');
  await ines.page.getByText('Tom’s phone').waitFor();
  await ines.tap('Shut out…');
  await ines.page.getByText('Shut Tom’s phone out?').waitFor();
  await assertLooks(ines.page, 'Sharing, asked about a phone');
  await ines.tap('Leave it in');
  await ines.page.getByText('Shut Tom’s phone out?').waitFor({ state: 'detached' });
  await ines.tap('Shut out…');
  await ines.tap('Shut it out');
  await ines.page.getByText(/shut out \d/).waitFor();
  await tom.page.getByText('This phone was shut out of the garage. Everything on it stays here.').waitFor();
  await assertLooks(tom.page, 'Sharing, shut out');
  await tom.tap('Keep it as a garage of its own');
  await tom.page.getByText('Left. Everything is still on this phone.').waitFor();
  await goTo(tom.page, '/#/bikes');
  await tom.page.getByText('Barge').waitFor();
});

test('with no signal it says what waits, and sends it once there is some', async (t) => {
  const server = await startServer(t);
  const phone = await newPhone(t, server.origin, { alone: true });
  const { page } = phone;
  await openAndKeep(page, '/#/share');
  await shareFromKit(phone);
  await server.stop();
  await phone.offline(true);
  await addBike(phone, 'Lantern');
  await goTo(page, '/#/kit');
  await page.getByText('No signal. 2 changes wait here to be sent.').waitFor();
  await page.reload();
  await page.getByText(/2 changes wait here to be sent\./).waitFor();
  await server.start();
  await phone.offline(false);
  await page.getByText('Everything is with the server, as of').waitFor();
});

test('the owner takes readings as a table and next checks as a calendar from the server', async (t) => {
  const server = await startServer(t);
  const phone = await newPhone(t, server.origin, { alone: true });
  const { page, tap } = phone;
  await addBike(phone, 'Tiller');
  await shareFromKit(phone);
  await page.getByText('Everything is with the server, as of').waitFor();
  await goTo(page, '/#/backup');
  // RFC 4180 begins with the names of the columns; RFC 5545 with BEGIN:VCALENDAR.
  for (const [name, begins] of [
    ['Readings as a table (CSV)', /^[\w,]+\r?\n/],
    ['Next checks for a calendar (ICS)', /^BEGIN:VCALENDAR\r\n/],
  ]) {
    const coming = page.waitForEvent('download');
    await tap(/** @type {string} */ (name));
    assert.match(await readFile(await (await coming).path(), 'utf8'), /** @type {RegExp} */ (begins));
  }
});

test('what is half typed about sharing survives a reload, and a bad invitation says so', async (t) => {
  const server = await startServer(t);
  const { page, tap } = await newPhone(t, server.origin);
  await goTo(page, '/#/share');
  await type(page, 'Name of the garage', 'Half a na');
  await page.reload();
  await becomes(() => page.locator('#garage-name').inputValue(), 'Half a na');
  await type(page, 'Link or code of the invitation', 'no link');
  await tap('Go on');
  await page.getByText('This is not an invitation.').waitFor();
  await assertLooks(page, 'Sharing, on this phone only');
});

test('everything as a file, out, deleted, undone, and into another phone; what is no garage is refused', async (t) => {
  const server = await startServer(t);
  const [one, other] = [await newPhone(t, server.origin), await newPhone(t, server.origin)];
  const { page, tap } = one;
  await addBike(one, 'Windlass');
  await goTo(page, '/#/kit');
  await page.getByRole('link', { name: 'Backup, import, delete' }).tap();
  const coming = page.waitForEvent('download');
  await tap('Save the file');
  const download = await coming;
  assert.match(download.suggestedFilename(), /^tautspan-\d{4}-\d\d-\d\d\.json$/);
  const file = await readFile(await download.path());
  await assertLooks(page, 'Backup');

  await tap('Delete it…');
  await page.getByText('Delete the garage from this phone? Bikes in it: 1.').waitFor();
  await assertLooks(page, 'Backup, asked about deleting');
  await page.getByRole('button', { name: 'Delete it', exact: true }).tap();
  await page.getByText('Deleted.').waitFor();
  await goTo(page, '/#/bikes');
  await page.getByText('No bike yet').waitFor();
  await goTo(page, '/#/backup');
  await tap('Undo');
  await page.getByText('It is back, on this phone.').waitFor();
  await goTo(page, '/#/bikes');
  await page.getByText('Windlass').waitFor();

  await goTo(other.page, '/#/backup');
  await other.page
    .locator('input[type=file]')
    .setInputFiles({ name: 'g.json', mimeType: 'application/json', buffer: file });
  await other.page.getByText(/Records brought in: \d+\. Here already: 0\./).waitFor();
  await other.page
    .locator('input[type=file]')
    .setInputFiles({ name: 'g.json', mimeType: 'application/json', buffer: file });
  await other.page.getByText(/Records brought in: 0\. Here already: \d+\./).waitFor();
  for (const [bad, text] of [
    ['', /cannot be brought in/],
    ['{"format":"something else"}', /no garage that was given out here/],
    [file.toString().slice(0, -20), /cannot be brought in/],
    ['\u0000\u0001', /cannot be brought in/],
  ]) {
    const buffer = Buffer.from(/** @type {string} */ (bad));
    await other.page
      .locator('input[type=file]')
      .setInputFiles({ name: 'b.json', mimeType: 'application/json', buffer });
    await other.page.getByRole('alert').getByText(text).waitFor();
    await other.page.reload();
  }
  await goTo(other.page, '/#/bikes');
  await other.page.getByText('Windlass').waitFor();
});

test('an instrument with a known bias: named, used in Check, reloaded half typed, removed and back', async (t) => {
  const server = await startServer(t);
  const { page, tap } = await newPhone(t, server.origin);
  await goTo(page, '/#/kit');
  await page.getByRole('link', { name: 'My instruments' }).tap();
  await page.getByRole('link', { name: 'Add an instrument' }).tap();
  await type(page, 'What do you call it?', 'Bench rule');
  await type(page, 'Known to read too long by, %', '0,x');
  await page.getByText('This cannot be read. Write it like 0.05.').waitFor();
  await page.reload();
  await becomes(() => page.locator('#tool-name').inputValue(), 'Bench rule');
  await page.locator('#tool-bias').fill('0,05');
  await assertLooks(page, 'Instrument');
  await tap('Save');
  await page.getByText('reads 0.05 % too long').waitFor();
  await assertLooks(page, 'Instruments');

  await goTo(page, '/#/check');
  await page.locator('#value').fill('12 1/16');
  await page.getByText('0.52 % longer than new').waitFor();
  await page.locator('.setup button').nth(1).tap();
  await page.getByRole('radio', { name: 'Bench rule' }).check({ force: true });
  await page.getByText('0.47 % longer than new').waitFor();
  await page.getByText('0.050 % was subtracted because this instrument is known to read so much too long.').waitFor();
  await page.reload();
  await page.getByText('0.47 % longer than new').waitFor();

  await goTo(page, '/#/instruments');
  await page.getByRole('link', { name: /Bench rule/ }).tap();
  await tap('Remove it');
  await page.getByText('“Bench rule” is removed.').waitFor();
  await tap('Undo');
  await page.getByRole('link', { name: /Bench rule/ }).waitFor();
});
