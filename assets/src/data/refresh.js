/** Makes summaries anew whose records have changed, one at a time. */
import { engine } from '../engine/engine.js';
import { keptAnswers } from './forecasts.js';
import { bikeRows, dueSummaries, keepSummary, roundRows } from './garage-read.js';
import { current, publish, took } from './garage-state.js';
import { bikeValue, roundValue } from './meaning.js';
import { tellTabs } from './tabs.js';

/** @typedef {import('./garage-read.js').Summary} Summary */

/** So many are made anew before they are shown. */
const SOME = 20;

/**
 * Makes anew what one turn of the garage has touched, and shows it. What the
 * engine fails at stays due.
 * @param {number} turn
 */
export async function refreshTurn(turn) {
  const { key } = await current();
  await refresh(await dueSummaries(key, { turn }));
}

/** Makes anew whatever is due, and shows it bit by bit. */
export async function refreshAll() {
  const { key } = await current();
  const tried = new Set();
  for (let most = SOME; ;) {
    const due = await dueSummaries(key, { most });
    const some = due.filter(({ kind, id, due: turn }) => !tried.has(kind + id + turn));
    if (!some.length && due.length < most) return;
    most = SOME + due.length - some.length;
    for (const { kind, id, due: turn } of some) tried.add(kind + id + turn);
    if (some.length) await refresh(some);
  }
}

/** @param {Summary[]} due */
async function refresh(due) {
  try {
    for (const one of due) {
      const { value, ask } = await (one.kind === 'bike' ? bike(one) : round(one));
      const made = { ...one, value };
      await keepSummary(made, ask);
      took([made]);
    }
  } catch (error) {
    console.warn(error); // the records are kept; the summaries stay due
  }
  await publish();
  tellTabs();
}

/** @param {Summary} summary */
async function bike({ garage, id }) {
  const rows = await bikeRows(garage, id);
  const { bikes } = await engine.records('garage', { rows });
  const meaning = bikes.find((/** @type {any} */ one) => one.bike_id === id);
  if (!meaning) return { value: null, ask: null };
  const { ask, ...value } = bikeValue(rows, meaning);
  return { value: { ...value, ...(await keptAnswers(value.fitted_chain_id, ask)) }, ask };
}

/** @param {Summary} summary */
async function round({ garage, id }) {
  const rows = await roundRows(garage, id);
  const { rounds } = await engine.records('garage', { rows });
  return { value: rounds.length ? roundValue(rows, rounds[0]) : null, ask: null };
}
