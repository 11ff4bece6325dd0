/** Fit. */
import '../app/shell.js';
import { evaluateFit } from '../screens/fit-actions.js';
import { fit } from '../screens/fit.js';

/** @type {import('../app/router.js').Shown} */
export const places = { fit: { screen: fit, open: evaluateFit } };
