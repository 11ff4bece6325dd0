/** Which chain: what the caliper shows, and the bike. */
import { html, nothing } from 'lit';
import { choice } from '../parts/choice.js';
import { named, t } from '../words/t.js';
import { put } from './fit-actions.js';
import { fold, lengthField, numberField } from './fit-fields.js';

/** Where nudging begins, mm: a middling chain, five link pairs, the usual roller. */
const START = { outer: 6.6, inner: 2.4, span: 127, roller: 7.75 };

/** @param {import('../app/store.js').State} state */
export function whichFields(state) {
  const { drive, rear_sprockets } = state.fit.which;
  const common = { state, question: /** @type {const} */ ('which') };
  return html`
    ${lengthField({ ...common, field: 'outer_width_mm', hint: t('fit.hint.outer_width_mm'), grain: 'width', start: START.outer })}
    ${choice({
      name: 'which-drive',
      title: t('fit.drive'),
      value: drive,
      options: /** @type {const} */ (['', 'derailleur', 'single', 'hub']).map((value) => ({
        value,
        text: value ? named('drive', value) : t('fit.drive.none'),
      })),
      choose: (value) => put('which', { drive: value }),
    })}
    ${
      drive === 'derailleur'
        ? html`<div class="sprockets">${choice({
            name: 'which-sprockets',
            title: t('fit.drive.sprockets'),
            value: rear_sprockets,
            options: [0, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14].map((value) => ({ value, text: sprocketsText(value) })),
            choose: (value) => put('which', { rear_sprockets: value }),
          })}</div>`
        : nothing
    }
    ${lengthField({ ...common, field: 'inner_width_mm', hint: t('fit.hint.inner_width_mm'), grain: 'width', start: START.inner })}
    ${fold(
      t('fit.more.which'),
      html`
      ${lengthField({ ...common, field: 'span_mm', hint: t('fit.hint.span_mm'), told: ['pitch_mm'], grain: 'frame', start: START.span })}
      ${numberField({ ...common, field: 'pitches', start: 10, pace: 2 })}
      ${lengthField({ ...common, field: 'roller_mm', hint: t('fit.hint.roller_mm'), grain: 'width', start: START.roller })}`,
    )}`;
}

/** @param {number} n */
function sprocketsText(n) {
  if (n === 0) return t('fit.drive.sprockets.none');
  return n < 5 ? t('drive.few') : n;
}
