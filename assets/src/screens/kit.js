/** Kit: units, light, what is on this phone, and what to be careful about. */
import { html, nothing } from 'lit';
import { install } from '../app/install.js';
import { askToPersist } from '../app/storage.js';
import { now, set } from '../app/store.js';
import { applyLanguage } from '../app/speech.js';
import { applyTheme } from '../app/theme.js';
import { emptyDraft, entered } from '../data/draft.js';
import { keepSettings } from '../data/settings.js';
import { choice } from '../parts/choice.js';
import { agree } from '../sync/updates.js';
import { build } from '../sync/build.js';
import { fixed } from '../words/numbers.js';
import { list, named, t } from '../words/t.js';
import { change } from './check-actions.js';
import { demoOffer } from './demo.js';
import { glassSection } from './glass-kit.js';

/**
 * @typedef {import('../app/store.js').State} State
 * @typedef {import('../data/settings.js').Settings} Settings
 */

/** @param {State} state */
export function kit(state) {
  const { settings } = state;
  return {
    body: html`<div class="sheets">
      <h1>${t('kit.title')}</h1>
      ${demoOffer(state)}
      <section class="sheet">${choice({
        name: 'units',
        title: t('kit.units'),
        even: true,
        value: settings.units,
        options: /** @type {const} */ (['mixed', 'metric', 'imperial']).map((value) => ({
          value,
          text: named('kit.units', value),
        })),
        choose: chooseUnits,
      })}<p class="soft small">${t('kit.units.hint')}</p></section>
      <section class="sheet">${choice({
        name: 'language',
        title: t('kit.language'),
        even: true,
        value: settings.language,
        options: /** @type {const} */ (['system', 'en', 'de']).map((value) => ({
          value,
          text: named('kit.language', value),
        })),
        choose: chooseLanguage,
      })}</section>
      <section class="sheet">${choice({
        name: 'theme',
        title: t('kit.theme'),
        even: true,
        value: settings.theme,
        options: /** @type {const} */ (['system', 'light', 'dark']).map((value) => ({
          value,
          text: named('kit.theme', value),
        })),
        choose: (theme) => put({ theme }),
      })}</section>
      <section class="sheet"><h2>${t('kit.offline')}</h2>
        <p role="status">${named('kit.offline', state.offline === 'ready' && !state.online ? 'off' : state.offline)}</p>
        ${state.offline === 'insecure' ? html`<p><a href="/https">${t('kit.offline.how')}</a></p>` : nothing}</section>
      ${
        state.installable
          ? html`<section class="sheet"><p>${t('kit.install.text')}</p>
        <button class="button" type="button" @click=${install}>${t('kit.install')}</button></section>`
          : nothing
      }
      ${glassSection()}
      ${storage(state)}
      <section class="sheet"><h2>${t('kit.version')}</h2>
        <p>${t('kit.version.text', { version: build.version })}</p>
        ${
          state.update === 'none'
            ? nothing
            : html`<p>${t('update.text')}</p>
          <button class="button" type="button" @click=${agree}>${t('update.now')}</button>`
        }</section>
      <section class="sheet"><h2>${t('kit.about')}</h2>
        ${list('kit.about', {}).map((text) => html`<p>${text}</p>`)}</section>
    </div>`,
    bench: nothing,
  };
}

/** @param {Partial<Settings>} part */
function put(part) {
  const settings = { ...now().settings, ...part };
  set({ settings, trouble: keepSettings(settings) });
  applyTheme(settings.theme);
}

/** @param {Settings['language']} language */
async function chooseLanguage(language) {
  put({ language });
  await applyLanguage(language);
  set({}); // every text is drawn anew
}

/** @param {Settings['units']} units the marks follow, unless a reading is being taken */
function chooseUnits(units) {
  put({ units });
  const { draft } = now();
  if (entered(draft)) return;
  const { rule, compare } = emptyDraft(units);
  change({ ...draft, rule, compare });
}

/** @param {State} state */
function storage({ persisted, estimate }) {
  const state = persisted === null ? 'unknown' : persisted ? 'yes' : 'no';
  return html`<section class="sheet"><h2>${t('kit.storage')}</h2>
    <p role="status">${named('kit.storage', state)}</p>
    ${estimate ? html`<p class="number">${t('kit.storage.used', { used: size(estimate.used), quota: size(estimate.quota) })}</p>` : nothing}
    ${state === 'no' ? html`<button class="button" type="button" @click=${askToPersist}>${t('kit.storage.ask')}</button>` : nothing}
    <a class="button" href="#/kept">${t('keep.see')}</a></section>`;
}

/** @param {number} bytes */
function size(bytes) {
  return bytes < 1e9 ? `${fixed(bytes / 1e6, 1)} MB` : `${fixed(bytes / 1e9, 0)} GB`;
}
