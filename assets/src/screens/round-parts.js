/** Parts that the screens of Round share. */
import { html, nothing } from 'lit';
import { standing as chainStanding, urgency } from '../data/bike-order.js';
import { standShape } from '../parts/stand-shape.js';
import { when } from '../words/times.js';
import { named, t } from '../words/t.js';
import { undo } from './round-actions.js';
import { rows } from './round-rows.js';

/**
 * @typedef {import('../app/store.js').State} State
 * @typedef {import('../data/rounds.js').Check} Check
 * @typedef {import('../data/rounds.js').Stand} Stand
 * @typedef {import('../words/t.js').Word} Word
 */

/** @param {State} state what was just done, and the way back */
export function flash({ place, argument, round: { flash: done, fault } }) {
  const here = done && done.at === `${place}/${argument}` ? done : null;
  return html`<div class="flash" role="status">${
    here
      ? html`${t(/** @type {Word} */ (`round.done.${here.what}`), { name: here.name })}
    ${here.undo.length ? html`<button class="button quiet" type="button" id="undo" @click=${undo}>${t('round.undo')}</button>` : nothing}`
      : nothing
  }</div>${fault ? html`<p class="fault" role="alert">${fault}</p>` : nothing}`;
}

/** @param {Check} check @returns {string} why, in the words it was entered with */
export function why(check) {
  return [check.reason, check.note].filter(Boolean).join('. ');
}

/** @param {Check} check */
export function byWhen(check) {
  return t('round.seen', { by: check.by ?? t('round.log.nobody'), when: when(check.at, new Date()) });
}

/** @param {Stand['bike']} bike @returns {string} why it should be measured, not only looked at; empty when it need not */
export function needsReading(bike) {
  const urgent = urgency(bike);
  if (urgent === 'due') return t('round.due.check');
  return urgent === 'past' || urgent === 'again' ? named('verdict', chainStanding(bike)) : '';
}

/** @param {Check|null} check */
const said = (check) => [check?.id, check?.at, check?.by, check?.reason, check?.note];

/** @param {Stand} stand @returns {unknown[]} what is shown of it, and the day, for times of another day are longer */
export function standParts({ bike: { fields, forecast, judged, last_reading }, state, check, held }) {
  return [fields, forecast, judged, last_reading, state, ...said(check), ...said(held), new Date().toDateString()];
}

/**
 * Bikes in a list: their state by shape, then who saw them and why.
 * @param {Stand[]} stands
 * @param {string} address where a line leads, with the bike's id after it
 */
export function standRows(stands, address) {
  return rows(stands, {
    key: ({ bike }) => bike.bike_id,
    parts: standParts,
    line: (stand) => row(stand, address + stand.bike.bike_id),
  });
}

/** @param {Stand} stand @param {string} address */
function row({ bike, state, check, held }, address) {
  const over = state === 'cleared' && held;
  return html`<a class="row ${state}" href=${address}>${standShape(state)}
    <span><strong>${bike.fields.name}</strong> ${bike.fields.tag ? html`<span class="code">${bike.fields.tag}</span>` : nothing}
    ${state === 'not_seen' && needsReading(bike) ? html`<br><span class="small">${needsReading(bike)}</span>` : nothing}
    ${check ? html`<br><span class="small">${[why(check), byWhen(check)].filter(Boolean).join(' · ')}</span>` : nothing}
    ${over ? html`<br><span class="small">${t('round.was', { reason: why(over) || t('round.reason.nothing') })}</span>` : nothing}
    </span></a>`;
}

/** @param {Stand} stand its state as a word and a shape, with who said so and why */
export function standing({ state, check, held }) {
  const over = state === 'cleared' && held;
  return html`<div class="standing ${state}">${standShape(state)}<div>
    <p><strong>${named('round.state', state)}</strong>${check ? html` <span class="small">${byWhen(check)}</span>` : nothing}</p>
    ${check && why(check) ? html`<p class="small">${why(check)}</p>` : nothing}
    ${over ? html`<p class="small">${t('round.was', { reason: why(over) || t('round.reason.nothing') })}</p>` : nothing}
  </div></div>`;
}
