/** The way out of the demo. */
import { DEMO, switchTo } from '../garage-state.js';
import { forget as forgetGarage } from '../garage-store.js';
import { forget, recall } from '../local.js';

/** Where the way back is kept. */
export const BEFORE = 'before-demo';

/** Goes back to the rider's own garage, then does away with the demo. */
export async function leaveDemo() {
  await switchTo(recall(BEFORE, { key: 'own' }).key);
  await forgetGarage(DEMO);
  forget(BEFORE);
}
