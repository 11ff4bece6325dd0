import assert from 'node:assert/strict';
import { test } from 'node:test';
import { door, garage, until as garageUntil } from './harness/doors.js';
import { assertLooks } from './harness/look.js';
import { until } from './harness/patience.js';
import { goTo } from './harness/phone.js';
import { agreed, joinBy, phone, server } from './harness/shared.js';

test('a second owner, by touch: it hears of it at once, and shuts the lost first phone out', async (t) => {
  const at = await server(t);
  const [ines, tom] = [await phone(t, at), await phone(t, at)];
  await door(ines.page, 'startSharing', 'Canal group', 'Ines’ phone');
  await joinBy(ines, tom, 'checker');
  await goTo(tom.page, '/#/share');
  await tom.page.getByText('This phone is: checker.').waitFor();
  await goTo(ines.page, '/#/share');
  await ines.tap('Leave the garage…');
  await ines.tap('Leave it');
  const why = ines.page.getByText('make another device an owner first, or delete the garage');
  await until(
    () => why.evaluate((fault) => fault.getBoundingClientRect().top),
    (top) => top > 0 && top < 500,
  );

  await ines.tap('Look the phones up');
  await ines.page.getByText('Only this phone is an owner.').waitFor();
  await ines.tap('Change its role…');
  await ines.page.getByText('What helper may do').waitFor();
  assert.equal(await ines.page.getByRole('button', { name: 'Make it' }).count(), 0, 'nothing is chosen yet');
  await ines.page
    .getByRole('group', { name: 'What helper may do' })
    .getByRole('radio', { name: 'owner' })
    .check({ force: true });
  await ines.page.getByText('A second owner can do all you can, also shut you out.').waitFor();
  await assertLooks(ines.page, 'Sharing, asked about a second owner');
  await ines.tap('Make it owner');
  await ines.page.getByText('Its role is changed.').waitFor();
  await ines.page.getByText('Only this phone is an owner.').waitFor({ state: 'detached' });

  await tom.page.getByText('This phone is: owner.').waitFor(); // nothing was touched there
  await tom.tap('Make an invitation');
  await tom.page.locator('.invitation .qr').waitFor();
  await tom.tap('Look the phones up');
  await tom.page
    .getByRole('listitem')
    .filter({ hasText: 'Ines’ phone' })
    .getByRole('button', { name: 'Shut out…' })
    .tap();
  await tom.tap('Shut it out');
  await ines.page.getByText('This phone was shut out of the garage.').waitFor();
  await tom.page.getByText('Only this phone is an owner.').waitFor({ state: 'detached' });
});

test('an owner steps down; who may do less than when it wrote is told so, and loses nothing', async (t) => {
  const at = await server(t);
  const [a, b] = [await phone(t, at), await phone(t, at)];
  await door(a.page, 'startSharing', 'Club', 'Ada');
  await joinBy(a, b, 'leader');
  await garageUntil(a.page, agreed);
  await b.offline(true);
  const [bike] = await door(b.page, 'save', [{ table: 'bikes', put: { name: 'Unsent', drive: 'hub' } }]);
  const { device_id } = await garage(b.page);
  await door(a.page, 'changeRole', device_id, 'viewer');
  await b.offline(false);
  const { sync } = await garageUntil(b.page, ({ role, sync: now }) => role === 'viewer' && now.rejected.length === 1);
  assert.deepEqual([sync.rejected[0].record_id, sync.rejected[0].code], [bike, 'denied']);
  assert.equal(
    (await door(b.page, 'save', [{ table: 'bikes', put: { name: 'no', drive: 'hub' } }])).fault.code,
    'denied',
  );

  assert.equal((await door(a.page, 'changeRole', (await garage(a.page)).device_id, 'leader')).fault.code, 'denied');
  await door(a.page, 'changeRole', device_id, 'owner');
  await garageUntil(b.page, ({ role }) => role === 'owner');
  await goTo(a.page, '/#/share');
  await a.tap('Look the phones up');
  await a.page.getByRole('listitem').filter({ hasText: 'this phone' }).getByRole('button').tap();
  await a.page
    .getByRole('group', { name: 'What Ada may do' })
    .getByRole('radio', { name: 'checker' })
    .check({ force: true });
  await a.page.getByText('Step down? Then only another owner can make this phone an owner again.').waitFor();
  await a.tap('Make it checker');
  await a.page.getByText('This phone is: checker.').waitFor();
  assert.equal(await a.page.getByText('Invite somebody').count(), 0);
});
