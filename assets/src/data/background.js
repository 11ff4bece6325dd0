/** What nobody waits for: summaries left over from a crash, and forecasts, one at a time. */
import { now } from '../app/store.js';
import { answersFor, wanting } from './forecasts.js';
import { dueBike } from './garage-read.js';
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
    const garage = now().garage;
    const next = garage?.bikes.find((bike) => wanting(bike) && !tried.has(bike.bike_id + JSON.stringify(bike.ask)));
    if (!garage || !next?.ask || !next.fitted_chain_id) return;
    tried.add(next.bike_id + JSON.stringify(next.ask));
    await answersFor(next.fitted_chain_id, next.ask, { later: true });
    await dueBike(garage.key, next.bike_id);
  }
}
