/**
 * A phone in the hand: real Chromium with a small touch screen. Whatever must
 * never happen on any page (an error in the console, an uncaught exception, a
 * request to another origin) is collected and fails the test at its end.
 */
import assert from 'node:assert/strict';
import { accessSync, constants } from 'node:fs';
import { delimiter, join } from 'node:path';
import { chromium } from 'playwright-core';
import { closeFirst } from './ending.js';
import { PATIENCE_MS, becomes } from './patience.js';

/**
 * @typedef {import('playwright-core').Page} Page
 * @typedef {{page: Page, context: import('playwright-core').BrowserContext, problems: string[],
 *   touches: () => number, tap: (name: string, role?: Role) => Promise<void>, offline: (on: boolean) => Promise<void>}} Phone
 * @typedef {'button'|'link'|'radio'|'tab'|'checkbox'} Role
 * @typedef {{width?: number, height?: number, theme?: 'light'|'dark', mouse?: boolean, locale?: string,
 *   ratio?: number, alone?: boolean}} Options `alone`: that the server is away, or refuses, is no problem
 */

/** @returns {string} path of the browser */
export function findChromium() {
  const names = ['chromium', 'chromium-browser'];
  const paths = String(process.env.PATH)
    .split(delimiter)
    .flatMap((folder) => names.map((name) => join(folder, name)));
  for (const path of [process.env.CHROMIUM, ...paths]) {
    try {
      accessSync(String(path), constants.X_OK);
      return String(path);
    } catch {
      // not this one
    }
  }
  throw new Error('no Chromium on the PATH; `make chromium` installs it, or set CHROMIUM to its path');
}

/** @type {Promise<import('playwright-core').Browser>|undefined} one for all tests of a file */
let browser;
let phones = 0;

/** Ends the browser soon after its last phone, unless the next test wants it. */
async function stopBrowser() {
  phones--;
  await new Promise((soon) => setTimeout(soon, 500));
  if (phones > 0 || !browser) return;
  const idle = browser;
  browser = undefined;
  await (await idle).close();
}

/** @returns {Promise<import('playwright-core').Browser>} */
function startBrowser() {
  phones++;
  browser ??= chromium.launch({
    executablePath: findChromium(),
    timeout: PATIENCE_MS,
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
    ],
  });
  return browser;
}

/**
 * @param {{after: (done: () => Promise<void>) => void}} t
 * @param {string} origin
 * @param {Options} [options]
 * @returns {Promise<Phone>} with an empty page; closed, and its problems judged, at the end of the test
 */
export async function newPhone(t, origin, options = {}) {
  const {
    width = 360,
    height = 740,
    theme = 'light',
    mouse = false,
    locale = 'en-GB',
    ratio = 1,
    alone = false,
  } = options;
  const context = await (
    await startBrowser()
  ).newContext({
    baseURL: origin,
    viewport: { width, height },
    deviceScaleFactor: ratio,
    hasTouch: !mouse,
    isMobile: !mouse,
    colorScheme: theme,
    locale,
  });
  let touches = 0;
  // Counted where it bubbles to: a tap that is aimed anew because the page moved never reaches the page.
  await context.exposeBinding('touched', () => void touches++);
  await context.addInitScript("addEventListener('pointerdown', (e) => e.isTrusted && window.touched())");
  /** @type {string[]} */
  const problems = [];
  watch(context, origin, problems, alone);
  context.setDefaultTimeout(PATIENCE_MS);
  const page = await context.newPage();
  closeFirst(t, () => context.close());
  t.after(async () => {
    await context.close();
    stopBrowser();
    assert.deepEqual(problems, [], 'nothing went wrong behind the page');
  });
  return {
    page,
    context,
    problems,
    touches: () => touches,
    tap: (name, role = 'button') => page.getByRole(role, { name }).first().tap(),
    offline: (on) => context.setOffline(on),
  };
}

/**
 * @param {import('playwright-core').BrowserContext} context
 * @param {string} origin
 * @param {string[]} problems
 * @param {boolean} alone
 */
function watch(context, origin, problems, alone) {
  context.on('request', (request) => {
    if (new URL(request.url()).origin !== origin) problems.push(`request to ${request.url()}`);
  });
  context.on('console', (message) => {
    if (alone && message.text().startsWith('Failed to load resource')) return;
    if (message.type() === 'error') problems.push(`console: ${message.text()} ${message.location().url}`);
  });
  context.on('weberror', (error) => problems.push(`uncaught: ${error.error().stack}`));
}

/**
 * Goes to a place of the app and waits until it is drawn. The address changes
 * at once and the page with one of the next frames: whoever reads it in between
 * reads the place before.
 * @param {Page} page
 * @param {string} address as in / or /#/bikes, or a whole link
 */
export async function goTo(page, address) {
  await page.goto(address);
  await arrived(page, new URL(address, 'http://any').hash);
}

/**
 * Waits until a place is drawn that something on the page leads to.
 * @param {Page} page
 * @param {string} hash as in #/bikes
 */
export async function arrived(page, hash) {
  const place = decodeURIComponent(hash.replace(/^#\/|\/$/g, '')) || 'check';
  await page.waitForFunction((wanted) => document.getElementById('place')?.dataset.place === wanted, place);
}

/**
 * Opens the app and waits until it would open with no network.
 * @param {Page} page
 * @param {string} [address]
 */
export async function openAndKeep(page, address = '/') {
  await goTo(page, address);
  await kept(page);
}

/** @param {Page} page waits until everything of this version is on the phone */
export async function kept(page) {
  await page.evaluate(async () => {
    const { active } = await navigator.serviceWorker.ready;
    while (active?.state !== 'activated') await new Promise((again) => setTimeout(again, 20));
  });
}

/** Two taps closer in time and place are a double tap, which leaves no caret in an empty field. */
const DOUBLE_TAP_MS = 600;

/**
 * Taps a field and types into it, as one thumb does it: never two taps so close
 * that Chromium takes them for one double tap.
 * @param {Page} page
 * @param {RegExp|string} label
 * @param {string} text
 */
export async function type(page, label, text) {
  await page.waitForTimeout(DOUBLE_TAP_MS);
  const field = page.getByRole('textbox', { name: label });
  await field.tap();
  await becomes(() => field.evaluate((one) => one === document.activeElement), true);
  await page.keyboard.type(text);
}

/**
 * Asks the engine in the page's worker, past the screens.
 * @param {Page} page
 * @param {string} name
 * @param {object} request
 * @returns {Promise<any>}
 */
export async function askEngine(page, name, request) {
  const worker = page.workers()[0] ?? (await page.waitForEvent('worker'));
  await worker.evaluate(async () => {
    while (typeof tautspanCall !== 'function') await new Promise((again) => setTimeout(again, 10));
  });
  const [json] = await worker.evaluate(([n, r]) => [tautspanCall(n, r)], [name, JSON.stringify(request)]);
  return JSON.parse(json);
}

/** A derailleur chain read as 12 1/16 in over 24 pitches: 0.5208 % (common practice, no source). */
export const READING = {
  drive: 'derailleur',
  rear_sprockets: 11,
  reading: { kind: 'rule', pitches: 24, span_in: '12 1/16', resolution_in: '1/16' },
};
