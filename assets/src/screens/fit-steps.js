/** Fitting the chain of the open question, step by step. */
import { now } from '../app/store.js';
import { fittingSteps } from '../parts/fitting-steps.js';
import { putSteps } from './fit-actions.js';

/**
 * @param {import('../app/store.js').State} state
 * @param {import('../parts/fitting-steps.js').Kind} kind
 * @param {number} n pitches of the finished chain
 * @param {boolean} half it has a half link
 */
export function steps({ fit }, kind, n, half) {
  return fittingSteps({ kind, n, half, closure: fit.steps.closure, done: () => now().fit.steps.done, put: putSteps });
}
