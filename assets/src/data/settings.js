/** What the rider chose once for this phone. */
import { keep, recall } from './local.js';

/**
 * @typedef {{units: 'mixed'|'metric'|'imperial', theme: 'system'|'light'|'dark',
 *   language: 'system'|import('../words/language.js').Name}} Settings
 */

/** @type {Settings} */
const DEFAULTS = { units: 'mixed', theme: 'system', language: 'system' };

const ALLOWED = {
  units: ['mixed', 'metric', 'imperial'],
  theme: ['system', 'light', 'dark'],
  language: ['system', 'en', 'de'],
};

/** @returns {Settings} as kept, anything unknown replaced by its default */
export function recallSettings() {
  const { units, theme, language } = recall('settings', DEFAULTS);
  return {
    units: ALLOWED.units.includes(units) ? units : DEFAULTS.units,
    theme: ALLOWED.theme.includes(theme) ? theme : DEFAULTS.theme,
    language: ALLOWED.language.includes(language) ? language : DEFAULTS.language,
  };
}

/** @param {Settings} settings */
export function keepSettings(settings) {
  return keep('settings', settings);
}
