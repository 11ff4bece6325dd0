/** Why a bike is held, or why it is cleared against a verdict or after a hold. */
import { html, nothing } from 'lit';
import { now } from '../app/store.js';
import { fit } from '../data/rounds.js';
import { reasonText } from '../data/round-form.js';
import { named, t } from '../words/t.js';
import { putForm } from './round-actions.js';
import { strict } from './round-bike.js';
import { decide, readingVerdict, reasonWords } from './round-check.js';
import { flash, why } from './round-parts.js';

/**
 * @typedef {import('../app/store.js').State} State
 * @typedef {import('../data/rounds.js').Round} Round
 * @typedef {import('../data/rounds.js').Stand} Stand
 */

const HOLDS = ['chain', 'damage', 'link', 'skip', 'brakes', 'wheels', 'steering', 'seat', 'electric'];
const CLEARS = ['mended', 'adjusted', 'chain', 'mechanic', 'mistaken'];

/** @param {State} state @param {Round} round @param {Stand} stand */
export function holding(state, round, stand) {
  const { name } = stand.bike.fields;
  const reads = readingVerdict(state);
  const told = said(state, 'hold') !== '' || (reads !== null && reads !== 'ride');
  return {
    body: html`<div class="sheets round">
      ${head(round, stand, t('round.hold.title', { name }))}
      ${flash(state)}
      ${reads ? html`<p class="big">${t('round.hold.reads', { verdict: named('verdict', reads) })}</p>` : nothing}
      ${ticks(state, 'hold', t('round.hold.why'), HOLDS)}
      <p class="notice">${t('round.hold.careful')}</p>
    </div>`,
    bench: act(told, t('round.hold.act'), () => decide(round, stand, 'held')),
  };
}

/** @param {State} state @param {Round} round @param {Stand} stand */
export function clearingAnyway(state, round, stand) {
  const { name, bears } = stand.bike.fields;
  const reads = readingVerdict(state);
  const against = reads && !fit(reads, Boolean(bears?.length));
  return {
    body: html`<div class="sheets round">
      ${head(round, stand, t('round.clear.title', { name }))}
      ${flash(state)}
      ${against ? html`<p class="fault">${t('round.clear.against', { verdict: named('verdict', reads) })}</p>` : nothing}
      ${stand.state === 'held' && stand.check ? html`<p class="big">${t('round.clear.was', { reason: why(stand.check) || t('round.reason.nothing') })}</p>` : nothing}
      ${strict(stand)}
      ${ticks(state, 'clear', t('round.clear.why'), CLEARS)}
      <p class="notice">${t('round.clear.careful')}</p>
    </div>`,
    bench: act(said(state, 'clear') !== '', t('round.clear.act'), () => decide(round, stand, 'cleared')),
  };
}

/** @param {State} state @param {'hold'|'clear'} group @returns {string} the reasons given */
function said({ round: { form } }, group) {
  return reasonText(form, (code) => reasonWords(code, group));
}

/** @param {Round} round @param {Stand} stand @param {string} title */
function head(round, stand, title) {
  return html`<div class="round-head"><a class="button quiet" href="#/round/${round.id}/${stand.bike.bike_id}">${stand.bike.fields.name}</a></div>
    <h1>${title}</h1>`;
}

/** @param {State} state @param {'hold'|'clear'} group @param {string} title @param {string[]} codes */
function ticks({ round: { form } }, group, title, codes) {
  const turn = (/** @type {string} */ code) => {
    const { reasons } = now().round.form;
    putForm({ reasons: reasons.includes(code) ? reasons.filter((one) => one !== code) : [...reasons, code] });
  };
  return html`<fieldset><legend class="label">${title}</legend><ul class="ticks">${codes.map(
    (
      code,
    ) => html`<li><label class="tick"><input type="checkbox" .checked=${form.reasons.includes(code)} @change=${() => turn(code)}>
      <span>${named(`round.${group}`, code)}</span></label></li>`,
  )}</ul></fieldset>
  <div><label class="label" for="own">${t('round.reason.other')}</label>
    <input class="line-input" id="own" maxlength="500" autocomplete="off" enterkeyhint="done" .value=${form.text}
      @input=${(/** @type {any} */ event) => putForm({ text: event.target.value })}></div>`;
}

/** @param {boolean} ready @param {string} text @param {() => void} go */
function act(ready, text, go) {
  return html`<button class="button main" type="button" aria-disabled=${ready ? 'false' : 'true'}
    @click=${() => ready && go()}>${ready ? text : t('round.reason.first')}</button>`;
}
