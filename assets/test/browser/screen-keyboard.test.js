import assert from 'node:assert/strict';
import { test } from 'node:test';
import { door } from './harness/doors.js';
import { becomes } from './harness/patience.js';
import { goTo } from './harness/phone.js';
import { phoneWithLoaners } from './harness/rounds.js';

const PHONE = { width: 360, height: 740 };

/** What a keyboard on the screen leaves of it, for `interactive-widget=resizes-content` in the page's head. */
const LEFT = { width: 360, height: 380 };

/** Runs in the page: whether all of what is typed into can be seen. */
function inSight() {
  const typed = /** @type {Element} */ (document.activeElement);
  const dock = /** @type {Element} */ (document.querySelector('.dock'));
  const { top, bottom } = typed.getBoundingClientRect();
  const end = dock.contains(typed) ? innerHeight : Math.min(innerHeight, dock.getBoundingClientRect().top);
  return top >= 0 && bottom <= end ? 'in sight' : `${top} to ${bottom} of ${end} px`;
}

test('a keyboard that comes up on the screen leaves every field in sight, above the dock', async (t) => {
  const { page, ids } = await phoneWithLoaners(t);
  const widget = await page.locator('meta[name=viewport]').getAttribute('content');
  assert.match(String(widget), /interactive-widget=resizes-content/);
  const at = new Date().toISOString();
  const [round] = await door(page, 'save', [{ table: 'rounds', put: { name: 'Saturday', started_at: at } }]);
  const ofRound = ['', `/${ids.Heron}`, `/${ids.Heron}/hold`].map((rest) => `round/${round}${rest}`);
  const ofBike = ['edit', 'distance', 'cost'].map((one) => `${one}/${ids.Heron}`);
  let fields = 0;
  for (const place of ['check', 'add', 'fit', 'share', ...ofRound, ...ofBike]) {
    await goTo(page, `/#/${place}`);
    const typing = page.locator('#app :is(input:not([type=checkbox], [type=radio], [type=file]), textarea):visible');
    await typing.first().waitFor();
    for (const one of await typing.all()) {
      await one.focus();
      await page.setViewportSize(LEFT);
      await becomes(() => page.evaluate(inSight), 'in sight', `${place}, ${await one.getAttribute('id')}`);
      await page.keyboard.type('7');
      assert.equal(await page.evaluate(inSight), 'in sight', `${place} after a letter`);
      await page.setViewportSize(PHONE);
      fields++;
    }
  }
  assert.ok(fields > 15, `${fields} fields`);
});
