/**
 * Two tabs of one phone. Locks keep them out of each other's way where the
 * browser has them (secure pages only); what must be right without them too is
 * made sure of by `commit`.
 */

/** @type {Map<string, Promise<unknown>>} the work under way in this tab, by name */
const turns = new Map();

/**
 * Does one piece of work at a time, in all tabs.
 * @template T
 * @param {string} name
 * @param {() => Promise<T>} work
 * @returns {Promise<T>}
 */
export function inTurn(name, work) {
  if (navigator.locks) return navigator.locks.request(`tautspan-${name}`, work);
  const mine = (turns.get(name) ?? Promise.resolve()).then(work, work);
  turns.set(
    name,
    mine.catch(() => {}),
  );
  return mine;
}

/**
 * Works out a change of a garage and keeps it, anew whenever another tab was
 * quicker.
 * @param {() => Promise<number>} attempt gives what `commit` gave
 * @returns {Promise<number>} the garage's turn
 */
export function untilKept(attempt) {
  return inTurn('records', async () => {
    for (;;) {
      const turn = await attempt();
      if (turn) return turn;
    }
  });
}

const channel = 'BroadcastChannel' in globalThis ? new BroadcastChannel('tautspan-garage') : null;

/** Says to the other tabs that the garage has changed. */
export function tellTabs() {
  channel?.postMessage('changed');
}

/** @param {() => void} listener called when another tab has changed the garage */
export function watchTabs(listener) {
  channel?.addEventListener('message', listener);
}
