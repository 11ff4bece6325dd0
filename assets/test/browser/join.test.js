import assert from 'node:assert/strict';
import { test } from 'node:test';
import { door, garage, until } from './harness/doors.js';
import { assertLooks } from './harness/look.js';
import { becomes } from './harness/patience.js';
import { goTo, type } from './harness/phone.js';
import { BIKE, agreed, phone, server } from './harness/shared.js';

test('by touch: a link says what joining means, joins, and brings the own bikes along when asked to', async (t) => {
  const at = await server(t);
  const [a, b] = [await phone(t, at), await phone(t, at)];
  await door(a.page, 'save', [{ table: 'bikes', put: BIKE }]);
  await door(a.page, 'startSharing', 'Club', 'Ada');
  await door(b.page, 'save', [{ table: 'bikes', put: { name: 'Mine', drive: 'hub' } }]);
  const { code, url } = await door(a.page, 'invite', 'leader', 1, 3600);
  assert.equal(url, `${at.origin}/#/join/${code}`);
  /** @type {string[]} */
  const asked = [];
  b.page.on('request', (request) => asked.push(request.url()));

  await goTo(b.page, url);
  await b.page.getByText('So that the others know who it is').waitFor();
  await b.page.getByText('The bikes that are on this phone already stay').waitFor();
  await assertLooks(b.page, 'Join, asked');
  await type(b.page, 'Name of this phone', 'Ben');
  await b.tap('Join');
  await b.page.getByRole('heading', { name: 'You are in: Club' }).waitFor();
  await b.page.getByText('This phone is a leader').waitFor();
  await becomes(() => new URL(b.page.url()).hash, '#/join/', 'the secret has left the address');
  assert.equal(
    asked.some((one) => one.includes(code)),
    false,
    'the secret was in no address asked for',
  );
  await assertLooks(b.page, 'Join, joined');
  const round = b.page.getByRole('link', { name: 'Go to the round' });
  assert.equal(await round.getAttribute('href'), '#/round', 'what a helper was asked to join for');
  await b.tap('Bring them into this garage');
  await b.page.getByText('They are in the shared garage now.').waitFor();
  await b.tap('See its bikes', /** @type {any} */ ('link'));
  await b.page.getByText('Loaner 1').waitFor();
  await b.page.getByText('Mine').waitFor();
  await until(a.page, (now) => agreed(now) && now.bikes.length === 2);
  assert.equal((await door(a.page, 'devices'))[1].name, 'Ben');
});

test('a link that is used up, with no signal, or with nothing in it, says so; nothing typed is lost', async (t) => {
  const at = await server(t);
  const [a, b] = [await phone(t, at), await phone(t, at)];
  await door(a.page, 'startSharing', 'Club', 'Ada');
  const { url } = await door(a.page, 'invite', 'viewer', 1, 3600);
  await goTo(b.page, url);
  await type(b.page, 'Name of this phone', 'Ben');
  await b.page.reload();
  await at.stop();
  await b.tap('Join');
  await b.page.getByText('There is no signal, or the server is away').waitFor();
  await at.start();
  await b.tap('Join');
  await b.page.getByText('This phone is a viewer').waitFor();
  assert.equal(await b.page.getByRole('link', { name: 'Go to the round' }).count(), 0, 'a viewer clears nothing');
  await goTo(b.page, `${at.origin}/#/check`);
  await goTo(b.page, url);
  await type(b.page, 'Name of this phone', 'Ben');
  await b.tap('Join');
  await b.page.getByText('This invitation is not valid').waitFor();
  assert.equal((await garage(b.page)).name, 'Club', 'what was joined stays');
  await goTo(b.page, `${at.origin}/#/check`);
  await b.page.reload();
  await goTo(b.page, `${at.origin}/#/join/`);
  await b.page.getByText('There is no invitation in this address').waitFor();
  await goTo(b.page, `${at.origin}/#/join/nonsense%20%E2%98%83`);
  await b.tap('Join');
  await b.page.getByText('This invitation is not valid').waitFor();
  await assertLooks(b.page, 'Join, refused');
});
