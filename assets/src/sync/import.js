/** A garage's file into the open garage, part by part; the engine has its say between two parts. */
import { partsOf } from '../data/garage-file.js';
import { putWhole, settle } from '../data/whole.js';
import { EngineFault } from '../engine/bridge.js';
import { engine } from '../engine/engine.js';
import { FORMAT } from './export.js';

/**
 * @typedef {(step: 'look'|'take', done: number, of: number) => void} Progress of looking through the file in percent, of
 *   taking its records in by their number
 * @typedef {{progress?: Progress, signal?: AbortSignal}} Options
 */

/**
 * Has the engine check every record as it would check a first put.
 * @param {Blob} file
 * @param {Options} options
 * @returns {Promise<number>} how many records are in it
 * @throws {EngineFault} what is wrong first, naming its place in the file; the file as a whole comes before a record
 */
export async function lookThrough(file, { progress, signal }) {
  let count = 0;
  /** @type {unknown} */
  let wrong = null;
  const parts = partsOf(file, (share) => progress?.('look', Math.round(100 * share), 100));
  for (let next = await parts.next(); ; next = await parts.next()) {
    signal?.throwIfAborted();
    if (next.done) {
      await engine.takeIn(next.value);
      break;
    }
    count += next.value.records.length;
    wrong ??= await faultOf(next.value);
  }
  if (wrong) throw wrong;
  return count;
}

/** @param {import('../data/garage-file.js').Part} part @returns {Promise<EngineFault|null>} */
async function faultOf({ table, first, records }) {
  try {
    await engine.takeIn(`{"format":"${FORMAT}","tables":{"${table}":[${records.join()}]}}`);
    return null;
  } catch (error) {
    if (!(error instanceof EngineFault)) throw error;
    const field = error.fault.field.replace(/\[(\d+)\]/, (_, place) => `[${first + Number(place)}]`);
    return new EngineFault({ ...error.fault, field });
  }
}

/**
 * @param {string} key of the garage
 * @param {Blob} file that was looked through
 * @param {number} count of its records
 * @param {Options} options
 * @returns {Promise<{put: number, there: number}>} so far, when it was stopped
 */
export async function takeAll(key, file, count, { progress, signal }) {
  let [put, done] = [0, 0];
  try {
    for await (const { table, records } of partsOf(file)) {
      if (signal?.aborted) break;
      const whole = records.map((one) => {
        const { record_id, fields } = JSON.parse(one);
        return { table: JSON.parse(`"${table}"`), record_id, put: fields };
      });
      put += await putWhole(key, whole);
      done += records.length;
      progress?.('take', done, count);
    }
  } finally {
    await settle(key);
  }
  return { put, there: done - put };
}
