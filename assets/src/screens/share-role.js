/** What a phone may do, and how an owner changes it. */
import { html, nothing } from 'lit';
import { ask } from '../parts/ask.js';
import { choice } from '../parts/choice.js';
import { named, t } from '../words/t.js';
import { giveRole, putShare } from './share-actions.js';

/** @typedef {import('../sync/sharing.js').Device} Device */

const ROLES = /** @type {const} */ (['owner', 'leader', 'checker', 'viewer']);

/**
 * @param {Device} one
 * @param {boolean} own whether it is this phone
 * @param {import('../app/kit-state.js').ShareState} share
 */
export function roleOf(one, own, { asking, role: chosen, busy }) {
  const id = `role-${one.device_id}`;
  const role = chosen ?? one.role;
  return ask({
    id,
    asking: asking === id,
    act: t('share.role.change'),
    text: question(one, own, role),
    more: html`${choice({
      name: 'device-role',
      title: t('share.role.of', { name: one.name }),
      value: role,
      options: ROLES.map((value) => ({ value, text: named('role', value) })),
      choose: (value) => putShare({ role: value }),
    })}<p class="soft small">${named('role', `${role}.text`)}</p>`,
    yes: role === one.role ? nothing : t('share.role.yes', { role: named('role', role) }),
    no: t('share.role.no'),
    busy: Boolean(busy),
    ask: (on) => putShare({ asking: on ? id : '', role: null }),
    go: () => giveRole(one, role),
  });
}

/** @param {Device} one @param {boolean} own @param {Device['role']} role */
function question({ name, role: was }, own, role) {
  if (role === was) return '';
  if (own) return t('share.role.ask.own');
  return t(role === 'owner' ? 'share.role.ask.owner' : 'share.role.ask', { name, role: named('role', role) });
}
