/** Steps that several stories take on the screens. */

/** @typedef {import('playwright-core').Page} Page */

/** @param {Page} page @returns {Promise<string>} the words on the tag, once the engine has answered */
export async function verdict(page) {
  await page.locator('.tag:not(.busy) .word').waitFor();
  await page.getByText('The calculator is starting').waitFor({ state: 'hidden' });
  return page.locator('.tag .word').innerText();
}

/** @param {Page} page @param {string} text waits until the value reads so */
export async function reads(page, text) {
  await page.waitForFunction((wanted) => /** @type {any} */ (document.querySelector('#value'))?.value === wanted, text);
}

/** @param {Page} page the button for one mark more */
export function more(page) {
  return page.getByRole('button', { name: 'One mark more' });
}

/** @param {Page} page waits until the screen shows what was just done */
export async function drawn(page) {
  await page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));
}

/** @param {Page} page @param {string} name */
export async function chooseInstrument(page, name) {
  await page.getByRole('radio', { name, exact: true }).check({ force: true });
  await drawn(page);
}

/**
 * @param {Page} page
 * @param {string} drive
 * @param {string|null} sprockets
 */
export async function chooseDrive(page, drive, sprockets) {
  await page.locator('.setup button').first().click();
  await page.getByRole('radio', { name: drive, exact: true }).check({ force: true });
  if (sprockets) await page.getByRole('radio', { name: sprockets, exact: true }).check({ force: true });
  await page.getByRole('button', { name: 'Done' }).click();
  await drawn(page);
}
