/** How long, with a derailleur: what the bike has, and the chain to cut. */
import { html, nothing } from 'lit';
import { choice } from '../parts/choice.js';
import { t } from '../words/t.js';
import { put } from './fit-actions.js';
import { fold, lengthField, numberField, pitchField, teethField, toggle } from './fit-fields.js';

/** Where nudging begins: mm, and teeth. */
const START = { chainstay: 420, longest: 435, sprocket: 34, capacity: 39, fitted: 114 };

/** Counts chains are sold in (common practice), and where another count begins. */
const STOCK = ['', '112', '114', '116', '118', '120', '126'];
const OTHER = '110';

/** @param {import('../app/store.js').State} state */
export function lengthFields(state) {
  const { length } = state.fit;
  const common = { state, question: /** @type {const} */ ('length') };
  return html`
    ${lengthField({ ...common, field: 'chainstay_mm', hint: t('fit.hint.chainstay_mm'), grain: 'frame', start: START.chainstay })}
    ${teethField({ ...common, field: 'chainrings', hint: t('fit.hint.teeth') })}
    ${teethField({ ...common, field: 'sprockets', hint: t('fit.hint.teeth') })}
    ${stock(state)}
    ${fold(
      t('fit.more.derailleur'),
      html`
      ${numberField({ ...common, field: 'capacity_teeth', hint: t('fit.hint.capacity_teeth'), told: ['derailleur.capacity_teeth'], start: START.capacity })}
      ${numberField({ ...common, field: 'max_sprocket', told: ['derailleur.max_sprocket'], start: START.sprocket })}`,
    )}
    ${fold(
      t('fit.more.suspension'),
      lengthField({
        ...common,
        field: 'longest_chainstay_mm',
        hint: t('fit.hint.longest_chainstay_mm'),
        grain: 'frame',
        start: START.longest,
      }),
    )}
    ${fold(
      t('fit.more.reserve'),
      html`
      ${choice({
        name: 'reserve',
        title: t('fit.reserve'),
        value: length.add_pitches,
        options: [2, 4, 6].map((value) => ({ value, text: value })),
        choose: (value) => put('length', { add_pitches: value }),
      })}
      ${toggle({ title: t('fit.half'), hint: t('fit.half.hint'), on: length.half_link_allowed, choose: (on) => put('length', { half_link_allowed: on }) })}`,
    )}
    ${fold(
      t('fit.more.fitted'),
      html`
      ${numberField({ ...common, field: 'fitted_pitches', hint: t('fit.hint.fitted_pitches'), start: START.fitted, pace: 2 })}
      ${pitchField(state, 'length')}`,
    )}`;
}

/** @param {import('../app/store.js').State} state the chain that is to be cut */
function stock(state) {
  const { stock_pitches: count } = state.fit.length;
  const listed = STOCK.includes(count);
  return html`${choice({
    name: 'stock',
    title: t('fit.stock'),
    value: listed ? count : 'other',
    options: [...STOCK, 'other'].map((value) => ({
      value,
      text: value === '' ? t('fit.stock.none') : value === 'other' ? t('fit.stock.other') : value,
    })),
    choose: (value) => put('length', { stock_pitches: value === 'other' ? OTHER : value }),
  })}
    ${
      listed
        ? nothing
        : numberField({
            state,
            question: 'length',
            field: 'stock_pitches',
            hint: t('fit.hint.stock_pitches'),
            start: Number(OTHER),
            pace: 2,
          })
    }`;
}
