/** How the app looks and speaks: units, language, light or dark. */
import { html } from 'lit';
import { now, set } from '../app/store.js';
import { applyLanguage } from '../app/speech.js';
import { applyTheme } from '../app/theme.js';
import { emptyDraft, entered } from '../data/draft.js';
import { keepSettings } from '../data/settings.js';
import { choice } from '../parts/choice.js';
import { named, t } from '../words/t.js';
import { change } from './check-actions.js';

/** @typedef {import('../data/settings.js').Settings} Settings */

const UNITS = /** @type {const} */ (['mixed', 'metric', 'imperial']);
const LANGUAGES = /** @type {const} */ (['system', 'en', 'de']);
const THEMES = /** @type {const} */ (['system', 'light', 'dark']);

/** @param {import('../app/store.js').State} state */
export function settingsSheets({ settings }) {
  return html`<section class="sheet">${chips('units', UNITS, settings.units, chooseUnits)}
      <p class="soft small">${t('kit.units.hint')}</p></section>
    <section class="sheet">${chips('language', LANGUAGES, settings.language, chooseLanguage)}</section>
    <section class="sheet">${chips('theme', THEMES, settings.theme, (theme) => put({ theme }))}</section>`;
}

/**
 * @template {string} T
 * @param {'units'|'language'|'theme'} name
 * @param {readonly T[]} values
 * @param {T} value
 * @param {(value: T) => void} choose
 */
function chips(name, values, value, choose) {
  const options = values.map((one) => ({ value: one, text: named(`kit.${name}`, one) }));
  return choice({ name, title: named('kit', name), even: true, value, options, choose });
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
