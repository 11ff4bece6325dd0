/** What an owner does about others: inviting them, and shutting phones out. */
import { html, nothing } from 'lit';
import { ask } from '../parts/ask.js';
import { choice } from '../parts/choice.js';
import { qrCode } from '../parts/qr-code/qr-code.js';
import { day } from '../words/numbers.js';
import { named, t } from '../words/t.js';
import { LOCAL } from './round-tags.js';
import { roleOf } from './share-role.js';
import { copyLink, lookUpDevices, makeInvite, putShare, putShareForm, sendLink, shutOut } from './share-actions.js';

/**
 * @typedef {import('../app/store.js').State} State
 * @typedef {import('../sync/sharing.js').Device} Device
 */

const ROLES = /** @type {const} */ (['leader', 'checker', 'viewer']);
const USES = [1, 5, 30];
const DAYS = [1, 7, 30];

/** @param {number} n */
function daysText(n) {
  return n === 1 ? t('share.invite.day') : t('share.invite.many', { n });
}

/** @param {State} state */
export function inviting({ share: { form, invited } }) {
  const { origin, hostname } = location;
  return html`<section class="sheet"><h2>${t('share.invite')}</h2>
    ${LOCAL.test(hostname) ? html`<p class="fault">${t('share.invite.local', { origin })}</p>` : nothing}
    ${choice({
      name: 'role',
      title: t('share.invite.role'),
      even: true,
      value: form.role,
      options: ROLES.map((value) => ({ value, text: named('role', value) })),
      choose: (role) => putShareForm({ role }),
    })}
    <p class="soft small">${named('role', `${form.role}.text`)}</p>
    ${choice({
      name: 'uses',
      title: t('share.invite.uses'),
      even: true,
      value: form.uses,
      options: USES.map((value) => ({ value, text: String(value) })),
      choose: (uses) => putShareForm({ uses }),
    })}
    ${choice({
      name: 'days',
      title: t('share.invite.days'),
      even: true,
      value: form.days,
      options: DAYS.map((value) => ({ value, text: daysText(value) })),
      choose: (days) => putShareForm({ days }),
    })}
    ${invited ? invitation(invited) : nothing}</section>`;
}

/** @param {State} state */
export function inviter({ share: { busy } }) {
  return html`<button class="button main" type="button" aria-disabled=${busy ? 'true' : 'false'} @click=${makeInvite}>${t('share.invite.make')}</button>`;
}

/** @param {NonNullable<State['share']['invited']>} invited */
function invitation({ url, role, uses, days }) {
  const values = { role: named('role', role), uses, days: daysText(days) };
  return html`<div class="invitation" role="status">
    <p>${t(uses === 1 ? 'share.invite.made.one' : 'share.invite.made', values)}</p>
    ${qrCode(url, t('share.invite.code'))}
    <input class="line-input" id="invite-link" readonly aria-label=${t('share.join.link')} .value=${url}>
    <div class="choices"><button class="button" type="button" @click=${() => copyLink(url)}>${t('share.invite.copy')}</button>
    ${'share' in navigator ? html`<button class="button" type="button" @click=${() => sendLink(url)}>${t('share.invite.send')}</button>` : nothing}</div>
  </div>`;
}

/** @param {State} state @param {import('../data/garage.js').GarageState} garage */
export function devices({ share: part }, { device_id: own }) {
  const list = part.devices ?? [];
  const there = list.filter(({ revoked_at }) => !revoked_at);
  const alone = there.filter(({ role }) => role === 'owner').length === 1;
  return html`<section class="sheet"><h2>${t('share.devices')}</h2>
    ${alone && there.length > 1 ? html`<p>${t('share.alone')}</p>` : nothing}
    ${
      part.devices
        ? html`<ul class="kept-list">${list.map((one) => device(one, own, alone, part))}</ul>`
        : html`<button class="button" type="button" @click=${lookUpDevices}>${t('share.devices.look')}</button>`
    }</section>`;
}

/** @param {Device} one @param {string} own @param {boolean} alone whether it is the only owner @param {State['share']} part */
function device(one, own, alone, part) {
  const { device_id: id, name, role, joined_at, revoked_at } = one;
  return html`<li><p><strong>${name}</strong>${id === own ? html` (${t('share.device.this')})` : nothing}<br>
    <span class="soft">${t('share.device.since', { role: named('role', role), when: day(joined_at) })}${
      revoked_at ? html`, ${t('share.device.gone', { when: day(revoked_at) })}` : nothing
    }</span></p>
    ${
      revoked_at
        ? nothing
        : html`<div class="choices">${id === own && alone ? nothing : roleOf(one, id === own, part)}
            ${id === own ? nothing : shutting(one, part)}</div>`
    }</li>`;
}

/** @param {Device} one @param {State['share']} part */
function shutting(one, { asking, busy }) {
  const { device_id: id, name } = one;
  return ask({
    id: `revoke-${id}`,
    asking: asking === id,
    act: t('share.revoke'),
    text: t('share.revoke.ask', { name }),
    yes: t('share.revoke.yes'),
    no: t('share.revoke.no'),
    busy: Boolean(busy),
    ask: (on) => putShare({ asking: on ? id : '' }),
    go: () => shutOut(one),
  });
}
