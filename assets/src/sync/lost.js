/** What a server that was set back has lost of a record. Pure. */

/**
 * @typedef {import('../data/garage.js').EngineRow} EngineRow
 * @typedef {{role: string, device_id: string, former?: string[]}} Teller `former`: its ids from before it joined again
 * @typedef {{put?: Record<string, any>, remove?: true, whole?: boolean, hlc: string, device_id: string}} Again
 */

/** Clock and device of a stamp: what one made at one time, under whatever id it is told. @param {string} [stamp] */
const made = (stamp = '') => stamp.slice(0, 66);

/**
 * @param {EngineRow} knew what the server had
 * @param {EngineRow|undefined} base what it has now
 * @returns {{fields: string[], hidden: boolean}} those it does not have as late, and whether it does not know a remove
 */
function lost(knew, base) {
  const fields = Object.keys(knew.stamps).filter((name) => made(knew.stamps[name]) > made(base?.stamps[name]));
  return { fields, hidden: knew.removed === true && made(knew.removed_at) > made(base?.removed_at) };
}

/**
 * Owners and leaders tell everything, in the name of who made it; others the
 * records they had a hand in, in their own name: nobody may speak for another.
 * @param {EngineRow} knew
 * @param {EngineRow|undefined} base
 * @param {Teller} teller
 * @returns {Again[]} what to tell, in its order, with the clocks of then; a record the server has nothing of begins with
 *   all its fields, which later ones beat
 */
export function toTell(knew, base, { role, device_id, former = [] }) {
  const leads = role === 'owner' || role === 'leader';
  const authors = Object.values(knew.stamps).map((stamp) => stamp.slice(30, 66));
  if (!leads && !authors.some((author) => [device_id, ...former].includes(author))) return [];
  const { fields, hidden } = lost(knew, base);
  /** @type {Map<string, Record<string, any>>} */
  const puts = new Map();
  for (const when of fields.map((name) => made(knew.stamps[name])).sort()) {
    puts.set(when, base || puts.size ? {} : { ...knew.fields });
  }
  for (const name of fields) Object.assign(puts.get(made(knew.stamps[name])) ?? {}, { [name]: knew.fields[name] });
  const by = (/** @type {string} */ when) => ({
    hlc: when.slice(0, 29),
    device_id: leads ? when.slice(30) : device_id,
  });
  /** @type {Again[]} */
  const changes = [...puts].map(([when, put]) => ({ put, whole: !base, ...by(when) }));
  return hidden ? [...changes, { remove: true, ...by(made(knew.removed_at)) }] : changes;
}

/**
 * @param {EngineRow} knew
 * @param {EngineRow|undefined} base
 * @returns {EngineRow} what the server has and what it lost: for what this phone may not tell, and keeps
 */
export function kept(knew, base) {
  if (!base) return knew;
  const { fields, hidden } = lost(knew, base);
  const late = { ...base, fields: { ...base.fields }, stamps: { ...base.stamps } };
  for (const name of fields) {
    late.fields[name] = knew.fields[name];
    late.stamps[name] = knew.stamps[name];
  }
  return hidden ? { ...late, removed_at: knew.removed_at } : late;
}
