/** How long, with a derailleur: warnings, cut list, drawing, grid, methods, steps. */
import { html, nothing } from 'lit';
import { combinationGrid } from '../parts/combination-grid/combination-grid.js';
import { cutRow } from '../parts/drive-drawing/cut-row.js';
import { length } from '../parts/fit-numbers.js';
import { said } from '../words/engine.js';
import { fixed } from '../words/numbers.js';
import { named, t } from '../words/t.js';
import { put } from './fit-actions.js';
import { drawn } from './fit-drawing.js';
import { sentences } from './fit-parts.js';
import { steps } from './fit-steps.js';

/** @param {import('../app/store.js').State} state @param {any} answer */
export function lengthAnswer(state, answer) {
  const { combinations } = answer;
  const [ring, sprocket] = state.fit.length.pair ?? [];
  const one =
    combinations.find((/** @type {any} */ each) => each.ring === ring && each.sprocket === sprocket) ??
    largest(combinations);
  return html`
    ${sentences('long.warnings', said(answer, 'warnings'), true)}
    ${answer.cut ? cut(answer, state.fit.length.stock_pitches) : nothing}
    ${sentences('cautions.title', said(answer, 'cautions'))}
    <div class="sheet"><h2>${t('long.picture')}</h2>${picture(state, one)}</div>
    <div class="sheet"><h2>${t('long.grid')}</h2>
      <p class="number">${capacity(answer)}</p>
      ${answer.judged_pitches === answer.pitches ? nothing : html`<p class="number big">${t('long.judged', { n: answer.judged_pitches })}</p>`}
      ${combinationGrid(combinations, one, (pair) => put('length', { pair }))}</div>
    ${methods(answer)}
    ${steps(state, 'derailleur', answer.pitches, answer.half_link)}`;
}

/** @param {any[]} combinations */
function largest(combinations) {
  return combinations.reduce((best, one) => (one.exact_pitches > best.exact_pitches ? one : best));
}

/** @param {import('../app/store.js').State} state @param {any} one */
function picture({ settings }, { ring, sprocket, spare_pitches, drawing }) {
  const spare = t(spare_pitches < 0 ? 'long.picture.short' : 'long.picture.spare', {
    n: fixed(Math.abs(spare_pitches), 1),
  });
  return html`<p class="number">${t('long.picture.pair', { ring, sprocket })}</p>
    ${drawn({ drawing, ring, sprocket, hang: spare, caption: t('long.picture.caption'), units: settings.units })}`;
}

/** @param {any} answer */
function capacity({ capacity_needed_teeth: n, capacity_ok }) {
  if (capacity_ok === null) return t('long.capacity', { n });
  return t(capacity_ok ? 'long.capacity.yes' : 'long.capacity.no', { n });
}

/** @param {any} answer @param {string} stock */
function cut({ cut: list, remove_pitches: remove }, stock) {
  const keep = pairs(list.keep_pairs, list.half_links);
  const off = pairs(list.remove_pairs, list.remove_half_links);
  if (remove < 0)
    return html`<div class="sheet"><h2>${t('long.cut')}</h2><p class="fault">${t('long.cut.missing', { n: -remove })}</p></div>`;
  return html`<div class="sheet"><h2>${t('long.cut')}</h2>
    <p class="number big">${remove === 0 ? t('long.cut.nothing', { keep }) : t('long.cut.remove', { keep, off })}</p>
    ${cutRow(list, t('long.cut.label', { stock, keep, off }))}
    <p class="soft small">${t('long.cut.count')}</p></div>`;
}

/** @param {number} n link pairs @param {number} half half links */
function pairs(n, half) {
  return t(half ? 'long.cut.pairs.half' : 'long.cut.pairs', { n, pitches: 2 * n + half });
}

/** @param {any} answer */
function methods({ methods: all, pitches, length_mm }) {
  return html`<details class="fold"><summary>${t('long.methods')}</summary><table>
    <thead><tr><th scope="col">${t('long.method')}</th><th scope="col" class="number">${t('long.method.exact')}</th>
      <th scope="col" class="number">${t('long.method.count')}</th></tr></thead>
    <tbody>${all.map(
      (/** @type {any} */ one) => html`<tr><th scope="row">${named('long.method', one.name)}</th>
      <td class="number">${fixed(one.exact_pitches, 2)}</td><td class="number">${one.pitches}</td></tr>`,
    )}</tbody>
    <tfoot><tr><th scope="row">${t('fit.tag')}</th><td class="number">${length(length_mm, 'metric')}</td><td class="number">${pitches}</td></tr></tfoot>
  </table></details>`;
}
