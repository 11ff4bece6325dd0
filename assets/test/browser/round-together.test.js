import assert from 'node:assert/strict';
import { test } from 'node:test';
import { door, garage, until } from './harness/doors.js';
import { becomes } from './harness/patience.js';
import { goTo, type } from './harness/phone.js';
import { addLoaners, line, stands } from './harness/rounds.js';
import { joinBy, phone, server } from './harness/shared.js';
import { more } from './harness/stories.js';

/**
 * A leader's phone with the loaners, and a helper's that has joined.
 * @param {any} t
 * @param {'leader'|'checker'|'viewer'} role
 */
async function two(t, role) {
  const at = await server(t);
  const [leader, helper] = [await phone(t, at), await phone(t, at)];
  const ids = await addLoaners(leader.page);
  await door(leader.page, 'startSharing', 'Canal group', 'Ada’s phone');
  await joinBy(leader, helper, role);
  await until(helper.page, ({ bikes }) => bikes.length === 5);
  for (const { page } of [leader, helper]) {
    await goTo(page, '/#/round');
  }
  return { leader, helper, ids };
}

// An hour before the ride: two phones, patchy signal. 12 1/16 in over 24 pitches is
// 0.5208 % (common practice, no source).
test('Saturday: a leader and a helper, one of them with no signal in the middle', async (t) => {
  const { leader, helper, ids } = await two(t, 'checker');
  await type(leader.page, 'Your name', 'Ada');
  await leader.tap('Start, 5 bikes');
  await stands(leader.page, '0 of 5 cleared, 0 held, 5 not seen yet');

  // The round shows on the helper's phone by itself.
  await helper.page.getByRole('link', { name: /^Go on/ }).tap();
  await type(helper.page, 'Your name', 'Bo');
  await helper.tap('Next: Dipper', 'link');
  await helper.tap('Clear it: seen, no reading');
  await stands(leader.page, '1 of 5 cleared, 0 held, 4 not seen yet');

  await leader.tap('Next: Heron', 'link');
  await more(leader.page).tap();
  await leader.page.getByText('Plan a change').first().waitFor();
  await leader.tap('Clear it with this reading');
  await leader.page.getByText(/Bo: Dipper/).waitFor(); // who is where
  await helper.page.getByText(/Ada: Heron/).waitFor();

  // The helper walks out of reach and goes on.
  await helper.offline(true);
  await helper.tap('Next: Kite', 'link');
  await more(helper.page).tap();
  await helper.page.getByText('Change the chain', { exact: true }).first().waitFor();
  await helper.tap('Hold it…', 'link');
  await helper.tap('Hold it');
  await stands(helper.page, '2 of 5 cleared, 1 held, 2 not seen yet');
  await helper.page.reload();
  await stands(helper.page, '2 of 5 cleared, 1 held, 2 not seen yet');

  // Meanwhile the leader, who cannot know, looks at Kite too and finds nothing.
  await leader.tap('Next: Kite', 'link');
  await leader.tap('Clear it: seen, no reading');
  await leader.tap('Next: Newt', 'link');
  await leader.tap('Clear it: seen, no reading');
  await stands(leader.page, '4 of 5 cleared, 0 held, 1 not seen yet');

  // Back in reach: the hold wins over a look, on both phones, and both looks stay on record.
  await helper.offline(false);
  const agreed = '3 of 5 cleared, 1 held, 1 not seen yet';
  await stands(leader.page, agreed);
  await stands(helper.page, agreed);
  await line(leader.page, 'Kite').getByText('0.52 %, Change the chain · Bo').waitFor();
  await leader.page.getByText('Who cleared and held what').tap();
  await leader.page.getByText('does not count: a held bike needs a reading or a reason').waitFor();

  // The helper sees the last bike; the leader mends Kite, names it, and finishes.
  await helper.tap('Next: Otter', 'link');
  await helper.tap('Clear it: seen, no reading');
  await stands(leader.page, '4 of 5 cleared, 1 held, 0 not seen yet');
  await line(leader.page, 'Kite').tap();
  await leader.page.getByRole('link', { name: 'Clear it…' }).tap();
  await leader.page.locator('.tick', { hasText: 'Another chain is on it' }).tap();
  await leader.tap('Clear it');
  await stands(helper.page, '5 of 5 cleared, 0 held, 0 not seen yet');
  assert.equal(await helper.page.getByRole('button', { name: 'Finish the round' }).count(), 0, 'a checker checks');
  await leader.tap('Finish the round');
  await leader.page.getByText('All 5 bikes are cleared.').waitFor();
  await helper.page.getByText('All 5 bikes are cleared.').waitFor();
  await line(helper.page, 'Kite').getByText('Was held: 0.52 %, Change the chain').waitFor();
  assert.equal(leader.touches(), 15, 'the leader’s Saturday');
  assert.equal(helper.touches(), 10, 'the helper’s Saturday, its loss of signal in it');

  // Everybody's name stands on a bike's own page afterwards.
  await goTo(helper.page, `/#/bike/${ids.Kite}`);
  await helper.page.getByText('In rounds').tap();
  const history = helper.page.locator('.checks > li');
  await history
    .first()
    .getByText(/^\s*Ada, /)
    .waitFor();
  await becomes(() => history.count(), 3);
});

test('a tag’s address opens the bike on a helper’s phone, and from there its check in the round', async (t) => {
  const { leader, helper, ids } = await two(t, 'checker');
  await leader.tap('Start, 5 bikes');
  await until(helper.page, ({ rounds }) => rounds.length === 1);
  await goTo(helper.page, `/#/bike/${ids.Newt}`);
  await helper.page.getByRole('link', { name: 'Not seen yet' }).tap();
  await helper.tap('Clear it: seen, no reading');
  await stands(leader.page, '1 of 5 cleared, 0 held, 4 not seen yet');
});

test('a viewer sees it all and can change none of it', async (t) => {
  const { leader, helper, ids } = await two(t, 'viewer');
  await helper.page.getByText('You may look at this garage, not write in it.').waitFor();
  assert.equal(await helper.page.getByRole('button', { name: /^Start/ }).count(), 0);
  await leader.tap('Start, 5 bikes');
  await leader.tap('Next: Dipper', 'link');
  await leader.tap('Hold it…', 'link');
  await leader.page.locator('.tick', { hasText: 'Brakes' }).tap();
  await leader.tap('Hold it');
  await helper.page.getByRole('link', { name: /^Go on/ }).tap();
  await stands(helper.page, '0 of 5 cleared, 1 held, 4 not seen yet');
  await line(helper.page, 'Dipper').tap();
  await helper.page.getByRole('heading', { name: 'Dipper' }).waitFor();
  await helper.page.locator('.standing', { hasText: 'Brakes' }).waitFor();
  const [{ round_id }] = (await garage(leader.page)).rounds;
  for (const way of ['', '/hold', '/clear']) {
    await goTo(helper.page, `/#/round/${round_id}/${ids.Dipper}${way}`);
    await helper.page.getByText('Dipper').first().waitFor();
    for (const name of [/^Clear it/, /^Hold it/, /^Name a reason/])
      assert.equal(await helper.page.getByRole('button', { name }).count(), 0, `${way} ${name}`);
  }
  await goTo(helper.page, '/#/tags');
  await helper.page.locator('.qr').first().waitFor();
  assert.equal(await helper.page.getByRole('button', { name: /^Give/ }).count(), 0);
});
