/** What a page must be whatever it shows: accessible, and inside its screen. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/** @typedef {import('playwright-core').Page} Page */

/**
 * Goes to the end of the page once nothing more comes: there the dock lies over
 * nothing, so that no target counts as half covered.
 * @param {Page} page
 */
export async function atEnd(page) {
  await page.evaluate(async () => {
    const until = performance.now() + 30_000;
    for (let last = 0, still = 0; still < 10 && performance.now() < until;) {
      await new Promise((drawn) => requestAnimationFrame(drawn));
      const height = document.body.scrollHeight;
      scrollTo(0, height);
      still = height === last && !document.querySelector('.busy') ? still + 1 : 0;
      last = height;
    }
  });
}

/** Accessible, within its screen, and with room for a gloved thumb. @param {Page} page @param {string} where for the message */
export async function assertLooks(page, where) {
  await atEnd(page);
  await assertAccessible(page, where);
  await assertFits(page, where);
  await assertRoomy(page, where);
}

/**
 * Runs axe-core (WCAG 2.2 A and AA, and its best practices) in both themes.
 * @param {Page} page
 * @param {string} where for the message
 */
export async function assertAccessible(page, where) {
  for (const colorScheme of /** @type {const} */ (['light', 'dark'])) {
    await page.emulateMedia({ colorScheme });
    await page.evaluate(axe);
    const found = await page.evaluate(async () => {
      const tags = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];
      const { violations } = await /** @type {any} */ (window).axe.run(document, { runOnly: tags });
      return violations.map((/** @type {any} */ v) => `${v.id}: ${v.help}: ${v.nodes[0].html}`);
    });
    assert.deepEqual(found, [], `${where}, ${colorScheme}`);
  }
}

/**
 * Nothing may be wider than a 320 px screen (WCAG 2.2, 1.4.10), nor than the
 * screen in use when text is twice as large (1.4.4).
 * @param {Page} page
 * @param {string} where for the message
 */
export async function assertFits(page, where) {
  const before = /** @type {{width: number, height: number}} */ (page.viewportSize());
  await page.setViewportSize({ width: 320, height: 640 });
  assert.deepEqual(await tooWide(page), [], `${where}, 320 px wide`);
  await page.setViewportSize(before);
  await page.evaluate(() => document.documentElement.style.setProperty('font-size', '200%'));
  assert.deepEqual(await tooWide(page), [], `${where}, text at 200 %`);
  await page.evaluate(() => document.documentElement.style.removeProperty('font-size'));
}

/** @param {Page} page @returns {Promise<string[]>} what sticks out sideways or is cut off */
function tooWide(page) {
  return page.evaluate(() => {
    const root = document.documentElement;
    const found = root.scrollWidth > root.clientWidth ? [`page is ${root.scrollWidth} px wide`] : [];
    for (const element of document.body.querySelectorAll('*')) {
      const box = element.getBoundingClientRect();
      if (box.width <= 1 || box.height <= 1 || element.closest('svg svg, svg *')) continue;
      const style = getComputedStyle(element);
      const name = `${element.tagName.toLowerCase()}.${element.getAttribute('class') ?? ''}`;
      const scrolled = element.parentElement?.closest('[data-scrolls]');
      if (!scrolled && style.visibility === 'visible' && (box.right > root.clientWidth + 1 || box.left < -1)) {
        found.push(`${name} reaches from ${Math.round(box.left)} to ${Math.round(box.right)}`);
      }
      const cut = ['hidden', 'clip'].includes(style.overflowX) && element.scrollWidth > element.clientWidth + 1;
      if (cut && element.textContent?.trim()) found.push(`${name} cuts its text off`);
    }
    return found;
  });
}

/**
 * Targets for a gloved thumb: at least 48 px each way and 8 px apart.
 * @param {Page} page
 * @param {string} where for the message
 */
export async function assertRoomy(page, where) {
  const cramped = await page.evaluate(() => {
    const targets = [...document.querySelectorAll('#app :is(button, a, input, summary)')]
      .filter((element) => !element.matches('.skip') && element.checkVisibility())
      .map((element) => ({
        element,
        name: element.textContent?.trim() || element.id,
        box: element.getBoundingClientRect(),
      }))
      .filter(({ box }) => box.width > 0);
    const floating = (/** @type {Element} */ element) => element.closest('.dock') !== null;
    const found = targets
      .filter(({ box }) => box.width < 47.5 || box.height < 47.5)
      .map(({ name, box }) => `${name} is ${box.width} by ${box.height} px`);
    for (const [i, a] of targets.entries()) {
      for (const b of targets.slice(i + 1)) {
        if (floating(a.element) !== floating(b.element)) continue;
        const dx = Math.max(a.box.left, b.box.left) - Math.min(a.box.right, b.box.right);
        const dy = Math.max(a.box.top, b.box.top) - Math.min(a.box.bottom, b.box.bottom);
        if (Math.max(dx, dy) < 7.5) found.push(`${a.name} and ${b.name} are ${Math.max(dx, dy)} px apart`);
      }
    }
    return found;
  });
  assert.deepEqual(cramped, [], where);
}
