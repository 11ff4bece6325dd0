/**
 * What can be done in Round. Every change is on the phone before the screen
 * says so; what is half typed is kept letter by letter.
 */
import { focusLine, focusNext } from '../app/focus.js';
import { now, set } from '../app/store.js';
import { KeepError } from '../data/database.js';
import { save } from '../data/garage.js';
import { keepPerson } from '../data/person.js';
import { START, keepForm, keepStart } from '../data/round-form.js';
import { bikeInAddress, findBikes } from '../data/rounds.js';
import { freeCodes } from '../data/tag-code.js';
import { EngineFault } from '../engine/bridge.js';
import { faultText } from '../words/engine.js';
import { weekday } from '../words/times.js';
import { change } from './check-actions.js';
import { beginRows } from './round-rows.js';

/**
 * @typedef {import('../app/store.js').State} State
 * @typedef {import('../data/rounds.js').Round} Round
 * @typedef {import('../data/rounds.js').Stand} Stand
 * @typedef {import('../data/garage.js').Change} Change
 * @typedef {{what: 'cleared'|'held'|'finished'|'again'|'undone'|'codes'|'codes_short', at: string, name: string, undo: Change[],
 *   draft: import('../data/draft.js').Draft|null}} Done `at`: place and argument
 */

/** @param {Partial<State['round']>} part */
export function setRound(part) {
  set({ round: { ...now().round, ...part } });
}

/** @param {string} name */
export function putPerson(name) {
  set({ person: name, trouble: keepPerson(name) });
}

/** @param {Partial<import('../data/round-form.js').Start>} part */
export function putStart(part) {
  const start = { ...now().round.start, ...part };
  set({ trouble: keepStart(start) });
  setRound({ start });
}

/** @param {Partial<import('../data/round-form.js').Form>} part */
export function putForm(part) {
  const { round, argument } = now();
  const form = { ...round.form, ...part };
  set({ trouble: keepForm(argument, form) });
  setRound({ form });
}

/** @param {string} typed shows only the bikes that match */
export function find(typed) {
  setRound({ find: typed, trouble: '' });
  beginRows();
}

/** Opens the bike that was looked for, when it is the only one. @param {Event} event @param {Round} round */
export function findAndGo(event, round) {
  event.preventDefault();
  const found = foundIn(round, now().round.find);
  if (found.length === 1) goTo(round, found[0].bike.bike_id);
}

/** @type {{of: Stand[], typed: string, stands: Stand[]}} what was looked for last */
let last = { of: [], typed: '', stands: [] };

/** @param {Round} round @param {string} typed @returns {Stand[]} of the bikes that match */
export function foundIn({ stands: of }, typed) {
  if (last.of === of && last.typed === typed) return last.stands;
  const bikes = new Set(
    findBikes(
      of.map(({ bike }) => bike),
      typed,
    ),
  );
  last = { of, typed, stands: of.filter(({ bike }) => bikes.has(bike)) };
  return last.stands;
}

/** @param {Round} round @param {string} bikeId */
function goTo(round, bikeId) {
  find('');
  location.hash = `#/round/${round.id}/${bikeId}`;
}

/**
 * Reads the tag on a photograph with the browser's own reader.
 * @param {Event} event
 * @param {Round} round
 */
export async function scan(event, round) {
  const input = /** @type {HTMLInputElement} */ (event.target);
  const [file] = input.files ?? [];
  input.value = '';
  if (!file) return;
  const id = bikeInAddress(await codeIn(file));
  if (!id) return setRound({ trouble: 'none' });
  if (!round.stands.some(({ bike }) => bike.bike_id === id)) return setRound({ trouble: 'other' });
  goTo(round, id);
}

/** @param {Blob} photo @returns {Promise<string>} the text of the code in it, empty without one */
async function codeIn(photo) {
  try {
    const Detector = /** @type {any} */ (globalThis).BarcodeDetector;
    const picture = await createImageBitmap(photo);
    const [code] = await new Detector({ formats: ['qr_code'] }).detect(picture);
    picture.close();
    return code?.rawValue ?? '';
  } catch {
    return '';
  }
}

/** Starts a round through the picked bikes and goes there. @param {import('../data/rounds.js').Pick} pick */
export async function startRound(pick) {
  const name = now().round.start.name?.trim() || weekday(new Date());
  const ids = await kept([{ table: 'rounds', put: { name, started_at: new Date().toISOString(), ...pick } }]);
  if (!ids) return;
  putStart(START);
  location.hash = `#/round/${ids[0]}`;
}

/** Finishes a round, or takes it up again. @param {Round} round */
export async function finishRound(round) {
  const change = (/** @type {string|null} */ at) => ({
    table: 'rounds',
    record_id: round.id,
    put: { finished_at: at },
  });
  const done = await kept([change(round.finished_at ? null : new Date().toISOString())]);
  if (!done) return;
  scrollTo(0, 0);
  told(round.finished_at ? 'again' : 'finished', `round/${round.id}`, '', [change(round.finished_at ?? null)]);
}

/** Gives every one of these bikes a short code to type. @param {import('../data/rounds.js').Bike[]} bare */
export async function giveCodes(bare) {
  const taken = now().garage?.bikes.map(({ fields }) => fields.tag ?? '') ?? [];
  const codes = freeCodes(taken, bare.length);
  const change = (/** @type {(i: number) => string|null} */ tag) =>
    bare.slice(0, codes.length).map(({ bike_id }, i) => ({ table: 'bikes', record_id: bike_id, put: { tag: tag(i) } }));
  if (await kept(change((i) => codes[i])))
    told(
      codes.length < bare.length ? 'codes_short' : 'codes',
      'tags/',
      '',
      change(() => null),
    );
}

/** Takes back what was done last. */
export async function undo() {
  const { flash } = now().round;
  if (!flash || !(await kept(flash.undo))) return;
  if (flash.draft) change(flash.draft);
  told('undone', flash.at, '', []);
  focusNext('place');
}

/** Opens the browser's print preview. */
export function print() {
  globalThis.print();
}

/**
 * @param {Change[]} changes
 * @returns {Promise<string[]|null>} the records' ids once they are on the disk, null when they could not be kept
 */
export async function kept(changes) {
  try {
    const ids = await save(changes);
    set({ trouble: null });
    return ids;
  } catch (error) {
    if (error instanceof EngineFault) setRound({ fault: faultText(error.fault) });
    else set({ trouble: error instanceof KeepError ? error.reason : 'lost' });
    return null;
  }
}

/**
 * Says what was done, and how to take it back.
 * @param {Done['what']} what
 * @param {string} at the place that says so, with its argument
 * @param {string} name
 * @param {Change[]} undoing
 * @param {Done['draft']} [draft] brought back as well
 */
export function told(what, at, name, undoing, draft = null) {
  setRound({ flash: { what, at, name, undo: undoing, draft }, fault: '' });
  focusLine('undo');
}
