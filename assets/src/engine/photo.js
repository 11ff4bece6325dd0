/**
 * The photo engine. It is loaded when the first picture is measured, and each
 * picture has a worker of its own, so that its memory is given back and no
 * picture can hurt the next.
 */
import { build } from '../sync/build.js';
import { EngineCrash, EngineFault } from './bridge.js';
import { compile } from './compile.js';

/** After this long without an answer the engine counts as hung, ms. */
const PATIENCE_MS = 60_000;

/** @type {Promise<WebAssembly.Module>|null} */
let compiled = null;

/**
 * @param {Blob} file
 * @param {object} request
 * @returns {Promise<any>} the response
 * @throws {EngineFault|EngineCrash} refused, or ended before it could answer
 */
export async function measurePicture(file, request) {
  compiled ??= compile(build.photo);
  const module = await compiled.catch((error) => {
    compiled = null;
    throw new EngineCrash(String(error));
  });
  const worker = new Worker(build.photoWorker, { name: 'photo' });
  try {
    const answer = JSON.parse(await once(worker, { module, file, json: JSON.stringify(request) }));
    if (answer.error) throw new EngineFault(answer.error);
    return answer;
  } finally {
    worker.terminate();
  }
}

/** @param {Worker} worker @param {object} task @returns {Promise<string>} */
function once(worker, task) {
  return new Promise((resolve, reject) => {
    const patience = setTimeout(() => reject(new EngineCrash('no answer in time')), PATIENCE_MS);
    worker.onmessage = ({ data }) => {
      clearTimeout(patience);
      if (data.crash === undefined) resolve(data.json);
      else reject(new EngineCrash(data.crash));
    };
    worker.onerror = (event) => {
      clearTimeout(patience);
      reject(new EngineCrash(event.message ?? 'the worker failed'));
    };
    worker.postMessage(task);
  });
}
