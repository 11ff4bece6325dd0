/** Fit: which chain, how long, which gears. */
import { html, nothing } from 'lit';
import { asked, touched } from '../data/fit-draft.js';
import { choice } from '../parts/choice.js';
import { icon } from '../parts/icons.js';
import { list, named, t } from '../words/t.js';
import { changeFit, emptyFitQuestion, undoFit } from './fit-actions.js';
import { fromBike, toBike } from './fit-bike.js';
import { centreFields } from './fit-centre.js';
import { centreAnswer } from './fit-centre-answer.js';
import { gearsFields } from './fit-gears.js';
import { gearsAnswer } from './fit-gears-answer.js';
import { lengthFields } from './fit-length.js';
import { lengthAnswer } from './fit-length-answer.js';
import { fitTag } from './fit-tag.js';
import { whichFields } from './fit-which.js';
import { whichAnswer } from './fit-which-answer.js';

/** @typedef {import('../app/store.js').State} State */

/** What each calculation's screen shows: its fields, its answer, how to begin. */
const SIDES = /** @type {const} */ ({
  which: { fields: whichFields, answer: whichAnswer, title: 'which.how', how: 'which.how' },
  length: { fields: lengthFields, answer: lengthAnswer, title: 'gears.how', how: 'long.how.derailleur' },
  centre: { fields: centreFields, answer: centreAnswer, title: 'gears.how', how: 'long.how.fixed' },
  gears: { fields: gearsFields, answer: gearsAnswer, title: 'gears.how', how: 'gears.how' },
});

/** @param {State} state */
export function fit(state) {
  const name = asked(state.fit);
  const { fields, answer, title, how } = SIDES[name];
  const result = state.fitResults[name];
  return {
    body: html`<div class="fit">
      <h1 class="away">${t('fit.title')}</h1>
      <div class="instruments">${choice({
        name: 'question',
        title: t('fit.questions'),
        hidden: true,
        even: true,
        value: state.fit.question,
        options: /** @type {const} */ (['which', 'long', 'gears']).map((value) => ({
          value,
          text: html`${icon(value)}${named('fit.question', value)}`,
        })),
        choose: (question) => changeFit({ question }),
      })}</div>
      <div class="fit-sides">
        <section class="sheets" aria-label=${t('fit.known')}>
          ${state.fit.question === 'long' ? driven(state) : nothing}
          ${fromBike(state)}
          ${fields(state)} ${toBike(state)} ${bottom(state)}
        </section>
        <section class="sheets" aria-label=${t('fit.answer')}>${result.answer ? answer(state, result.answer) : begin(title, how)}</section>
      </div>
    </div>`,
    bench: fitTag(state),
  };
}

/** @param {State} state */
function driven({ fit: { drive } }) {
  return choice({
    name: 'long-drive',
    title: t('fit.drive.long'),
    even: true,
    value: drive,
    options: /** @type {const} */ (['derailleur', 'single', 'hub']).map((value) => ({
      value,
      text: named('drive', value),
    })),
    choose: (value) => changeFit({ drive: value }),
  });
}

/** @param {State} state */
function bottom({ fit: now, fitBefore, settings }) {
  return html`<div class="flash">
    <span role="status">${fitBefore ? t(now.bike_id ? 'fit.filled' : 'fit.emptied') : ''}</span>
    ${fitBefore ? html`<button class="button quiet" type="button" @click=${undoFit}>${t('fit.undo')}</button>` : nothing}
    ${touched(now, settings.units) ? html`<button class="button quiet" type="button" @click=${emptyFitQuestion}>${t('fit.empty')}</button>` : nothing}
  </div>`;
}

/** @param {import('../words/t.js').Word} title @param {string} how */
function begin(title, how) {
  return html`<div class="sheet"><h2>${t(title)}</h2>
    <ol>${list(how, {}).map((text) => html`<li>${text}</li>`)}</ol>
    <p class="soft">${t('fit.bikes')}</p></div>`;
}
