/** What nobody waits for: summaries left over from a crash, and forecasts, one at a time. */
import { now } from '../app/store.js';
import { answersFor, wanting } from './forecasts.js';
import { dueBike, keptAsk } from './garage-read.js';
import { refreshAll } from './refresh.js';
import { inTurn } from './tabs.js';

let running = false;

/** Works until nothing is left, then ends; may be called at any time. */
export async function workAhead() {
  if (running) return;
  running = true;
  try {
    await inTurn('background', work);
  } catch (error) {
    console.warn(error); // an engine that ended is told where it is asked; what is left is done later
  } finally {
    running = false;
  }
}

async function work() {
  const tried = new Set();
  for (;;) {
    await refreshAll();
    const { garage } = now();
    const next = garage && (await wanted(garage, tried));
    if (!next) return;
    if (next.ask) await answersFor(next.chain, next.ask, { later: true });
    await dueBike(garage.key, next.bike); // without a question its summary is of an older version
  }
}

/**
 * @param {import('./garage.js').GarageState} garage
 * @param {Set<string>} tried what was worked out already
 * @returns {Promise<{bike: string, chain: string, ask: import('./forecasts.js').Ask|null}|null>} what to ask next
 */
async function wanted({ key, bikes }, tried) {
  for (const { bike_id: bike, fitted_chain_id: chain } of bikes.filter(wanting)) {
    const ask = await keptAsk(key, bike);
    const name = bike + JSON.stringify(ask);
    if (!chain || tried.has(name)) continue;
    tried.add(name);
    return { bike, chain, ask };
  }
  return null;
}
