/** Gears: teeth, wheel, crank; for the chain's angle also where it runs. */
import { html } from 'lit';
import { t } from '../words/t.js';
import { fold, lengthField, numberField, pitchField, plainField, teethField } from './fit-fields.js';

/** Where nudging begins, mm and turns a minute. */
const START = {
  wheel: 2150,
  crank: 170,
  cadence: 90,
  chainstay: 420,
  chainline: 45,
  spacing: 4,
  rings: 7.5,
  longest: 114,
};

/** @param {import('../app/store.js').State} state */
export function gearsFields(state) {
  const common = { state, question: /** @type {const} */ ('gears') };
  const frame = { ...common, grain: /** @type {const} */ ('frame') };
  return html`
    ${teethField({ ...common, field: 'chainrings', hint: t('fit.hint.teeth.all') })}
    ${teethField({ ...common, field: 'sprockets', hint: t('fit.hint.teeth.all') })}
    ${plainField({ ...common, field: 'etrto', hint: t('fit.hint.etrto'), mode: 'text' })}
    ${fold(
      t('fit.more.wheel'),
      html`
      ${lengthField({ ...frame, field: 'wheel_circumference_mm', hint: t('fit.hint.wheel_circumference_mm'), start: START.wheel })}
      ${lengthField({ ...frame, field: 'crank_mm', start: START.crank })}
      ${numberField({ ...common, field: 'cadence_rpm', start: START.cadence, pace: 5 })}
      ${pitchField(state, 'gears')}`,
    )}
    ${fold(
      t('fit.more.angle'),
      html`
      ${lengthField({ ...frame, field: 'chainstay_mm', hint: t('fit.hint.chainstay_mm'), start: START.chainstay })}
      ${lengthField({ ...common, field: 'sprocket_spacing_mm', hint: t('fit.hint.sprocket_spacing_mm'), grain: 'width', start: START.spacing })}
      ${lengthField({ ...frame, field: 'chainline_mm', start: START.chainline })}
      ${lengthField({ ...frame, field: 'rear_chainline_mm', hint: t('fit.hint.rear_chainline_mm'), start: START.chainline })}
      ${lengthField({ ...common, field: 'chainring_spacing_mm', hint: t('fit.hint.chainring_spacing_mm'), grain: 'width', start: START.rings })}
      ${numberField({ ...common, field: 'longest_pitches', hint: t('fit.hint.longest_pitches'), start: START.longest, pace: 2 })}`,
    )}`;
}
