/**
 * The engine of this page, started on import. The page fetches and compiles the
 * module itself, because index.html preloads it while the scripts still arrive;
 * a restart after a crash uses the compiled module again.
 */
import { Bridge } from './bridge.js';
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

/** @param {string} url */
async function compile(url) {
  const response = await fetch(url);
  if (!response.ok) throw new Error(`the engine's file answered ${response.status}`);
  if (WebAssembly.compileStreaming) return WebAssembly.compileStreaming(response);
  return WebAssembly.compile(await response.arrayBuffer());
}

/** The one engine of this page; see Bridge for its calls. */
export const engine = new Bridge(() => new Worker(build.worker, { name: 'engine' }), load);
