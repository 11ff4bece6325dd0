/** Numbers and dates as the screens write them, in the language in use. */
import { language, locale } from './language.js';

/** @param {string} text a number with a decimal point @returns {string} with the language's decimal sign and a true minus sign */
export function localised(text) {
  return (language().name === 'de' ? text.replace('.', ',') : text).replace('-', '−');
}

/** @param {number} value @returns {string} with the decimals it has */
export function exact(value) {
  return localised(String(value));
}

/**
 * @param {number} value
 * @param {number} decimals
 * @returns {string} halves to even as the engine rounds them, never "−0"
 */
export function fixed(value, decimals) {
  const scale = 10 ** decimals;
  // Only whole multiples of 2^-(decimals + 1) lie exactly halfway; 3.175 in binary does not.
  const half = Number.isInteger(value * 2 ** (decimals + 1)) && Math.abs(value * scale) % 1 === 0.5;
  const even = half ? (2 * Math.round((value * scale) / 2)) / scale : value;
  return localised(even.toFixed(decimals).replace(/^-(0(\.0+)?)$/, '$1'));
}

/** @param {number} value percent @returns {string} two decimals */
export function percent(value) {
  return fixed(value, 2);
}

/** @type {Map<string, Intl.DateTimeFormat>} made once for each language and time zone, for that takes a while */
const formats = new Map();

/**
 * @param {string|number|Date} at RFC 3339, milliseconds, or a date
 * @param {Intl.DateTimeFormatOptions} style
 * @returns {string} in the language in use, where the phone is now
 */
export function dated(at, style) {
  const name = [locale(), new Date().getTimezoneOffset(), ...Object.values(style)].join();
  const format = formats.get(name) ?? new Intl.DateTimeFormat(locale(), style);
  formats.set(name, format);
  return format.format(new Date(at));
}

/** @param {string|number} at RFC 3339 or milliseconds @returns {string} day and time of day */
export function moment(at) {
  return dated(at, { dateStyle: 'medium', timeStyle: 'short' });
}

/** @param {string|number} at RFC 3339 or milliseconds @returns {string} the day alone */
export function day(at) {
  return dated(at, { dateStyle: 'medium' });
}

/** @param {string} text of the engine @returns {string} with a capital and a full stop */
export function sentence(text) {
  return text && `${text[0].toUpperCase()}${text.slice(1)}${/[.!?]$/.test(text) ? '' : '.'}`;
}
