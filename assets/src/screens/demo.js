/** The demo: the way in, and the mark that stands on every screen while it is on. */
import { html, nothing } from 'lit';
import { now, set } from '../app/store.js';
import { leaveDemo, makeDemo } from '../data/demo/demo.js';
import { DEMO } from '../data/garage-state.js';
import { day } from '../words/numbers.js';
import { t } from '../words/t.js';
import { change } from './check-actions.js';

/** @typedef {import('../app/store.js').State} State */

/** @param {State} state @returns {boolean} whether what is on the screen is invented */
export function inDemo({ garage }) {
  return garage?.key === DEMO;
}

/** @param {State} state */
export function demoMark(state) {
  if (!inDemo(state)) return nothing;
  const { demo } = state;
  return html`<aside class="demo-mark" aria-label=${t('demo.mark')}>
    <p><strong>${t('demo.mark')}</strong> <span class="small" role="status">${
      demo ? t('demo.making', demo) : t('demo.mark.text')
    }</span></p>
    <button class="button" type="button" @click=${leave}>${t('demo.leave')}</button></aside>`;
}

/** @param {State} state the same for places that have the whole window: words alone */
export function demoNote(state) {
  return inDemo(state)
    ? html`<aside class="demo-note small" aria-label=${t('demo.mark')}>${t('demo.mark')}</aside>`
    : nothing;
}

/** @param {State} state the way in, for places that are still empty */
export function demoOffer(state) {
  if (inDemo(state)) return nothing;
  return html`<section class="sheet"><p>${t('demo.offer.text')}</p>
    <button class="button" type="button" @click=${enter}>${t('demo.offer')}</button>
    ${state.demoFailed ? html`<p class="fault" role="alert">${t('demo.failed')}</p>` : nothing}</section>`;
}

async function enter() {
  if (now().demo) return;
  set({ demo: { done: 0, of: 1 }, demoFailed: false });
  try {
    const say = (/** @type {string} */ key, /** @type {Record<string, string>|undefined} */ values) =>
      t(/** @type {import('../words/t.js').Word} */ (`demo.${key}`), values);
    location.hash = '#/bikes';
    forgetBike();
    await makeDemo(t('demo.mark'), { say, day }, (done, of) => set({ demo: { done, of } }));
  } catch (error) {
    console.warn(error);
    await leaveDemo().catch(() => {});
    set({ demoFailed: true });
  } finally {
    set({ demo: null });
  }
}

async function leave() {
  location.hash = '#/bikes';
  await leaveDemo();
  forgetBike();
}

/** A reading that was begun for a bike of the other garage goes on without a bike. */
function forgetBike() {
  const { draft } = now();
  if (draft.bike) change({ ...draft, bike: undefined });
}
