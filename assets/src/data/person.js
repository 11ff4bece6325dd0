/** Who holds this phone: the name that stands beside what is entered here. */
import { keep, recall } from './local.js';

const NOBODY = { name: '' };

/** What a record takes as `by`. */
export const MOST = 80;

/** @returns {string} the name, empty until it is given */
export function recallPerson() {
  const { name } = recall('person', NOBODY);
  return typeof name === 'string' ? name.slice(0, MOST) : '';
}

/**
 * @param {string} name
 * @returns {import('./local.js').Trouble|null} null when it is kept
 */
export function keepPerson(name) {
  return keep('person', { name: name.slice(0, MOST) });
}
