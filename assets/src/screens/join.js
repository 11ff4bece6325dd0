/** Join: what a link of somebody's leads to. It says what joining means before it is done. */
import { html, nothing } from 'lit';
import { fill, form } from '../app/forms.js';
import { now } from '../app/store.js';
import { recallPerson } from '../data/person.js';
import { mayAdd } from '../data/roles.js';
import { textField } from '../parts/text-field.js';
import { faultText } from '../words/engine.js';
import { list, named, t } from '../words/t.js';
import { FORM, bring, joinNow } from './join-actions.js';

/** @typedef {import('../app/store.js').State} State */

/** @param {State} state */
export function join(state) {
  if (state.join.told) return joined(state, state.join.told);
  if (!state.argument) return { body: plain(t('join.none')), bench: away() };
  const { name } = entered(state);
  const busy = state.join.status === 'busy';
  return {
    body: html`<form class="sheets" id="join" @submit=${submit}><h1>${t('join.title')}</h1>
      <p>${t('join.means')}</p>
      <ul>${list('join.means', {}).map((text) => html`<li>${text}</li>`)}
        ${state.garage?.bikes.length ? html`<li>${t('join.own')}</li>` : nothing}</ul>
      ${textField({ id: 'device', title: t('join.device'), text: name, hint: t('join.device.hint'), type: (text) => fill(FORM, { name: text }) })}
    </form>`,
    bench: html`${wrong(state)}<div class="main-row">
      <a class="button" href="#/check">${t('join.not')}</a>
      <button class="button main" form="join" aria-disabled=${!name.trim() || busy ? 'true' : 'false'}>
        ${t(busy ? 'join.busy' : name.trim() ? 'join.main' : 'join.name')}</button></div>`,
  };
}

/** @param {State} state */
function entered(state) {
  return form(state, FORM, { name: recallPerson() });
}

/** @param {Event} event */
function submit(event) {
  event.preventDefault();
  const name = entered(now()).name.trim();
  if (name) joinNow(name);
}

/** @param {string} text */
function plain(text) {
  return html`<div class="sheets"><h1>${t('join.title')}</h1><p>${text}</p></div>`;
}

function away() {
  return html`<a class="button main" href="#/check">${t('join.away')}</a>`;
}

/** @param {State} state what stands in the way */
function wrong({ join: { wrong: why, fault } }) {
  const text = why === 'fault' && fault ? faultText(fault) : why === 'signal' ? t('join.signal') : '';
  return html`<div class="flash" role="status">${text ? html`<p class="fault">${text}</p>` : nothing}</div>`;
}

/**
 * @param {State} state
 * @param {NonNullable<import('./join-actions.js').Join['told']>} told
 */
function joined(state, { name, role, own }) {
  const [first] = state.join.status === 'brought' ? [] : own;
  const busy = state.join.status === 'busy';
  return {
    body: html`<div class="sheets"><h1>${t('join.in', { name })}</h1>
      <p role="status">${named('join.role', role)}</p>
      ${
        first
          ? html`<section class="sheet"><h2>${t('join.bring.title')}</h2>
        <p>${t(first.bikes === 1 ? 'join.bring.one' : 'join.bring.many', { n: first.bikes })}</p>
        <button class="button" type="button" aria-disabled=${busy ? 'true' : 'false'} @click=${() => bring(first.key)}>
          ${t(busy ? 'join.busy' : 'join.bring')}</button></section>`
          : nothing
      }
      ${state.join.status === 'brought' ? html`<p>${t('join.brought')}</p>` : nothing}</div>`,
    bench: html`${wrong(state)}<div class="main-row">${
      mayAdd(role, 'round_checks')
        ? html`<a class="button" href="#/bikes">${t('join.bikes')}</a><a class="button main" href="#/round">${t('join.round')}</a>`
        : html`<a class="button main" href="#/bikes">${t('join.bikes')}</a>`
    }</div>`,
  };
}
