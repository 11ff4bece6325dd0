/** The language the app speaks: the phone's unless the rider says otherwise. */
import { ENGLISH, pick, speak } from '../words/language.js';

/**
 * Fetches the texts where they are not built in. A phone that cannot is spoken
 * to in English until the next start.
 * @param {import('../data/settings.js').Settings['language']} choice
 */
export async function applyLanguage(choice) {
  const name = pick(choice, navigator.languages);
  document.documentElement.lang = name;
  const next = name === 'de' ? await german() : ENGLISH;
  speak(next, navigator.languages);
  document.documentElement.lang = next.name;
}

/** @returns {Promise<import('../words/language.js').Language>} */
async function german() {
  try {
    return (await import('../words/de.js')).german;
  } catch (error) {
    console.error(error);
    return ENGLISH;
  }
}
