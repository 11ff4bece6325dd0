/** What can be done about sharing. What is typed is on the phone before the screen shows it. */
import { focusNext } from '../app/focus.js';
import { NO_SHARE } from '../app/kit-state.js';
import { now, set } from '../app/store.js';
import { keep } from '../data/local.js';
import { keepPerson, recallPerson } from '../data/person.js';
import * as sharing from '../sync/sharing.js';
import { t } from '../words/t.js';
import { troubleText } from '../words/troubles.js';

/** @typedef {import('../app/kit-state.js').ShareState} ShareState */

const DAY_S = 86_400;

/** @param {Partial<ShareState>} part */
export function putShare(part) {
  set({ share: { ...now().share, ...part } });
}

/** @param {Partial<ShareState['form']>} part */
export function putShareForm(part) {
  const form = { ...now().share.form, ...part };
  set({ share: { ...now().share, form, fault: '' }, trouble: keep('share', form) });
}

/** Comes to a place of sharing anew: what was said there before is over. */
export function openShare() {
  const { form } = now().share;
  set({ share: { ...NO_SHARE, form: { ...form, device: form.device || recallPerson() } } });
}

/**
 * One thing at a time; what came of it stands on the screen.
 * @param {string} name
 * @param {() => Promise<Partial<ShareState>>} work
 */
async function act(name, work) {
  if (now().share.busy) return;
  putShare({ busy: name, fault: '', done: '' });
  try {
    putShare({ asking: '', ...(await work()) });
  } catch (error) {
    putShare({ fault: troubleText(error) });
    requestAnimationFrame(() => document.querySelector('[role=alert] .fault')?.scrollIntoView({ block: 'center' }));
  } finally {
    putShare({ busy: '' });
  }
}

export function start() {
  const { name, device } = now().share.form;
  if (!name.trim() || !device.trim()) return;
  act('start', async () => {
    await sharing.startSharing(name.trim(), device.trim());
    nameHolder(device);
    focusNext('place');
    return { done: t('share.done.shared') };
  });
}

/** The phone's name stands beside what is entered here, until its rider gives another. @param {string} name */
export function nameHolder(name) {
  if (!now().person.trim()) set({ person: name.trim(), trouble: keepPerson(name.trim()) });
}

export async function makeInvite() {
  const { role, uses, days } = now().share.form;
  await act('invite', async () => {
    const { url } = await sharing.invite(role, uses, days * DAY_S);
    return { invited: { url, role, uses, days } };
  });
  // It stands below the questions, behind the dock on a small screen.
  requestAnimationFrame(() => document.querySelector('.invitation')?.scrollIntoView());
}

export function lookUpDevices() {
  act('devices', async () => ({ devices: await sharing.devices() }));
}

/** @param {import('../sync/sharing.js').Device} device */
export function shutOut(device) {
  act('revoke', async () => {
    await sharing.revoke(device.device_id);
    return { devices: await sharing.devices(), done: t('share.done.revoked') };
  });
}

/** @param {import('../sync/sharing.js').Device} device @param {import('../data/roles.js').Role} role */
export function giveRole({ device_id: id }, role) {
  act('role', async () => {
    await sharing.changeRole(id, role);
    const own = now().garage?.device_id === id; // then it may not look the others up any more
    if (own) await sharing.syncNow();
    return { devices: own ? null : await sharing.devices(), done: t('share.done.role') };
  });
}

export function leaveGarage() {
  act('leave', async () => {
    await sharing.leave();
    return { done: t('share.done.left'), devices: null, invited: null };
  });
}

/** What an address to join ends in. */
const INVITATION = /(?:#\/join\/)?([\w-]{8,})\s*$/;

/** Goes to the place of the invitation that was pasted. */
export function followLink() {
  const found = INVITATION.exec(now().share.form.link);
  if (!found) return putShare({ fault: t('share.join.bad') });
  putShareForm({ link: '' });
  location.hash = `#/join/${found[1]}`;
}

/** @param {string} key */
export function openOther(key) {
  act('open', async () => {
    await sharing.openGarage(key);
    return { devices: null, invited: null };
  });
}

/** @param {string} opId */
export function putAside(opId) {
  act('dismiss', async () => {
    await sharing.dismiss(opId);
    return {};
  });
}

export function tryNow() {
  act('sync', async () => {
    await sharing.syncNow();
    return {};
  });
}

/** @param {string} url */
export async function copyLink(url) {
  try {
    await navigator.clipboard.writeText(url);
    putShare({ done: t('share.invite.copied') });
  } catch {
    const field = /** @type {HTMLInputElement|null} */ (document.getElementById('invite-link'));
    field?.select();
    focusNext('invite-link');
  }
}

/** @param {string} url by whatever the phone sends links with */
export function sendLink(url) {
  navigator.share({ title: t('app.name'), url }).catch(() => {});
}
