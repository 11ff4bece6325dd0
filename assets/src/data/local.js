/**
 * Small things that must be on the phone before the screen shows them: the
 * draft and the settings. localStorage, because it writes before it returns.
 */

/** @typedef {'full'|'refused'|'newer'|'blocked'|'lost'} Trouble why the phone does not keep something */

const PREFIX = 'tautspan.';

/**
 * @template T
 * @param {string} name
 * @param {T} fallback used when nothing readable is kept; also gives fields a kept object lacks
 * @returns {T}
 */
export function recall(name, fallback) {
  try {
    const kept = JSON.parse(localStorage.getItem(PREFIX + name) ?? 'null');
    return kept && typeof kept === 'object' ? { ...fallback, ...kept } : fallback;
  } catch {
    return fallback;
  }
}

/**
 * @param {string} name
 * @param {object} value
 * @returns {Trouble|null} null when it is kept
 */
export function keep(name, value) {
  try {
    localStorage.setItem(PREFIX + name, JSON.stringify(value));
    return null;
  } catch (error) {
    return trouble(error);
  }
}

/** @param {string} name of what need not be recalled any more */
export function forget(name) {
  try {
    localStorage.removeItem(PREFIX + name);
  } catch {
    // a browser that keeps nothing has nothing to forget
  }
}

/**
 * @param {unknown} error as thrown by localStorage or IndexedDB
 * @returns {Trouble}
 */
export function trouble(error) {
  const name = error instanceof DOMException ? error.name : '';
  if (name === 'QuotaExceededError') return 'full';
  if (name === 'VersionError') return 'newer';
  if (name === 'SecurityError' || name === 'NotAllowedError') return 'refused';
  return 'lost';
}
