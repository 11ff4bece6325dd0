/**
 * What the engine says, in the language in use. The engine answers every
 * sentence with its code and the numbers in it; English is shown as it came,
 * another language looks the code up.
 */
import { language } from './language.js';
import { exact, fixed, localised, sentence } from './numbers.js';

/** @typedef {{code: string, values: Record<string, number>}} Code */

/**
 * @param {any} answer of the engine
 * @param {string} name of a list of sentences in it, such as `cautions`
 * @returns {string[]}
 */
export function said(answer, name) {
  const codes = answer[`${name.replace(/s$/, '')}_codes`] ?? [];
  return (answer[name] ?? []).map((/** @type {string} */ text, /** @type {number} */ i) => inWords(codes[i], text));
}

/**
 * @param {any} part of an answer
 * @param {string} name of one sentence in it, such as `why`
 * @returns {string}
 */
export function saidOne(part, name) {
  return inWords(part[`${name}_code`], part[name]);
}

/** @param {{class: string, name: string}} family of chains, as identify names it @returns {string} */
export function familyName(family) {
  return inWords({ code: `class_${family.class}`, values: {} }, family.name);
}

/**
 * @param {Code|undefined} note
 * @param {string} english shown when the language has no text for the code
 * @returns {string} `{name:2}` in the text is the value with two decimals, `{name}` with those it has
 */
export function inWords(note, english) {
  const text = note && language().engine[note.code];
  if (!text) return english;
  return text.replace(/\{(\w+)(?::(\d))?\}/g, (_, name, decimals) => {
    const value = note.values[name];
    return decimals === undefined ? exact(value) : fixed(value, Number(decimals));
  });
}

/**
 * @param {{code: string, message: string}} fault of the engine or the server
 * @returns {string} a sentence
 */
export function faultText({ code, message }) {
  const { messages, codes, terms } = language().faults;
  for (const [english, text] of messages) {
    const values = match(english, message);
    if (values) return sentence(text.replace(/\{(\d)\}/g, (_, i) => terms[values[i]] ?? values[i] ?? ''));
  }
  return codes[code] ? `${codes[code]} (${message}).` : sentence(message);
}

/**
 * @param {string} english a message with {} for what differs
 * @param {string} message
 * @returns {string[]|null} what stood in the braces, numbers in the language's form
 */
function match(english, message) {
  const pattern = english
    .split('{}')
    .map((part) => part.replace(/[.*+?^${}()|[\]\\]/g, '\\$&'))
    .join('(.+?)');
  const found = new RegExp(`^${pattern}$`).exec(message);
  return found && found.slice(1).map((one) => (/^-?\d+\.\d+$/.test(one) ? localised(one) : one));
}
