/** Looks texts up in the catalogue. Another language is another catalogue. */
import en from './en.js';

/** @typedef {keyof typeof en} Word */

/**
 * @param {Word} word
 * @param {Record<string, string|number>} [values] for the braces in the text
 * @returns {string}
 */
export function t(word, values = {}) {
  return en[word].replace(/\{(\w+)\}/g, (_, name) => String(values[name]));
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
