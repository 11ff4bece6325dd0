/** A QR code as a drawing, black on white in every theme, since cameras expect that. */
import { html } from 'lit';
import { QUIET, qrPath } from './geometry.js';

/**
 * @param {string} text what a camera reads
 * @param {string} title what it is for, to be read out
 */
export function qrCode(text, title) {
  const { modules, path } = qrPath(text);
  const side = modules + 2 * QUIET;
  return html`<svg class="qr" viewBox="${-QUIET} ${-QUIET} ${side} ${side}" role="img" aria-label=${title}>
    <rect class="qr-paper" x=${-QUIET} y=${-QUIET} width=${side} height=${side} />
    <path class="qr-ink" shape-rendering="crispEdges" d=${path} />
  </svg>`;
}
