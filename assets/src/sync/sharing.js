/**
 * What a rider can do about sharing and keeping the garage as a whole. All of
 * it throws what it meets: ServerFault and EngineFault carry `fault` with a
 * message in plain words, NoSignal means that nothing came back, KeepError has
 * a `reason` among the words `trouble.*`.
 */
import { askToPersist } from '../app/storage.js';
import { workAhead } from '../data/background.js';
import { addGarage, commit, detach, forget, garageNamed, garages } from '../data/garage-store.js';
import { tableRows } from '../data/garage-read.js';
import { DEMO, current, currentKept, fresh, load, switchTo } from '../data/garage-state.js';
import { newId } from '../data/ids.js';
import { refreshAll } from '../data/refresh.js';
import { untilKept } from '../data/tabs.js';
import { bringIn as moveInto } from '../data/whole.js';
import { call } from './client.js';
import { exported } from './export.js';
import { lookThrough, takeAll } from './import.js';
import { restampAs } from './restamp.js';
import { comeBack } from './sync.js';

/**
 * @typedef {import('../data/garage-store.js').Garage} Garage
 * @typedef {Garage['role']} Role
 * @typedef {{device_id: string, name: string, role: Role, joined_at: string, revoked_at?: string}} Device
 */

/**
 * Gives this phone's own garage to the server, so that others can be invited.
 * All that is in it goes there, now or when there is signal.
 * @param {string} name of the garage, 1 to 80 characters
 * @param {string} deviceName what people call this phone, 1 to 80 characters
 * @returns {Promise<void>}
 */
export async function startSharing(name, deviceName) {
  const { key } = await realGarage();
  const { answer } = await call('POST', '/garages', { body: { name, device_name: deviceName } });
  await change(key, { ...joined(answer), name, cursor: answer.cursor ?? '', clock: '', seen: '', adopting: true });
  askToPersist();
  await shown();
}

/**
 * Makes an invitation. Who has the link may join, until it is used up.
 * @param {'leader'|'checker'|'viewer'} role
 * @param {number} uses 1 to 1000
 * @param {number} expiresInS 1 s to 31 days
 * @returns {Promise<{code: string, url: string}>} the secret is in the fragment of the URL only
 */
export async function invite(role, uses, expiresInS) {
  const garage = await current();
  const body = { role, uses, expires_in_s: expiresInS };
  const { answer } = await call('POST', `/garages/${garage.id}/invites`, { token: garage.token, body });
  return { code: answer.code, url: `${location.origin}/#/join/${answer.code}` };
}

/**
 * Joins a garage. What is on this phone stays where it is; `own` says what
 * could be brought into the joined garage with `bringIn`. A garage this phone
 * is in already, or was revoked from, goes on with its unsent work.
 * @param {string} code of an invitation
 * @param {string} deviceName what people call this phone, 1 to 80 characters
 * @returns {Promise<{key: string, name: string, role: Role, own: {key: string, bikes: number}[]}>} the joined garage is
 *   open now; `own` are garages on this phone only that have bikes, empty where the role may not add bikes
 */
export async function join(code, deviceName) {
  const { answer } = await call('POST', '/join', { body: { code, device_name: deviceName } });
  const before = (await garages()).find(({ id }) => id === answer.garage_id);
  const key = before?.key ?? newId();
  if (before) await restampAs(before, joined(answer));
  else await addGarage({ ...fresh(), ...joined(answer), cursor: answer.cursor ?? '', key });
  askToPersist();
  await switchTo(key);
  await shown();
  return { key, name: answer.name ?? '', role: answer.role, own: await own(answer.role) };
}

/** @param {Role} role in the joined garage */
async function own(role) {
  if (role !== 'leader' && role !== 'owner') return [];
  const all = (await garages()).filter(({ key, token }) => !token && key !== DEMO);
  const counted = all.map(async ({ key }) => {
    const bikes = (await tableRows(key, 'bikes')).filter(({ removed }) => !removed);
    return { key, bikes: bikes.length };
  });
  return (await Promise.all(counted)).filter(({ bikes }) => bikes > 0);
}

/**
 * Moves a garage of this phone into the open one, where the others see it.
 * @param {string} key of the garage to be moved
 * @returns {Promise<number>} how many records were moved
 */
