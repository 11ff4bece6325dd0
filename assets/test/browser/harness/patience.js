/** Waiting for the very thing: no test may depend on how fast the machine is. */
import assert from 'node:assert/strict';
import { isDeepStrictEqual } from 'node:util';

/** After this long something will not come any more, ms; a machine may be busy. */
export const PATIENCE_MS = 120_000;

/** @type {number} ms between two looks */
const PAUSE_MS = 30;

/**
 * Looks again and again until it is so.
 * @template T
 * @param {() => T|Promise<T>} read
 * @param {(seen: T) => unknown} test
 * @param {string} [what] for the message
 * @returns {Promise<T>} what was seen then
 */
export async function until(read, test, what = String(test)) {
  const end = Date.now() + PATIENCE_MS;
  for (;;) {
    const seen = await read();
    if (test(seen)) return seen;
    if (Date.now() > end) assert.fail(`not so in time: ${what}; seen last: ${JSON.stringify(seen)}`);
    await new Promise((again) => setTimeout(again, PAUSE_MS));
  }
}

/**
 * Waits until what is read is as wanted; what differs at the end fails the test.
 * @template T
 * @param {() => T|Promise<T>} read
 * @param {T} wanted
 * @param {string} [what] for the message
 */
export async function becomes(read, wanted, what) {
  const same = (/** @type {T} */ seen) => isDeepStrictEqual(seen, wanted);
  assert.deepEqual(await until(read, same).catch(read), wanted, what);
}
