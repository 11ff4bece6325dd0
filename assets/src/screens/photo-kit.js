/** Measuring from a photograph, as it stands in Kit and on Check. */
import { html, nothing } from 'lit';
import { spanDraft } from '../data/draft.js';
import { named, t } from '../words/t.js';
import { turnPhoto } from './photo-actions.js';

/** @typedef {import('../app/store.js').State} State */

/** What is always said about it. */
export const proof = () => html`<p class="notice photo-proof">${t('photo.proof')}</p>`;

/** Kit's part. @param {State} state */
export function photoSection({ photo: { on, kept } }) {
  return html`<section class="sheet"><h2>${t('photo.title')}</h2>
    <p>${t('photo.kit')}</p>
    ${proof()}
    <p role="status">${on && kept ? named('photo.kept', kept) : ''}</p>
    <button class="button" type="button" aria-pressed=${on ? 'true' : 'false'} @click=${() => turnPhoto(!on)}>${t(on ? 'photo.off' : 'photo.on')}</button>
    ${on ? html`<a class="button quiet" href="#/photo">${t('photo.open')}</a>` : nothing}</section>`;
}

/** Check's part. @param {State} state */
export function photoReading({ draft }) {
  const part = /** @type {import('../data/draft.js').SpanDraft} */ (spanDraft(draft));
  const [one] = part.places;
  return html`<section class="sheet">
    <p>${one ? t('photo.done', { percent: one.text, pitches: part.pitches }) : t('photo.ready')}</p>
    ${proof()}
    ${one ? html`<a class="button" href="#/photo">${t('photo.again')}</a>` : nothing}
  </section>`;
}

/** Check's main action while nothing is measured. */
export const photoOpen = () => html`<a class="button main" href="#/photo">${t('photo.take')}</a>`;