export async function bringIn(key) {
  const { key: into } = await current();
  const moved = await moveInto(key, into);
  await shown();
  return moved;
}

/** @param {string} key opens another garage of this phone, one of `state.garage.others` */
export async function openGarage(key) {
  await switchTo(key);
  await shown();
}

/** @returns {Promise<Device[]>} the phones of the garage, the eldest first, revoked ones too; for owners */
export async function devices() {
  const { id, token } = await current();
  return (await call('GET', `/garages/${id}/devices`, { token })).answer;
}

/** @param {string} deviceId of a phone that is to be shut out at once; for owners */
export async function revoke(deviceId) {
  const { id, token } = await current();
  await call('DELETE', `/garages/${id}/devices/${deviceId}`, { token });
}

/**
 * Changes what a phone may do; it hears of it at its next sync. For owners.
 * @param {string} deviceId
 * @param {Role} role
 */
export async function changeRole(deviceId, role) {
  const { id, token } = await current();
  await call('PATCH', `/garages/${id}/devices/${deviceId}`, { token, body: { role } });
}

/**
 * Takes this phone out of the shared garage. All records stay on the phone as a
 * garage of its own, unsent work included. For a phone that was revoked, or
 * whose garage is gone, too.
 */
export async function leave() {
  const { key, id, token, device_id, shut } = await current();
  if (!shut) await call('DELETE', `/garages/${id}/devices/${device_id}`, { token });
  await detach(key, newId());
  await shown();
}

/**
 * Deletes the open garage: from the server for everybody, where it is shared,
 * and from this phone. For owners, and for garages on this phone only.
 */
export async function deleteGarage() {
  const { key, id, token, shut } = await current();
  if (token && !shut) await call('DELETE', `/garages/${id}`, { token });
  await forget(key);
  await switchTo('');
  await shown();
}

/** @returns {Promise<{blob: Blob, name: string}>} the open garage as a file, unsent work included; works offline */
export async function exportAll() {
  const now = new Date();
  return { blob: await exported(await current(), now), name: `tautspan-${now.toISOString().slice(0, 10)}.json` };
}

/**
 * Takes the records of a file into the open garage. What is there stays as it
 * is; a record that was removed comes back. The whole file is looked through
 * before any of it is taken in.
 * @param {Blob} file as `exportAll` or the server's export gave it
 * @param {{progress?: import('./import.js').Progress, signal?: AbortSignal}} [options] stopped by the signal, what was
 *   taken in by then stays, and the same file brings in the rest
 * @returns {Promise<{put: number, there: number}>} how many were put, and how many were there already
 */
export async function importFile(file, options = {}) {
  const { key } = await realGarage();
  const count = await lookThrough(file, options);
  try {
    return await takeAll(key, file, count, options);
  } finally {
    await shown();
  }
}

/** @param {string} opId of a rejected operation that is not to be shown any more */
export async function dismiss(opId) {
  const { key } = await current();
  await untilKept(async () => commit(key, (await named(key)).turn, { sent: [opId] }));
  await load();
}

/** Talks to the server now, whatever failed before. */
export function syncNow() {
  return comeBack();
}

/** @returns {Promise<Garage>} the open one, on the disk; another where the invented one is open */
async function realGarage() {
  const garage = await currentKept();
  const real = (await garages()).find(({ key }) => key !== DEMO);
  if (garage.key !== DEMO || !real) return garage;
  await switchTo(real.key);
  return real;
}

/** @param {any} answer of the server to one who joins @returns {Partial<Garage>} */
function joined({ garage_id, device_id, token, role, name }) {
  return { id: garage_id, device_id, token, role, shut: '', ...(name === undefined ? {} : { name }) };
}

/** @param {string} key @returns {Promise<Garage>} */
async function named(key) {
  return /** @type {Promise<Garage>} */ (garageNamed(key));
}

/** @param {string} key @param {Partial<Garage>} garage */
function change(key, garage) {
  return untilKept(async () => commit(key, (await named(key)).turn, { garage }));
}

/** Shows the open garage as it is now, and talks to its server. */
async function shown() {
  await load();
  await refreshAll();
  void comeBack();
  void workAhead();
}
