/**
 * The combination grid: every chainring with every sprocket, each cell its
 * spare pitches, its state by shape and how much of the cage it uses. It is a
 * table; pressing a cell draws that pair.
 */
import { html, nothing, svg } from 'lit';
import { fixed } from '../../words/numbers.js';
import { named, t } from '../../words/t.js';
import { fitShape } from '../fit-shape.js';

/**
 * @typedef {{ring: number, sprocket: number, spare_pitches: number, state: 'ok'|'slack'|'tight', cage_percent: number|null}} Combination
 */

/**
 * @param {Combination[]} combinations
 * @param {Combination} drawn
 * @param {(pair: [number, number]) => void} choose
 */
export function combinationGrid(combinations, drawn, choose) {
  const rings = distinct(combinations.map(({ ring }) => ring)).sort((a, b) => b - a);
  const sprockets = distinct(combinations.map(({ sprocket }) => sprocket)).sort((a, b) => a - b);
  return html`<table class="grid">
    <caption class="soft small">${t('grid.caption')}</caption>
    <thead><tr><th scope="col">${t('grid.corner')}</th>${rings.map((ring) => html`<th scope="col">${ring}</th>`)}</tr></thead>
    <tbody>${sprockets.map(
      (sprocket) => html`<tr><th scope="row">${sprocket}</th>
      ${rings.map((ring) => {
        const one = combinations.find((each) => each.ring === ring && each.sprocket === sprocket);
        return html`<td>${one ? cell(one, one === drawn, choose) : nothing}</td>`;
      })}</tr>`,
    )}</tbody>
  </table>`;
}

/** @param {number[]} list */
function distinct(list) {
  return [...new Set(list)];
}

/**
 * @param {Combination} one
 * @param {boolean} chosen
 * @param {(pair: [number, number]) => void} choose
 */
function cell(one, chosen, choose) {
  const spare = fixed(one.spare_pitches, 1);
  const label = t(one.cage_percent === null ? 'grid.cell' : 'grid.cell.cage', {
    ring: one.ring,
    sprocket: one.sprocket,
    spare,
    state: named('grid', one.state),
    percent: Math.round(one.cage_percent ?? 0),
  });
  return html`<button class="cell ${one.state}" type="button" aria-pressed=${chosen ? 'true' : 'false'} aria-label=${label}
    @click=${() => choose([one.ring, one.sprocket])}>${fitShape(one.state)}<span class="number">${spare}</span>
    ${one.cage_percent === null ? nothing : cage(one.cage_percent)}</button>`;
}

/** How much of the cage is in use. @param {number} percent */
function cage(percent) {
  return html`<svg class="cage" viewBox="0 0 100 4" preserveAspectRatio="none" aria-hidden="true">
    ${svg`<rect class="cage-room" width="100" height="4"/><rect class="cage-used" width=${Math.min(Math.max(percent, 0), 100)} height="4"/>`}</svg>`;
}
