/** The part of the state for work on one bike: a reading to keep, a change of chain, shopping, costs. */

/**
 * @typedef {{work: import('../screens/bike-work.js').Work|null, changing: import('../data/chain-change.js').Draft|null,
 *   keeping: import('../screens/keep-actions.js').Keeping|null, loose: import('../data/kept.js').Kept|null,
 *   prices: import('../data/cost-request.js').Prices,
 *   refused: string, keptId: string, fitSaved: string}} WorkState loose: the reading to be given to a bike, where it is none of
 *   Check's; refused: why something was not kept; keptId: the reading kept last
 */

/** @type {WorkState} */
export const NO_WORK = {
  work: null,
  changing: null,
  keeping: null,
  loose: null,
  prices: { currency: '', chain: '', sprockets: '', chainring: '' },
  refused: '',
  keptId: '',
  fitSaved: '',
};
