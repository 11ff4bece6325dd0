/** Leaving a form so that the way back does not lead into it again. */

/** The address the rider came from, without the page. */
let before = '';

addEventListener('hashchange', ({ oldURL }) => (before = new URL(oldURL).hash));

/** @returns {string} the address the rider came from, as in #/bikes; empty at first */
export function cameFrom() {
  return before;
}

/** @param {string} address as in #/bikes */
export function leave(address) {
  if (before === address) history.back();
  else location.replace(address);
}
