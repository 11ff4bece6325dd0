/** The keyboard alone. */
import assert from 'node:assert/strict';

/** @typedef {import('playwright-core').Page} Page */

/** More presses of Tab than any page has stops. */
const STOPS = 120;

/**
 * Moves the focus with Tab alone to what is read aloud so, once it is there.
 * @param {Page} page
 * @param {RegExp} name
 * @param {'Tab'|'Shift+Tab'} [key]
 */
export async function tabTo(page, name, key = 'Tab') {
  await page.waitForFunction(isNamed, { name, all: true });
  for (let i = 0; i < STOPS; i++) {
    if (await page.evaluate(isNamed, { name, all: false })) return;
    await page.keyboard.press(key);
  }
  assert.fail(`the keyboard never came to ${name}`);
}

/**
 * Runs in the page.
 * @param {{name: RegExp, all: boolean}} asked `all`: whether any stop has that name, else only the focus
 */
function isNamed({ name, all }) {
  const stops = all
    ? [...document.querySelectorAll('a, button, input, select, summary, [tabindex="0"]')]
    : [document.activeElement];
  return stops.some((one) => {
    const labels = one instanceof HTMLInputElement ? one.labels : null;
    const said = one?.getAttribute('aria-label') ?? labels?.[0]?.textContent ?? one?.textContent ?? '';
    return name.test(said.replace(/\s+/g, ' ').trim());
  });
}

/**
 * After something was done by the keyboard: a second Enter takes nothing back,
 * and the way back is one Tab away.
 * @param {Page} page left with the focus on Undo
 * @param {RegExp} says what the line says that has the focus
 */
export async function undoIsOneTabAway(page, says) {
  await page.waitForFunction((told) => told.test(document.activeElement?.textContent ?? ''), says);
  assert.notEqual(await page.evaluate(() => document.activeElement?.textContent), 'Undo');
  await page.keyboard.press('Enter');
  await page.keyboard.press('Tab');
  assert.equal(await page.evaluate(() => document.activeElement?.textContent), 'Undo');
}
