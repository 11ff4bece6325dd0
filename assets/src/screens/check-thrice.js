/** Measure thrice: three places round the chain, all kept, the longest counts. */
import { html } from 'lit';
import { now } from '../app/store.js';
import { spanDraft, thrice, withSpan } from '../data/draft.js';
import { choice } from '../parts/choice.js';
import { t } from '../words/t.js';
import { change, changeAndEmpty } from './check-actions.js';

/** @param {import('../app/store.js').State} state */
export function places({ draft }) {
  const part = spanDraft(draft);
  if (!part || part.places.length < 2) {
    return html`<button class="button" type="button"
      @click=${() => change(thrice(now().draft, true))}>${t('thrice.start')}</button>`;
  }
  return html`<div class="sheet">
    <div class="places-row">${choice({
      name: 'place',
      title: t('thrice.title'),
      even: true,
      value: part.active,
      options: part.places.map((one, i) => ({
        value: i,
        text: html`<span class="small">${t('thrice.place', { n: i + 1 })}</span><strong>${one ? one.text : t('thrice.empty')}</strong>`,
      })),
      choose: (active) => change(withSpan(now().draft, { active })),
    })}</div>
    <p class="soft small">${t('thrice.hint')}</p>
    <button class="button quiet" type="button" @click=${() => changeAndEmpty(thrice(now().draft, false))}>${t('thrice.stop')}</button>
  </div>`;
}
