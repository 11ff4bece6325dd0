/** What Kit and the demo know right now; part of the store. */

/**
 * @typedef {{demo: {done: number, of: number}|null, demoFailed: boolean}} KitState
 *   `demo`: how far it is made, null when none is being made
 */

/** @type {KitState} */
export const NO_KIT = { demo: null, demoFailed: false };
