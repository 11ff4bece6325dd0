/** Focus for the keyboard and the screen reader when what had it goes away. */

/** @param {string} id of an element that the next drawing brings */
export function focusNext(id) {
  // Drawing was asked for already and happens in the same frame, before this.
  requestAnimationFrame(() => document.getElementById(id)?.focus({ preventScroll: true }));
}

/**
 * Focus to the line that tells of what was done, not to the button in it: one
 * Enter too many must not take it back. The button is one Tab away.
 * @param {string} id of a button that the next drawing brings
 */
export function focusLine(id) {
  requestAnimationFrame(() => {
    const line = document.getElementById(id)?.closest('.flash, li');
    if (!(line instanceof HTMLElement)) return;
    line.tabIndex = -1;
    line.focus({ preventScroll: true });
  });
}

/** Goes to another place, whose `focusLine` this is. @param {string} hash @param {string} id */
export function goToLine(hash, id) {
  // Heard after the router, which gives the focus to the place.
  addEventListener('hashchange', () => focusLine(id), { once: true });
  location.hash = hash;
}
