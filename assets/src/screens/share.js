/** Sharing: with whom the garage is kept, and how it stands with the server. */
import { html, nothing } from 'lit';
import { DEMO } from '../data/garage-state.js';
import { ask } from '../parts/ask.js';
import { textField } from '../parts/text-field.js';
import { named, t } from '../words/t.js';
import { inDemo } from './demo.js';
import { followLink, leaveGarage, openOther, putShare, putShareForm, start } from './share-actions.js';
import { devices, inviter, inviting } from './share-owner.js';
import { status } from './share-status.js';

/**
 * @typedef {import('../app/store.js').State} State
 * @typedef {import('../data/garage.js').GarageState} GarageState
 */

/** @param {State} state */
export function share(state) {
  const { garage } = state;
  return {
    body: html`<div class="sheets">
      <h1>${t('share.title')}</h1>
      ${garage ? (inDemo(state) ? html`<p>${t('kit.demo')}</p>` : body(state, garage)) : html`<p role="status">${t('bikes.loading')}</p>`}
    </div>`,
    bench: html`<div class="main-row"><a class="button" href="#/kit">${t('kit.back')}</a>
      ${garage && !inDemo(state) ? main(state, garage) : nothing}</div>`,
  };
}

/** What this place is for now: to share, then to invite. @param {State} state @param {GarageState} garage */
function main(state, garage) {
  if (garage.sync.state === 'local') return starter(state);
  return isOpen(garage) && garage.role === 'owner' ? inviter(state) : nothing;
}

/** @param {GarageState} garage whether the server still knows this phone */
function isOpen({ sync: { state } }) {
  return state !== 'local' && state !== 'revoked' && state !== 'gone';
}

/** @param {State} state @param {GarageState} garage */
function body(state, garage) {
  const shared = garage.sync.state !== 'local';
  const open = isOpen(garage);
  return html`${said(state)}
    ${shared ? html`<p><strong>${garage.name || t('share.none')}</strong><br>${t('share.role', { role: named('role', garage.role) })} <span class="soft">${named('role', `${garage.role}.text`)}</span></p>` : nothing}
    ${shared ? status(garage, Boolean(state.share.busy)) : begin(state)}
    ${open && garage.role === 'owner' ? html`${inviting(state)} ${devices(state, garage)}` : nothing}
    ${shared ? leaving(state, open) : nothing}
    ${others(garage)}`;
}

/** @param {State} state what came of the last step */
export function said({ share: { fault, done } }) {
  return html`<div role="status">${done ? html`<p><strong>${done}</strong></p>` : nothing}</div>
    <div role="alert">${fault ? html`<p class="fault">${fault}</p>` : nothing}</div>`;
}

/** @param {State} state */
function starter({ share: { form, busy } }) {
  const ready = form.name.trim() && form.device.trim();
  return html`<button class="button main" type="button" aria-disabled=${ready && !busy ? 'false' : 'true'}
    @click=${start}>${t(ready ? 'share.start' : 'share.first')}</button>`;
}

/** @param {State} state a garage on this phone only */
function begin({ share: { form } }) {
  return html`<section class="sheet"><p>${t('sync.local')} ${t('share.why')}</p>
      ${textField({ id: 'garage-name', title: t('share.name'), text: form.name, type: (name) => putShareForm({ name }) })}
      ${deviceField(form.device)}
</section>
    <section class="sheet"><h2>${t('share.join')}</h2><p>${t('share.join.text')}</p>
      ${textField({ id: 'join-link', title: t('share.join.link'), text: form.link, most: 300, type: (link) => putShareForm({ link }) })}
      <button class="button" type="button" @click=${followLink}>${t('share.join.go')}</button></section>`;
}

/** @param {string} device */
export function deviceField(device) {
  return textField({
    id: 'device-name',
    title: t('share.device'),
    hint: t('share.device.hint'),
    text: device,
    type: (text) => putShareForm({ device: text }),
  });
}

/** @param {State} state @param {boolean} open whether the server still knows this phone */
function leaving({ share: { asking, busy } }, open) {
  if (!open) return html`<button class="button" type="button" @click=${leaveGarage}>${t('share.apart')}</button>`;
  return html`<section class="sheet">${ask({
    id: 'leave',
    asking: asking === 'leave',
    act: t('share.leave'),
    text: t('share.leave.ask'),
    yes: t('share.leave.yes'),
    no: t('share.leave.no'),
    busy: Boolean(busy),
    ask: (on) => putShare({ asking: on ? 'leave' : '' }),
    go: leaveGarage,
  })}</section>`;
}

/** @param {GarageState} garage */
function others({ others: all }) {
  const real = all.filter(({ key }) => key !== DEMO);
  if (!real.length) return nothing;
  return html`<section class="sheet"><h2>${t('share.others')}</h2>${real.map(
    ({ key, name }) =>
      html`<button class="button" type="button" @click=${() => openOther(key)}>${t('share.others.open', { name: name || t('share.none') })}</button>`,
  )}</section>`;
}
