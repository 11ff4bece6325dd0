/** Makes summaries anew whose records have changed, some at a time. */
import { engine } from '../engine/engine.js';
import { chunks } from '../sync/rhythm.js';
import { keptAnswers } from './forecasts.js';
import { dueSummaries, eachBikeRows, keepSummaries, roundRows } from './garage-read.js';
import { current, publish, took } from './garage-state.js';
import { bikeValue, roundValue } from './meaning.js';
import { tellTabs } from './tabs.js';

/**
 * @typedef {import('./garage-read.js').Summary} Summary
 * @typedef {import('./garage.js').EngineRow} EngineRow
 * @typedef {{summary: Summary, rows: EngineRow[]}} Part
 */

/** So many are made anew before they are shown. */
const SOME = 20;

/** So many records go through the engine at once, so that no task is long. */
const ROWS = 250;

/**
 * Makes anew what one turn of the garage has touched, and shows it. What the
 * engine fails at stays due.
 * @param {number} turn
 */
export async function refreshTurn(turn) {
  const { key } = await current();
  const due = await dueSummaries(key, { turn });
  for (const some of due.length ? chunks(due, SOME) : [[]]) await refresh(key, some);
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
    if (some.length) await refresh(key, some);
  }
}

/** @param {string} key of the garage @param {Summary[]} due */
async function refresh(key, due) {
  const bikes = due.filter(({ kind }) => kind === 'bike');
  const rows = await eachBikeRows(
    key,
    bikes.map(({ id }) => id),
  );
  for (const some of together(bikes.map((summary, i) => ({ summary, rows: rows[i] })))) await remake(some);
  for (const summary of due.filter(({ kind }) => kind === 'round')) {
    await remake([{ summary, rows: await roundRows(key, summary.id) }]);
  }
  await publish();
  tellTabs();
}

/** @param {Part[]} bikes @returns {Part[][]} those whose records go through the engine at once */
function together(bikes) {
  /** @type {Part[][]} */
  const groups = [];
  let size = 0;
  for (const one of bikes) {
    if (groups.length && size + one.rows.length <= ROWS) groups[groups.length - 1].push(one);
    else [size] = [0, groups.push([one])];
    size += one.rows.length;
  }
  return groups;
}

/** @param {Part[]} parts what fails together is tried one by one */
async function remake(parts) {
  try {
    const { bikes, rounds } = await engine.records('garage', { rows: parts.flatMap(({ rows }) => rows) });
    const made = await Promise.all(
      parts.map(async ({ summary, rows }) => {
        const { value, ask } = summary.kind === 'bike' ? await bike(summary, rows, bikes) : round(rows, rounds);
        return { made: { ...summary, value }, ask };
      }),
    );
    await keepSummaries(made);
    took(made.map((one) => one.made));
  } catch (error) {
    console.warn(error); // the records are kept; the summaries stay due
    if (parts.length > 1) for (const part of parts) await remake([part]);
  }
}

/** @param {Summary} summary @param {EngineRow[]} rows @param {any[]} bikes */
async function bike({ id }, rows, bikes) {
  const meaning = bikes.find((one) => one.bike_id === id);
  if (!meaning) return { value: null, ask: null };
  const { ask, ...value } = bikeValue(rows, meaning);
  return { value: { ...value, ...(await keptAnswers(value.fitted_chain_id, ask)) }, ask };
}

/** @param {EngineRow[]} rows @param {any[]} rounds */
function round(rows, rounds) {
  return { value: rounds.length ? roundValue(rows, rounds[0]) : null, ask: null };
}
