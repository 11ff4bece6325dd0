/** Phones that share a garage. */
import assert from 'node:assert/strict';
import { door, programWithDoors } from './doors.js';
import { becomes } from './patience.js';
import { newPhone, openAndKeep } from './phone.js';
import { startServer } from './server.js';

/** @typedef {import('./phone.js').Phone} Phone */

/** @param {import('./doors.js').GarageState} garage */
export const agreed = ({ sync }) => sync.state === 'idle' && sync.unsent === 0 && sync.at !== null;

/** @param {any} t */
export async function server(t) {
  return startServer(t, await programWithDoors());
}

/**
 * @param {any} t
 * @param {import('./server.js').Server} at
 * @returns {Promise<Phone>} where a server that is away is no problem
 */
export async function phone(t, at) {
  const one = await newPhone(t, at.origin, { alone: true });
  await openAndKeep(one.page);
  return one;
}

/** @param {Phone} owner @param {Phone} other @param {string} [role] @returns {Promise<any>} what the other was told */
export async function joinBy(owner, other, role = 'leader') {
  const { code } = await door(owner.page, 'invite', role, 1, 3600);
  const told = await door(other.page, 'join', code, 'helper');
  assert.equal(told.message, undefined);
  return told;
}

/** @param {Phone} one @returns {Promise<any>} the tables of its export */
export async function everything(one) {
  return JSON.parse(await door(one.page, 'exportText')).tables;
}

/** Waits until both keep the same. @param {Phone} a @param {Phone} b */
export async function same(a, b) {
  await becomes(() => everything(b), await everything(a));
}

export const BIKE = { name: 'Loaner 1', drive: 'hub' };
