/**
 * A list too long to draw as a whole: cut into pieces, of which only those near
 * the window hold their lines; the others are gaps of about the same height.
 */
import { html } from 'lit';
import { ref } from 'lit/directives/ref.js';
import { repeat } from 'lit/directives/repeat.js';

/** Lines in a piece. */
const PIECE = 10;

/** How far beyond the window pieces are drawn, in px. */
const AHEAD = 600;

/** Until a piece was drawn once, a line is taken to be so high, in px. */
const LINE = 132;

/** @type {Map<number, number>} heights of pieces as they were when last drawn, px */
const heights = new Map();

/** @type {(live: number[]) => void} */
let tell = () => {};

/** @type {Set<number>} pieces near the window */
let near = new Set([0, 1]);

const watcher = new IntersectionObserver(
  (seen) => {
    const before = near;
    near = new Set(before);
    for (const { target, isIntersecting, boundingClientRect } of seen) {
      const piece = Number(/** @type {HTMLElement} */ (target).dataset.piece);
      if (!target.isConnected) continue;
      if (before.has(piece)) heights.set(piece, boundingClientRect.height);
      if (isIntersecting) near.add(piece);
      else near.delete(piece);
    }
    if (near.size !== before.size || [...near].some((piece) => !before.has(piece))) tell([...near]);
  },
  { rootMargin: `${AHEAD}px 0px` },
);

/** @param {Element|undefined} piece */
function watch(piece) {
  if (piece) watcher.observe(piece);
}

/**
 * @template T
 * @param {{items: T[], key: (item: T) => string, line: (item: T) => unknown, live: number[],
 *   show: (live: number[]) => void}} model `live`: the pieces that hold their lines; `show` is told which are to
 */
export function longList({ items, key, line, live, show }) {
  tell = show;
  const pieces = Array.from({ length: Math.ceil(items.length / PIECE) }, (_, i) => i);
  return pieces.map((i) => {
    const some = items.slice(i * PIECE, (i + 1) * PIECE);
    return html`<div data-piece=${i} ${ref(watch)}>${
      live.includes(i)
        ? html`<ul class="bike-list">${repeat(some, key, (item) => html`<li>${line(item)}</li>`)}</ul>`
        : html`<svg width="1" height=${heights.get(i) ?? some.length * LINE} aria-hidden="true"></svg>`
    }</div>`;
  });
}
