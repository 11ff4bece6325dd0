/** What each role may write; the engine and the server hold the same table. */

/** @typedef {'owner'|'leader'|'checker'|'viewer'} Role */

/** Tables a checker may add to; a leader and an owner write to all. */
const CHECKERS = ['readings', 'distances', 'care', 'round_checks'];

/**
 * @param {string|undefined} role
 * @param {string} table
 * @returns {boolean} whether it may add records there
 */
export function mayAdd(role, table) {
  return mayLead(role) || (role === 'checker' && CHECKERS.includes(table));
}

/** @param {string|undefined} role @returns {boolean} whether it may change and remove whatever anybody added */
export function mayLead(role) {
  return role === 'owner' || role === 'leader';
}
