/**
 * The language in use. English is built in; another one is a file of its own,
 * fetched before the first drawing and kept for offline like the rest.
 */
import { english } from './en.js';

/**
 * @typedef {'en'|'de'} Name
 * @typedef {{name: Name, words: Record<string, string>[], engine: Record<string, string>,
 *   faults: {messages: [english: string, text: string][], codes: Record<string, string>,
 *   terms: Record<string, string>}}} Language `engine` has the texts of the engine's codes and
 *   `faults` those of its errors; English needs neither, the engine speaks it
 */

/** @type {Language} */
export const ENGLISH = { name: 'en', words: english, engine: {}, faults: { messages: [], codes: {}, terms: {} } };

let current = ENGLISH;

/** The BCP 47 tag whose dates are written. */
let tag = 'en';

/** @returns {Language} */
export function language() {
  return current;
}

/** @returns {string} for Intl: the rider's own region where it goes with the language, else the language */
export function locale() {
  return tag;
}

/** @param {Language} next @param {readonly string[]} [wanted] the browser's languages, best first */
export function speak(next, wanted = []) {
  current = next;
  tag = wanted.find((one) => one.split('-')[0] === next.name) ?? next.name;
}

/**
 * @param {'system'|Name} choice of the rider
 * @param {readonly string[]} wanted the browser's languages, best first
 * @returns {Name} the first of them there are texts for, else English
 */
export function pick(choice, wanted) {
  if (choice !== 'system') return choice;
  const [first] = wanted.map((one) => one.split('-')[0]).filter((one) => one === 'en' || one === 'de');
  return first === 'de' ? 'de' : 'en';
}
