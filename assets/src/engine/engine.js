/**
 * The engine of this page, started by app/shell.js. The page fetches and compiles the
 * module itself, because index.html preloads it while the scripts still arrive;
 * a restart after a crash uses the compiled module again.
 */
import { Bridge } from './bridge.js';
import { compile } from './compile.js';
import { build } from '../sync/build.js';

/** @type {Promise<WebAssembly.Module>|null} */
let compiled = null;

function load() {
  compiled ??= compile(build.wasm).catch((error) => {
    compiled = null;
    throw error;
  });
  return compiled;
}

/** The one engine of this page; see Bridge for its calls. */
export const engine = new Bridge(() => new Worker(build.worker, { name: 'engine' }), load);
