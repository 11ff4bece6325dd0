/** The answer in short, within sight while the numbers are being changed. */
import { html, nothing } from 'lit';
import { asked } from '../data/fit-draft.js';
import { engine } from '../engine/engine.js';
import { fitShape } from '../parts/fit-shape.js';
import { length, share } from '../parts/fit-numbers.js';
import { familyName, faultText } from '../words/engine.js';
import { fixed } from '../words/numbers.js';
import { named, t } from '../words/t.js';
import { evaluateFit } from './fit-actions.js';

/**
 * @typedef {import('../app/store.js').State} State
 * @typedef {{shape: import('../parts/fit-shape.js').FitShape, word: string, lines: string[]}} Short
 */

const SHORT = { which, length: long, centre, gears };

/** @param {State} state */
export function fitTag(state) {
  const name = asked(state.fit);
  const result = state.fitResults[name];
  const short =
    result.answer && (result.status === 'ok' || result.status === 'waiting')
      ? SHORT[name](result.answer, state)
      : standing(state);
  return html`<section class="tag slim ${result.answer ? '' : 'none'} ${result.status === 'waiting' ? 'busy' : ''}" aria-label=${t('fit.tag')}>
    ${fitShape(short.shape)}
    <div role="status"><p class="word">${short.word}</p>
      ${short.lines.length ? html`<p class="number small">${short.lines.join('\u00a0· ')}</p>` : nothing}
      ${result.status === 'crash' || state.crashed ? html`<button class="button" type="button" @click=${again}>${t('fit.tag.restart')}</button>` : nothing}
    </div>
  </section>`;
}

function again() {
  engine.start();
  evaluateFit();
}

/** What stands where no answer does. @param {State} state @returns {Short} */
function standing({ fit, fitResults, crashed }) {
  const { status, fault, missing, unreadable } = fitResults[asked(fit)];
  if (crashed || status === 'crash')
    return { shape: 'unknown', word: t('fit.tag.crash'), lines: [t('fit.tag.crash.text')] };
  if (unreadable.length)
    return { shape: 'unknown', word: t('fit.tag.fault'), lines: unreadable.map((field) => named('fit.field', field)) };
  if (fault) return { shape: 'unknown', word: t('fit.tag.fault'), lines: [faultText(fault)] };
  if (missing.length)
    return { shape: 'unknown', word: t('fit.tag.needs'), lines: missing.map((field) => named('fit.field', field)) };
  return { shape: 'unknown', word: t('fit.tag.starting'), lines: [] };
}

/** No name stands as the answer while the engine warns that it is not sure. @param {any} answer @returns {Short} */
function which({ candidates: [first, second], none_fit, nearest, caution_codes }) {
  if (none_fit)
    return { shape: 'no', word: t('fit.tag.none'), lines: [t('fit.tag.nearest', { name: familyName(nearest) })] };
  const likely = t('fit.tag.likely', { share: share(first.probability) });
  if (caution_codes.some((/** @type {{code: string}} */ { code }) => code === 'identify_caution_unsure')) {
    const names = [first, second]
      .filter(Boolean)
      .map((one) => t('fit.tag.or', { name: familyName(one), share: share(one.probability) }));
    return { shape: 'unknown', word: t('fit.tag.unsure'), lines: names };
  }
  return { shape: fits(first.fits_this_bike), word: familyName(first), lines: [likely] };
}

/** @param {boolean|null} suits @returns {'yes'|'no'|'unknown'} */
export function fits(suits) {
  if (suits === null) return 'unknown';
  return suits ? 'yes' : 'no';
}

/** @param {any} answer @param {State} state @returns {Short} */
function long(answer, { fit }) {
  const { pitches, half_link, remove_pitches: remove, combinations, judged_pitches: judged } = answer;
  const count = (/** @type {string} */ kind) =>
    combinations.filter((/** @type {any} */ one) => one.state === kind).length;
  const [tight, slack] = [count('tight'), count('slack')];
  const stock = fit.length.stock_pitches;
  const pairs = t(half_link ? 'fit.tag.pairs.half' : 'fit.tag.pairs', { n: Math.floor(pitches / 2) });
  const cut =
    remove === null
      ? []
      : [
          t(remove > 0 ? 'fit.tag.remove' : remove < 0 ? 'fit.tag.short' : 'fit.tag.keep', {
            n: Math.abs(remove),
            stock,
          }),
        ];
  const bad = [
    ...(tight ? [t('fit.tag.tight', { n: tight })] : []),
    ...(slack ? [t('fit.tag.slack', { n: slack })] : []),
  ];
  // What is wrong with the chain that is on it is not wrong with the count advised.
  const other = judged !== pitches;
  return {
    shape: other ? 'ok' : tight ? 'tight' : slack ? 'slack' : 'ok',
    word: t('fit.tag.pitches', { n: pitches }),
    lines: [pairs, ...cut, ...bad.map((what) => (other ? t('fit.tag.on', { n: judged, what }) : what))],
  };
}

/** @param {any} answer @param {State} state @returns {Short} */
function centre({ pitches, options }, { settings }) {
  const best = options.find((/** @type {any} */ one) => one.pitches === pitches);
  if (!best) return { shape: 'no', word: t('fit.tag.nocount'), lines: [] };
  return {
    shape: 'ok',
    word: t(best.half_link ? 'fit.tag.half' : 'fit.tag.pitches', { n: pitches }),
    lines: [
      shift(best.axle_shift_mm, settings.units),
      t('fit.tag.play', { length: length(best.play_mm_at_wanted, settings.units) }),
    ],
  };
}

/** @param {number} mm @param {State['settings']['units']} units @returns {string} where the axle goes */
export function shift(mm, units) {
  if (Math.abs(mm) < 0.05) return t('fit.tag.shift.none');
  return t(mm > 0 ? 'fit.tag.shift.back' : 'fit.tag.shift.forward', { length: length(Math.abs(mm), units) });
}

/** @param {any} answer @returns {Short} */
function gears({ gears: all, range_percent }) {
  return {
    shape: 'ok',
    word: t('fit.tag.gears', { n: all.length }),
    lines: [t('fit.tag.range', { percent: fixed(range_percent, 0) })],
  };
}
