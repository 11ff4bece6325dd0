/** One bike of a round: a reading if there is time for one, then clear it or hold it. */
import { html, nothing } from 'lit';
import { entered } from '../data/draft.js';
import { mayLead } from '../data/roles.js';
import { ranField } from '../parts/ran-field.js';
import { day, percent } from '../words/numbers.js';
import { named, t } from '../words/t.js';
import { clearDraft } from './check-actions.js';
import { ends, flash as readingFlash, instruments, value } from './check.js';
import { answerDetails, answerTag } from './check-answer.js';
import { marksOpener, setupPanel } from './check-setup.js';
import { strip } from './check-strip.js';
import { putForm } from './round-actions.js';
import { clearingNow, decide, draftOf, keepsReading, readingVerdict } from './round-check.js';
import { flash, standing } from './round-parts.js';

/**
 * @typedef {import('../app/store.js').State} State
 * @typedef {import('../data/rounds.js').Round} Round
 * @typedef {import('../data/rounds.js').Stand} Stand
 */

/** @param {State} state @param {Round} round @param {Stand} stand @param {boolean} writes whether it may be cleared or held here */
export function oneBike(state, round, stand, writes) {
  const { bike } = stand;
  return {
    body: html`<div class="check round">
      <div class="round-head"><a class="button quiet" href="#/round/${round.id}">${t('round.bike.back')}</a></div>
      <h1>${bike.fields.name} ${bike.fields.tag ? html`<span class="code">${bike.fields.tag}</span>` : nothing}</h1>
      ${flash(state)}
      ${stand.state === 'not_seen' ? nothing : standing(stand)}
      ${last(bike)}
      ${strict(stand)}
      ${writes && state.draft.for === draftOf(round.id, bike.bike_id) ? reading(state, stand) : nothing}
      ${writes ? html`<p class="soft">${t('round.clear.careful')}</p>` : nothing}
      <a class="button quiet" href="#/bike/${bike.bike_id}">${t('round.bike.open')}</a>
    </div>`,
    bench: writes ? bench(state, round, stand) : nothing,
  };
}

/** @param {import('../data/rounds.js').Bike} bike the last reading before this one, if any */
function last({ last_reading, judged }) {
  if (!last_reading || !judged) return nothing;
  const [verdict, reads] = [named('verdict', judged.verdict), percent(judged.elongation_percent)];
  return html`<p class="soft number">${t('round.bike.last', { percent: reads, verdict, when: day(last_reading.at) })}</p>`;
}

/** @param {Stand} stand what asks for the stricter word */
export function strict({ bike: { fields } }) {
  if (!fields.bears?.length) return nothing;
  return html`<p class="notice"><strong>${fields.bears.map((/** @type {string} */ one) => named('bike.bears', one)).join(', ')}.</strong>
    ${t('round.strict')}</p>`;
}

/** @param {State} state @param {Stand} stand */
function reading(state, stand) {
  const { draft, panel } = state;
  return html`${answerTag(state)}
    ${strip(state)}
    ${readingFlash(state)}
    ${!stand.bike.fitted_chain_id && entered(draft) ? noChain(state, stand) : nothing}
    ${ends(state)}
    ${entered(draft) ? html`<div><button class="button" type="button" @click=${clearDraft}>${t('keep.clear')}</button></div>` : nothing}
    <div><label class="label" for="note">${t('round.bike.note')}</label>
      <input class="line-input" id="note" maxlength="500" autocomplete="off" enterkeyhint="done" .value=${state.round.form.text}
        @input=${(/** @type {any} */ event) => putForm({ text: event.target.value })}></div>
    <details class="fold" ?open=${panel === 'setup'}><summary>${t('round.bike.instrument')}</summary>
      <div class="sheet">${instruments(state)} ${marksOpener(state)}
        ${panel === 'setup' ? setupPanel(state) : nothing}</div></details>
    <details class="fold"><summary>${t('round.bike.more')}</summary>${answerDetails(state)}</details>`;
}

/** What is to be known before a reading can be kept with a bike that has no chain yet. @param {State} state @param {Stand} stand */
function noChain(state, { bike }) {
  if (!mayLead(state.garage?.role)) return html`<p class="fault">${t('round.bike.no_chain.checker')}</p>`;
  return html`${keepsReading(state, bike) ? nothing : html`<p class="fault">${t('round.bike.no_chain')}</p>`}
    ${ranField({ id: 'ran', text: state.round.form.ran, units: state.settings.units, put: (ran) => putForm({ ran }) })}`;
}

/** @param {State} state @param {Round} round @param {Stand} stand */
function bench(state, round, stand) {
  const verdict = readingVerdict(state);
  const takes = clearingNow(state, stand);
  const base = `#/round/${round.id}/${stand.bike.bike_id}`;
  const hold = html`<a class="button ${takes === 'reason' && verdict ? 'main' : ''}" href="${base}/hold">${t('round.bike.hold')}</a>`;
  return html`${state.draft.for === draftOf(round.id, stand.bike.bike_id) ? value(state) : nothing}
    <div class="main-row">
      ${hold}
      ${
        takes === 'yes'
          ? html`<button class="button main" type="button" aria-disabled=${state.result.status === 'fault' ? 'true' : 'false'}
        @click=${() => decide(round, stand, 'cleared')}>${t(verdict ? 'round.bike.clear.reading' : 'round.bike.clear')}</button>`
          : html`<a class="button ${verdict ? '' : 'main'}" href="${base}/clear">${t(verdict ? 'round.bike.clear.reason' : 'round.bike.clear.held')}</a>`
      }
    </div>`;
}
