/** The way into the demo. */
import { html, nothing } from 'lit';
import { now, set } from '../app/store.js';
import { makeDemo } from '../data/demo/demo.js';
import { leaveDemo } from '../data/demo/leave.js';
import { day } from '../words/numbers.js';
import { t } from '../words/t.js';
import { forgetBike, inDemo } from './demo.js';

/** @typedef {import('../app/store.js').State} State */

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
