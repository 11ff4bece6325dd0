/**
 * The frame to print, in true millimetres: two rows of checks, the window
 * between them and the check line. It stands upright, since paper does. The
 * photo engine knows it by these measures (internal/photo/frame.go).
 */
import { html, svg } from 'lit';

const CHECK = 5;
const ROW = 9.6; // from the middle to where the checks of a row meet
const HALF_WINDOW = 3.5;
const HALF_CHECKS = 130;
const HALF_LONG = 134;
const HALF_WIDE = 18;
const HALF_LINE = 120;

/** @returns {string} the black checks, the frame's length along y */
export function checks() {
  let path = '';
  for (const side of [-1, 1]) {
    for (const row of [0, 1]) {
      for (let i = -HALF_CHECKS / CHECK; i < HALF_CHECKS / CHECK; i++) {
        if ((i + row) % 2) continue;
        const from = side > 0 ? ROW + (row - 1) * CHECK : -ROW - row * CHECK;
        path += `M${from} ${i * CHECK}h${CHECK}v${CHECK}h-${CHECK}z`;
      }
    }
  }
  return path;
}

/** @param {string} text what it is */
export function photoFrame(text) {
  const line = 16.2;
  return html`<svg class="photo-frame" width="${2 * HALF_WIDE}mm" height="${2 * HALF_LONG}mm" role="img" aria-label=${text}
    viewBox="${-HALF_WIDE} ${-HALF_LONG} ${2 * HALF_WIDE} ${2 * HALF_LONG}">${svg`
    <rect class="photo-frame-paper" x=${-HALF_WIDE} y=${-HALF_LONG} width=${2 * HALF_WIDE} height=${2 * HALF_LONG} />
    <path class="photo-frame-black" d=${checks()} />
    <rect class="photo-frame-cut" x=${-HALF_WINDOW} y=${-HALF_CHECKS} width=${2 * HALF_WINDOW} height=${2 * HALF_CHECKS} />
    <path class="photo-frame-line" d="M${line - 0.8} ${-HALF_LINE}h1.6M${line - 0.8} ${HALF_LINE}h1.6M${line} ${-HALF_LINE}v${2 * HALF_LINE}" />`}</svg>`;
}
