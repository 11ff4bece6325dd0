/** Looks texts up in the catalogue of the language in use. */
import { english } from './en.js';
import { language } from './language.js';
import { exact } from './numbers.js';

/**
 * @template Catalogue
 * @typedef {Catalogue extends any ? keyof Catalogue : never} KeyOf
 */
/** @typedef {KeyOf<typeof english[number]>} Word a name in any of the catalogues */

/** @param {Record<string, string>[]} catalogues @param {string} key @returns {string|undefined} */
function find(catalogues, key) {
  return catalogues.find((one) => key in one)?.[key];
}

/**
 * @param {Word} word where n is 1, the text of `word.one` is taken if there is one
 * @param {Record<string, string|number>} [values] for the braces in the text; numbers get the
 *   language's decimal sign
 * @returns {string}
 */
export function t(word, values = {}) {
  const key = values.n === 1 && find(english, `${word}.one`) ? `${word}.one` : word;
  const text = /** @type {string} */ (find(language().words, key) ?? find(english, key));
  return text.replace(/\{(\w+)\}/g, (_, name) => shown(values[name]));
}

/** @param {string|number} value */
function shown(value) {
  return typeof value === 'number' ? exact(value) : String(value);
}

/**
 * @param {string} group
 * @param {string} name
 * @returns {string} the text of `group.name`, for words chosen by a code
 */
export function named(group, name) {
  return t(/** @type {Word} */ (`${group}.${name}`));
}

/**
 * @param {string} group
 * @param {Record<string, string|number>} values
 * @returns {string[]} the texts of `group.1`, `group.2` and so on
 */
export function list(group, values) {
  const all = [];
  for (let i = 1; find(english, `${group}.${i}`); i++) all.push(t(/** @type {Word} */ (`${group}.${i}`), values));
  return all;
}
