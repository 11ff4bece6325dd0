/** What can be done with a photograph: turning it on, measuring one, using what it gave. */
import { focusNext } from '../app/focus.js';
import { leave } from '../app/leave.js';
import { now, set } from '../app/store.js';
import { withSpan } from '../data/draft.js';
import { PITCH_MM } from '../data/lengths.js';
import { NO_PICTURE, keepPhoto, known } from '../data/photo.js';
import { EngineFault } from '../engine/bridge.js';
import { measurePicture } from '../engine/photo.js';
import { forgetLater, hasLater, keepLater } from '../sync/later.js';
import { faultText } from '../words/engine.js';
import { fixed } from '../words/numbers.js';
import { t } from '../words/t.js';
import { change } from './check-actions.js';

/**
 * @typedef {{x: number, y: number}} Point
 * @typedef {{width: number, height: number, marks: Point[], rivets: (Point & {radius: number, clear: boolean})[]}} Overlay
 * @typedef {{code: string, text: string}} Refusal
 * @typedef {{accepted: boolean, elongation_percent: number|null, standard_uncertainty_percent: number|null,
 *   rivets: number, pitches: number, distance_mm: number|null, tilt_degrees: number|null,
 *   budget: import('../data/request.js').BudgetLine[], refusals: Refusal[], overlay: Overlay}} PhotoAnswer
 * @typedef {import('../data/photo.js').PhotoKept & {kept: ''|'loading'|'yes'|'no', busy: boolean,
 *   picture: ImageBitmap|null, answer: PhotoAnswer|null, fault: string, seen: boolean, taut: boolean, flat: boolean}} Photo
 *   kept: whether it works with no network; seen, taut, flat: what the rider confirmed
 */

/** @param {Partial<Photo>} part */
export function putPhoto(part) {
  set({ photo: { ...now().photo, ...part } });
}

/** @param {Partial<import('../data/photo.js').PhotoKept>} part kept before it is shown */
export function keepAndPut(part) {
  const photo = { ...now().photo, ...part };
  set({ photo, trouble: keepPhoto(photo) });
}

/** @param {boolean} on */
export async function turnPhoto(on) {
  keepAndPut({ on });
  if (on) return load();
  putPhoto({ kept: '', ...NO_PICTURE });
  await forgetLater();
}

/** Gets its files onto the phone, where that is possible. */
async function load() {
  putPhoto({ kept: 'loading' });
  const there = await keepLater();
  if (now().photo.on) putPhoto({ kept: there ? 'yes' : 'no' });
}

/** Looks whether all is there when the place is opened. */
export async function openPhoto() {
  const { on, kept } = now().photo;
  if (!on || kept) return;
  if (await hasLater()) putPhoto({ kept: 'yes' });
  else await load();
}

/** @param {number} index @param {string} text as typed */
export function typeReading(index, text) {
  keepAndPut({ readings: now().photo.readings.map((old, i) => (i === index ? text : old)) });
}

/** @param {any} event of the file's input */
export async function takePicture({ target }) {
  const file = /** @type {File|undefined} */ (target.files?.[0]);
  target.value = '';
  const request = known(now().photo);
  if (!file || !request) return;
  dropPicture();
  putPhoto({ busy: true });
  try {
    const answer = await measurePicture(file, request);
    putPhoto({ busy: false, answer, picture: await shownPicture(file, answer) });
  } catch (error) {
    const fault = error instanceof EngineFault ? faultText(error.fault) : t('photo.crash');
    putPhoto({ ...NO_PICTURE, fault });
  }
  focusNext('photo-result');
}

/** @param {File} file @param {PhotoAnswer} answer @returns {Promise<ImageBitmap|null>} turned as the overlay takes it */
async function shownPicture(file, { overlay }) {
  if (!overlay.marks.length) return null;
  return createImageBitmap(file, { imageOrientation: 'from-image' }).catch(() => null);
}

/** A picture takes some 50 MB: nobody waits for the browser to notice that it is of no use any more. */
export function dropPicture() {
  now().photo.picture?.close();
  putPhoto(NO_PICTURE);
}

/** Takes what the picture gave as the reading on Check; all was confirmed that no picture shows. */
export function usePicture() {
  const { answer, seen, taut, flat } = now().photo;
  if (!answer?.accepted || !seen || !taut || !flat) return;
  const { pitches, elongation_percent, standard_uncertainty_percent, budget } = answer;
  const print = budget.find(({ source }) => source === 'calibration');
  const percent = Number(elongation_percent);
  const place = { text: `${fixed(percent, 2)} %`, mm: pitches * PITCH_MM * (1 + percent / 100) };
  const reading = {
    elongation_percent,
    standard_uncertainty_percent,
    shared_standard_uncertainty_percent: print?.standard_uncertainty_percent,
  };
  change(withSpan({ ...now().draft, instrument: 'photo' }, { pitches, places: [place], active: 0, reading }));
  dropPicture();
  leave('#/check');
}
