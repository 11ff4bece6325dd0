/** The chain of a picture, large, with every rivet and mark that was found drawn over it. */
import { html } from 'lit';
import { ref } from 'lit/directives/ref.js';
import { HIGH, PIECES, layOut, transform } from './geometry.js';

/** @typedef {import('../../screens/photo-actions.js').Overlay} Overlay */

/** Px of the drawing's width; it is shown as wide as there is room. */
const WIDTH = 1000;

/**
 * @param {ImageBitmap} picture
 * @param {Overlay} overlay with marks
 * @param {string} text what is to be seen
 */
export function photoStrips(picture, overlay, text) {
  return html`<canvas class="photo-strips" width=${WIDTH} height=${Math.round(WIDTH * HIGH * PIECES)} role="img"
    aria-label=${text} ${ref((canvas) => canvas && draw(/** @type {HTMLCanvasElement} */ (canvas), picture, overlay))}></canvas>`;
}

/** @param {HTMLCanvasElement} canvas @param {ImageBitmap} picture @param {Overlay} overlay */
function draw(canvas, picture, overlay) {
  const context = /** @type {CanvasRenderingContext2D} */ (canvas.getContext('2d'));
  const lay = layOut(overlay);
  const high = WIDTH * HIGH;
  for (let piece = 0; piece < PIECES; piece++) {
    context.save();
    context.beginPath();
    context.rect(0, piece * high, WIDTH, high - 8);
    context.clip();
    context.setTransform(...transform(lay, WIDTH, piece));
    context.drawImage(picture, 0, 0, overlay.width, overlay.height);
    mark(context, overlay, lay);
    context.restore();
  }
}

/** @param {CanvasRenderingContext2D} context @param {Overlay} overlay @param {ReturnType<typeof layOut>} lay */
function mark(context, { marks, rivets }, { angle }) {
  const { a, b } = context.getTransform();
  const px = 1 / Math.hypot(a, b); // one px of the drawing, in the picture's
  const crosses = new Path2D();
  for (const { x, y } of marks) {
    crosses.moveTo(x - 7 * px, y);
    crosses.lineTo(x + 7 * px, y);
    crosses.moveTo(x, y - 7 * px);
    crosses.lineTo(x, y + 7 * px);
  }
  twice(context, crosses, px);
  const last = rivets[rivets.length - 1];
  const backwards = last && (last.x - rivets[0].x) * Math.cos(angle) + (last.y - rivets[0].y) * Math.sin(angle) < 0;
  for (const [i, { x, y, radius, clear }] of rivets.entries()) {
    const ring = new Path2D();
    ring.arc(x, y, radius, 0, 2 * Math.PI);
    context.setLineDash(clear ? [] : [12 * px, 10 * px]);
    twice(context, ring, px);
    context.setLineDash([]);
    number(context, backwards ? rivets.length - i : i + 1, { x, y, angle, up: 3.7 * radius, px });
  }
}

/** A light line inside a dark one shows on any picture. @param {CanvasRenderingContext2D} context @param {Path2D} path @param {number} px */
function twice(context, path, px) {
  for (const [color, width] of /** @type {const} */ ([
    ['#000', 9],
    ['#ffd76a', 4],
  ])) {
    context.strokeStyle = color;
    context.lineWidth = width * px;
    context.stroke(path);
  }
}

/**
 * Upright over the rivet, so that the rivet itself stays in sight.
 * @param {CanvasRenderingContext2D} context
 * @param {number} n
 * @param {{x: number, y: number, angle: number, up: number, px: number}} where
 */
function number(context, n, { x, y, angle, up, px }) {
  const text = String(n);
  context.save();
  context.translate(x, y);
  context.rotate(angle);
  context.translate(0, -up);
  context.font = `700 ${38 * px}px system-ui, sans-serif`;
  context.textAlign = 'center';
  context.textBaseline = 'middle';
  context.lineWidth = 9 * px;
  context.strokeStyle = '#000';
  context.fillStyle = '#ffd76a';
  context.strokeText(text, 0, 0);
  context.fillText(text, 0, 0);
  context.restore();
}
