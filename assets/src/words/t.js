/** Looks texts up in the catalogue of the language in use. */
import en from './en.js';
import { language } from './language.js';
import { exact } from './numbers.js';

/** @typedef {keyof typeof en} Word */

/**
 * @param {Word} word where n is 1, the text of `word.one` is taken if there is one
 * @param {Record<string, string|number>} [values] for the braces in the text; numbers get the
 *   language's decimal sign
 * @returns {string}
 */
export function t(word, values = {}) {
  const single = /** @type {Word} */ (`${word}.one`);
  const key = values.n === 1 && single in en ? single : word;
  const text = language().words[key] ?? en[key];
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
  for (let i = 1; `${group}.${i}` in en; i++) all.push(t(/** @type {Word} */ (`${group}.${i}`), values));
  return all;
}
