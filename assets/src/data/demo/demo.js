/**
 * The demo as a garage of its own on this phone. It goes the way every change
 * goes, `save`, but never to a server and never into another garage.
 */
import { DEMO, currentKept, fresh, switchTo } from '../garage-state.js';
import { addGarage, forget as forgetGarage } from '../garage-store.js';
import { save } from '../garage.js';
import { keep } from '../local.js';
import { SEED, invent } from './invent.js';
import { BEFORE } from './leave.js';

/**
 * Makes the demo and opens it.
 * @param {string} name of the garage
 * @param {import('./invent.js').Words} words
 * @param {(done: number, of: number) => void} progress
 * @returns {Promise<boolean>} false when the rider left it meanwhile
 */
export async function makeDemo(name, words, progress) {
  const { key } = await currentKept(); // so that there is a garage to go back to
  if (key !== DEMO) keep(BEFORE, { key });
  await forgetGarage(DEMO);
  await addGarage({ ...fresh(), key: DEMO, name });
  await switchTo(DEMO);
  const parts = invent(SEED, Date.now(), words);
  for (const [i, part] of parts.entries()) {
    progress(i, parts.length);
    const kept = await save(part, DEMO);
    if (!kept.length) return false;
  }
  return true;
}
