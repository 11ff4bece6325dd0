/** The screen as a rule, as it stands in Kit and on Check. */
import { html, nothing } from 'lit';
import { spanDraft } from '../data/draft.js';
import { SPANS } from '../data/glass.js';
import { day, percent } from '../words/numbers.js';
import { named, t } from '../words/t.js';
import { calibration, glassStands } from './glass-actions.js';

/** @returns {string} whether this screen may measure, in words */
export function glassWords() {
  const made = calibration();
  const stands = glassStands();
  if (stands === 'zoomed' || !made) return named('glass.kit', made ? stands : stands === 'zoomed' ? 'zoomed' : 'none');
  const words = {
    when: day(made.at),
    against: named('glass.against', made.against),
    percent: percent((100 * made.standard_uncertainty) / made.px_per_mm),
  };
  return t(stands === 'ok' ? 'glass.kit.ok' : 'glass.kit.changed', words);
}

/** Kit's part: how it stands, and the two ways to set it. */
export function glassSection() {
  return html`<section class="sheet"><h2>${t('glass.title')}</h2>
    <p role="status">${glassWords()}</p>
    <a class="button" href="#/glass/rule">${t('glass.set.rule')}</a>
    <a class="button quiet" href="#/glass/card">${t('glass.set.card')}</a>
    <p class="soft small">${t('glass.set.hint')}</p></section>`;
}

/** Check's part. @param {import('../app/store.js').State} state */
export function glassReading({ draft }) {
  const part = /** @type {import('../data/draft.js').SpanDraft} */ (spanDraft(draft));
  const [one] = part.places;
  if (glassStands() !== 'ok' && !one) return glassSection();
  return html`<section class="sheet">
    <p>${one ? t('glass.check.done', { n: SPANS, pitches: part.pitches, span: one.text }) : t('glass.check.ready')}</p>
    ${one ? html`<a class="button" href="#/glass">${t('glass.check.again')}</a>` : nothing}
  </section>`;
}

/** Check's main action while nothing is measured. */
export function glassOpen() {
  return glassStands() === 'ok'
    ? html`<a class="button main" href="#/glass">${t('glass.check.open')}</a>`
    : html`<a class="button main" href="#/glass/rule">${t('glass.set.rule')}</a>`;
}
