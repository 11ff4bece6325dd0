/**
 * Pages are closed before their server stops: one that still fetches would
 * otherwise report an error that no rider meets.
 */

/** @type {WeakMap<object, (() => Promise<void>)[]>} */
const closings = new WeakMap();

/** @param {object} t the test @param {() => Promise<void>} close may be called more than once */
export function closeFirst(t, close) {
  closings.set(t, [...(closings.get(t) ?? []), close]);
}

/** @param {object} t */
export async function closePages(t) {
  for (const close of closings.get(t) ?? []) await close();
}
