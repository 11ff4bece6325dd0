/** Leaving a form so that the way back does not lead into it again. */

/** The address the rider came from, without the page. */
let before = '';

addEventListener('hashchange', ({ oldURL }) => (before = new URL(oldURL).hash));

/** @param {string} address as in #/bikes */
export function leave(address) {
  if (before === address) history.back();
  else location.replace(address);
}
