/** How long, without a derailleur: the counts, the drawing, wear reserve, pairs, steps. */
import { html, nothing } from 'lit';
import { fitShape } from '../parts/fit-shape.js';
import { length } from '../parts/fit-numbers.js';
import { said } from '../words/engine.js';
import { fixed } from '../words/numbers.js';
import { named, t } from '../words/t.js';
import { put } from './fit-actions.js';
import { drawn } from './fit-drawing.js';
import { cell, sentences } from './fit-parts.js';
import { steps } from './fit-steps.js';
import { shift } from './fit-tag.js';

/** @typedef {import('../app/store.js').State} State */

/** @param {State} state @param {any} answer */
export function centreAnswer(state, answer) {
  const { options, pitches, pairs } = answer;
  const wanted = state.fit.centre.pitches ?? pitches;
  const one =
    options.find((/** @type {any} */ each) => each.pitches === wanted) ??
    options.find((/** @type {any} */ each) => each.pitches === pitches) ??
    options[0];
  return html`
    ${sentences('long.warnings', said(answer, 'warnings'), true)}
    <div class="sheet"><h2>${t('centre.options')}</h2>
      <p class="number">${t('centre.exact', { n: fixed(answer.exact_pitches, 2) })}</p>
      ${counts(options, one, state.settings.units)}
      ${pitches === null ? nothing : html`<p class="number">${t('centre.reserve.text', { percent: fixed(answer.wear_reserve_percent, 2) })}</p>`}</div>
    ${sentences('cautions.title', said(answer, 'cautions'))}
    ${one ? html`<div class="sheet"><h2>${t('long.picture')}</h2>${picture(state, one)}</div>` : nothing}
    ${pairs ? closing(pairs, state.settings.units) : nothing}
    ${pitches === null ? nothing : steps(state, 'fixed', pitches, pitches % 2 === 1)}`;
}

/** @param {any[]} options @param {any} one the one drawn @param {State['settings']['units']} units */
function counts(options, one, units) {
  return html`<ul class="counts">${options.map(
    (option) => html`<li>
    <button class="cell ${option.state}" type="button" aria-pressed=${option === one ? 'true' : 'false'}
      @click=${() => put('centre', { pitches: option.pitches })}>
      ${fitShape(option.state)}
      <span><strong class="number">${option.half_link ? t('centre.half', { n: option.pitches }) : t('fit.tag.pitches', { n: option.pitches })}</strong>
        <span class="number small">${named('centre.state', option.state)}: ${shift(option.axle_shift_mm, units)},
          ${t('fit.tag.play', { length: length(option.play_mm_at_wanted, units) })}</span></span>
    </button></li>`,
  )}</ul>`;
}

/** @param {State} state @param {any} one */
function picture({ fit, settings }, { pitches, drawing, play_mm_at_wanted }) {
  const play = t('long.picture.play', { length: length(play_mm_at_wanted, settings.units) });
  return html`<p class="number">${t('fit.tag.pitches', { n: pitches })}</p>${drawn({
    drawing,
    ring: Number(fit.centre.chainring),
    sprocket: Number(fit.centre.sprocket),
    hang: play,
    caption: t('long.picture.fixed'),
    units: settings.units,
  })}`;
}

/** @param {any[]} pairs @param {State['settings']['units']} units */
function closing(pairs, units) {
  return html`<div class="sheet"><h2>${t('centre.pairs')}</h2>${
    pairs.length === 0
      ? html`<p>${t('centre.pairs.none')}</p>`
      : html`<div class="wide"><table>
    <thead><tr><th scope="col">${t('centre.pair')}</th><th scope="col" class="number">${t('centre.ratio')}</th>
      <th scope="col" class="number">${t('centre.count')}</th><th scope="col" class="number">${t('centre.play')}</th>
      <th scope="col" class="number">${t('centre.fits')}</th></tr></thead>
    <tbody>${pairs.map(
      (
        pair,
      ) => html`<tr><th scope="row" class="number">${t('gears.pair', { ring: pair.ring, sprocket: pair.sprocket })}</th>
      ${cell(t('centre.ratio'), fixed(pair.ratio, 2))} ${cell(t('centre.count'), pair.pitches)}
      ${cell(t('centre.play'), length(pair.play_mm, units))}
      ${cell(t('centre.fits'), t(pair.fits ? 'centre.fits.yes' : 'centre.fits.no'))}</tr>`,
    )}</tbody>
  </table></div>`
  }</div>`;
}
