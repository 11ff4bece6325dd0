/** The stock chain as a counted row of link pairs, and where it is cut. */
import { html, svg } from 'lit';

/** Link pairs to a row, the size of one in the drawing, and the room at the sides. */
const PER_ROW = 10;
const PAIR = 28;
const ROW = 24;
const LEFT = 4;
const RIGHT = 40;

/**
 * @typedef {{keep_pairs: number, half_links: number, remove_pairs: number, remove_half_links: number}} Cut
 * @typedef {{kind: 'pair'|'half', kept: boolean, row: number, column: number}} Piece
 */

/**
 * @param {Cut} cut
 * @returns {Piece[]} in order: what stays, then what comes off
 */
export function pieces({ keep_pairs, half_links, remove_pairs, remove_half_links }) {
  const kinds = [
    ...Array(keep_pairs).fill(['pair', true]),
    ...Array(half_links).fill(['half', true]),
    ...Array(remove_pairs).fill(['pair', false]),
    ...Array(remove_half_links).fill(['half', false]),
  ];
  return kinds.map(([kind, kept], i) => ({ kind, kept, row: Math.floor(i / PER_ROW), column: i % PER_ROW }));
}

/**
 * @param {Cut} cut
 * @param {string} label
 */
export function cutRow(cut, label) {
  const all = pieces(cut);
  const rows = all.length ? all[all.length - 1].row + 1 : 0;
  return html`<svg class="cut" viewBox="0 0 ${LEFT + PER_ROW * PAIR + RIGHT} ${rows * ROW + 4}" role="img" aria-label=${label}>
    ${Array.from({ length: rows }, (_, row) => sum(all, row))}
    ${all.map(piece)} ${knife(cut)}
  </svg>`;
}

/** The pitches counted at the end of a row. @param {Piece[]} all @param {number} row */
function sum(all, row) {
  const here = all.filter((one) => one.row <= row);
  const x = LEFT + (here[here.length - 1].column + 1) * PAIR + 8;
  return svg`<text class="cut-text" x=${x} y=${row * ROW + 16}>${pitches(here)}</text>`;
}

/** @param {Piece[]} list @returns {number} */
export function pitches(list) {
  return list.reduce((count, { kind }) => count + (kind === 'pair' ? 2 : 1), 0);
}

/** @param {Piece} piece one outer and one inner link, or a half link */
function piece({ kind, kept, row, column }) {
  const [x, y] = [LEFT + column * PAIR, row * ROW + 2];
  const look = kept ? 'cut-link' : 'cut-link off';
  if (kind === 'half') return svg`<path class=${look} d="M${x + 1} ${y + 6}h8l6 3h8v6h-8l-6 3h-8z"/>`;
  return svg`<rect class=${look} x=${x + 1} y=${y + 3} width="17" height="14" rx="7"/>
    <rect class=${look} x=${x + 13} y=${y + 6} width="14" height="8" rx="4"/>`;
}

/** The mark between what stays and what comes off. @param {Cut} cut */
function knife({ keep_pairs, half_links, remove_pairs, remove_half_links }) {
  if (remove_pairs + remove_half_links === 0) return '';
  const last = keep_pairs + half_links;
  const x = LEFT + (last % PER_ROW) * PAIR;
  const y = Math.floor(last / PER_ROW) * ROW;
  return svg`<path class="cut-knife" d="M${x - 0.5} ${y}v24M${x - 4} ${y}h7M${x - 4} ${y + 24}h7"/>`;
}
