/**
 * The worker that holds the engine. It is given the compiled module once, says
 * when the engine is ready, and then answers calls. When the Go program ends,
 * by whatever cause, the page is told.
 */
import 'wasm_exec';
import { ROOM } from './room.js';

/** @typedef {{module?: WebAssembly.Module, id?: number, name?: string, json?: string, file?: Blob, records?: boolean}} Message */

addEventListener('message', ({ data }) => {
  if (data.module) start(data.module).catch(crash);
  else answer(data);
});

/** @param {WebAssembly.Module} module */
async function start(module) {
  const go = new Go();
  go.env = ROOM;
  const instance = await WebAssembly.instantiate(module, go.importObject);
  // The program sets tautspanCall and then waits for ever, so run() returns
  // before its promise is settled, and settles only when the program ends.
  go.run(instance).then(() => crash('the engine ended'), crash);
  if (typeof tautspanCall !== 'function') throw new Error('the engine did not start');
  postMessage({ ready: true });
}

/** @param {Message} message */
function answer(message) {
  try {
    postMessage({ id: message.id, json: ask(message) });
  } catch (error) {
    crash(error);
  }
}

/** @param {Message} message @returns {string} the engine's JSON */
function ask({ id, name = '', json = '', file, records }) {
  if (file) return tautspanRide(reader(file, id));
  return records ? tautspanRecords(name, json) : tautspanCall(name, json);
}

/** How often the page is told how much of a file is read: each time so large a share more is. */
const SHARE = 0.01;

/**
 * @param {Blob} file
 * @param {number|undefined} id of the call that is told
 * @returns {(from: number, to: number) => Uint8Array} reads a piece of it at once
 */
function reader(file, id) {
  const sync = new FileReaderSync();
  let told = 0;
  return (from, to) => {
    const share = Math.min(1, to / file.size);
    if (share - told >= SHARE) postMessage({ id, share: (told = share) });
    return new Uint8Array(sync.readAsArrayBuffer(file.slice(from, to)));
  };
}

/** @param {unknown} error */
function crash(error) {
  postMessage({ crash: String(error) });
}
