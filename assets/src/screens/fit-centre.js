/** How long, without a derailleur: axles, teeth, how far the axle can move. */
import { html } from 'lit';
import { t } from '../words/t.js';
import { put } from './fit-actions.js';
import { fold, lengthField, numberField, pitchField, toggle } from './fit-fields.js';

/** Where nudging begins: mm, and teeth. */
const START = { centre: 420, move: 0, ring: 44, sprocket: 16, least: 10, most: 15, ratio: 2.75 };

/** @param {import('../app/store.js').State} state */
export function centreFields(state) {
  const { centre } = state.fit;
  const common = { state, question: /** @type {const} */ ('centre') };
  const move = { ...common, told: ['adjust_mm'], grain: /** @type {const} */ ('frame'), start: START.move };
  const play = { ...common, told: ['slack_mm'], grain: /** @type {const} */ ('frame') };
  return html`
    ${lengthField({ ...common, field: 'centre_mm', hint: t('fit.hint.chainstay_mm'), grain: 'frame', start: START.centre })}
    ${numberField({ ...common, field: 'chainring', start: START.ring })}
    ${numberField({ ...common, field: 'sprocket', start: START.sprocket })}
    <div class="pair">${lengthField({ ...move, field: 'forward_mm' })} ${lengthField({ ...move, field: 'back_mm', hint: t('fit.hint.adjust') })}</div>
    ${toggle({ title: t('fit.half'), hint: t('fit.half.hint'), on: centre.half_link_allowed, choose: (on) => put('centre', { half_link_allowed: on }) })}
    ${fold(
      t('fit.more.play'),
      html`
      ${numberField({ ...common, field: 'elongation_percent', hint: t('fit.hint.elongation_percent'), start: 0, pace: 0.05, decimals: 2 })}
      <div class="pair">${lengthField({ ...play, field: 'slack_lo_mm', start: START.least })}
        ${lengthField({ ...play, field: 'slack_hi_mm', hint: t('fit.hint.slack'), start: START.most })}</div>
      ${pitchField(state, 'centre')}`,
    )}
    ${fold(t('fit.more.search'), search(common))}`;
}

/** @param {{state: import('../app/store.js').State, question: 'centre'}} common */
function search(common) {
  const rings = { ...common, told: ['search.chainrings', 'search'], start: START.ring };
  const sprockets = { ...common, told: ['search.sprockets'], start: START.sprocket };
  const ratio = { ...common, told: ['search.ratio'], start: START.ratio, pace: 0.05, decimals: 2 };
  return html`<p class="soft small">${t('fit.hint.search')}</p>
    <div class="pair">${numberField({ ...rings, field: 'chainrings_lo' })} ${numberField({ ...rings, field: 'chainrings_hi' })}</div>
    <div class="pair">${numberField({ ...sprockets, field: 'sprockets_lo' })} ${numberField({ ...sprockets, field: 'sprockets_hi' })}</div>
    <div class="pair">${numberField({ ...ratio, field: 'ratio_lo' })} ${numberField({ ...ratio, field: 'ratio_hi' })}</div>`;
}
