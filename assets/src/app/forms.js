/**
 * Half-filled forms. Each is kept under a name of its own, on the phone before
 * the screen shows it, and is forgotten once what it says is saved or given up.
 */
import { keep } from '../data/local.js';
import { now, set } from './store.js';

/** @typedef {Record<string, any>} Form */

/** So many are kept; the one left alone for longest is forgotten first. */
const MOST = 40;

/**
 * @template {Form} F
 * @param {import('./store.js').State} state
 * @param {string} name
 * @param {F} empty
 * @returns {F} what is filled in, over what is not
 */
export function form(state, name, empty) {
  return { ...empty, ...state.forms[name] };
}

/** @param {string} name @param {Form} part changed */
export function fill(name, part) {
  const { [name]: old, ...others } = now().forms;
  put(Object.fromEntries([...Object.entries(others), [name, { ...old, ...part }]].slice(-MOST)));
}

/** @param {string} name of a form that is done with */
export function drop(name) {
  const { [name]: old, ...others } = now().forms;
  if (old) put(others);
}

/** @param {Record<string, Form>} forms */
function put(forms) {
  set({ forms, trouble: keep('forms', forms) });
}
