/** The mark that stands on every screen while the demo is on, with the way out; demo-offer.js is the way in. */
import { html, nothing } from 'lit';
import { now } from '../app/store.js';
import { leaveDemo } from '../data/demo/leave.js';
import { DEMO } from '../data/garage-state.js';
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

async function leave() {
  location.hash = '#/bikes';
  await leaveDemo();
  forgetBike();
}

/** A reading that was begun for a bike of the other garage goes on without a bike. */
export function forgetBike() {
  const { draft } = now();
  if (draft.bike) change({ ...draft, bike: undefined });
}
