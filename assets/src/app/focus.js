/** Focus for the keyboard and the screen reader when what had it goes away. */

/** @param {string} id of an element that the next drawing brings */
export function focusNext(id) {
  // Drawing was asked for already and happens in the same frame, before this.
  requestAnimationFrame(() => document.getElementById(id)?.focus({ preventScroll: true }));
}
