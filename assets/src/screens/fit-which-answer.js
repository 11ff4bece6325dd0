/** Which chain: the comb, the candidates with why, how each is joined, the cautions. */
import { html, nothing } from 'lit';
import { fitShape } from '../parts/fit-shape.js';
import { widthComb } from '../parts/width-comb/width-comb.js';
import { share } from '../parts/fit-numbers.js';
import { familyName, said } from '../words/engine.js';
import { fixed } from '../words/numbers.js';
import { named, t } from '../words/t.js';
import { sentences } from './fit-parts.js';
import { fits } from './fit-tag.js';

/**
 * @typedef {{class: string, name: string, probability: number, inner_width_mm: number|null,
 *   outer_width_mm: [number, number]|null, fits_this_bike: boolean|null}} Candidate
 */

/** @param {import('../app/store.js').State} _ @param {any} answer */
export function whichAnswer(_, answer) {
  const { candidates, none_fit, nearest, comb } = answer;
  return html`
    <div class="sheet"><h2>${t('which.picture')}</h2>${widthComb(comb)}</div>
    <div class="sheet"><h2>${t(none_fit ? 'which.nearest' : 'which.candidates')}</h2>
      <ul class="kept-list">${(none_fit ? [nearest] : candidates).map((/** @type {Candidate} */ one) => candidate(one, none_fit))}</ul></div>
    ${sentences('next.title', said(answer, 'next_steps'))}
    ${sentences('cautions.title', said(answer, 'cautions'))}
    <details class="fold"><summary>${t('which.table')}</summary>${table(comb)}</details>`;
}

/** @param {Candidate} one @param {boolean} off */
function candidate(one, off) {
  const { probability, fits_this_bike, outer_width_mm, inner_width_mm } = one;
  const suits = fits(fits_this_bike);
  return html`<li>
    <div class="kept-head">${fitShape(off ? 'no' : suits)}<div>
      <strong>${familyName(one)}</strong>
      <span class="number">${off ? nothing : html`${t('fit.tag.likely', { share: share(probability) })} · `}${named('which.fits', suits)}</span>
    </div></div>
    <ul>${said(one, 'reasons').map((reason) => html`<li>${reason}</li>`)}</ul>
    <p class="number small soft">${t('which.outer')}: ${outer_width_mm ? range(outer_width_mm) : t('which.unknown')} ·
      ${t('which.inner')}: ${inner_width_mm === null ? t('which.unknown') : fixed(inner_width_mm, 2)}</p>
    <details class="fold"><summary>${t('which.close')}</summary><ul>${said(one, 'closure_advice').map((text) => html`<li>${text}</li>`)}</ul></details>
  </li>`;
}

/** @param {[number, number]} mm */
function range([lo, hi]) {
  return t('which.range', { lo: fixed(lo, 2), hi: fixed(hi, 2) });
}

/** @param {import('../parts/width-comb/geometry.js').Comb} comb */
function table({ families }) {
  return html`<table>
    <thead><tr><th scope="col">${t('which.family')}</th><th scope="col" class="number">${t('which.outer')}</th>
      <th scope="col" class="number">${t('which.share')}</th></tr></thead>
    <tbody>${families.map(
      (family) => html`<tr><th scope="row">${familyName(family)}</th>
      <td class="number">${range(family.outer_width_mm)}</td>
      <td class="number">${family.probability ? share(family.probability) : t('gears.none')}</td></tr>`,
    )}</tbody>
  </table>`;
}
