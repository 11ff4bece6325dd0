/**
 * Chains on and off a bike. A chain that leaves the bike keeps what it has run
 * as `km_before` and has no `fitted_at_km` any more, so that no later change of
 * another chain moves its distance.
 */

/**
 * @typedef {{table: string, record_id?: string, put?: Record<string, any>, remove?: true}} Change as `save` takes it
 * @typedef {{chain_id: string, place: 'on_bike'|'resting'|'retired', km: number}} ChainState as the engine's `garage` gives it
 * @typedef {{km: number, fitted_chain_id?: string|null, chains: ChainState[]}} BikeState as the engine's `garage` gives it
 * @typedef {{record_id: string, fields: Record<string, any>}} ChainRow
 */

/** @param {number} km @returns {number} to the metre, as the records keep it */
export function metre(km) {
  return Math.round(km * 1000) / 1000;
}

/** @param {ChainState} chain @param {string} [retired_at] @returns {Change} */
function off({ chain_id, km }, retired_at) {
  const put = { fitted_at_km: null, km_before: metre(km) };
  return { table: 'chains', record_id: chain_id, put: retired_at ? { ...put, retired_at } : put };
}

/**
 * Every chain that is recorded as put on but is not on the bike any more,
 * because another was put on after it. Before that other one is moved, what
 * they ran is written down, or they would run on until the next one.
 * @param {Pick<BikeState, 'chains'>} bike
 * @param {ChainRow[]} rows
 * @returns {Change[]}
 */
export function settled({ chains }, rows) {
  const put = new Set(rows.filter((row) => typeof row.fields.fitted_at_km === 'number').map((row) => row.record_id));
  return chains.filter((chain) => chain.place !== 'on_bike' && put.has(chain.chain_id)).map((chain) => off(chain));
}

/** @param {BikeState} bike @param {ChainRow[]} rows @returns {Change[]} the chain on the bike rests */
export function rest(bike, rows) {
  const fitted = bike.chains.find((chain) => chain.place === 'on_bike');
  return [...settled(bike, rows), ...(fitted ? [off(fitted)] : [])];
}

/**
 * @param {BikeState} bike
 * @param {ChainRow[]} rows
 * @param {string} chain_id of the bike, wherever it is
 * @param {string} retired_at RFC 3339
 * @returns {Change[]} it is taken off for good
 */
export function retire(bike, rows, chain_id, retired_at) {
  const chain = bike.chains.find((one) => one.chain_id === chain_id);
  return [
    ...settled(bike, rows).filter((change) => change.record_id !== chain_id),
    ...(chain ? [off(chain, retired_at)] : []),
  ];
}

/**
 * @param {BikeState} bike
 * @param {ChainRow[]} rows
 * @param {string} chain_id of the bike, off it until now
 * @returns {Change[]} it is put on; the one on the bike rests
 */
export function putOn(bike, rows, chain_id) {
  const chain = bike.chains.find((one) => one.chain_id === chain_id);
  if (!chain || chain.place === 'on_bike') return [];
  return [
    ...rest(bike, rows).filter((change) => change.record_id !== chain_id),
    {
      table: 'chains',
      record_id: chain_id,
      put: { fitted_at_km: metre(bike.km), km_before: metre(chain.km), retired_at: null },
    },
  ];
}
