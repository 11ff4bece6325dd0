/** Starts the built engine inside Node, as worker.js does in the browser. */
import { execFileSync } from 'node:child_process';
import { readFile, readdir } from 'node:fs/promises';
import { join } from 'node:path';

const FILES = new URL('../../dist/files/', import.meta.url).pathname;

/** @returns {Promise<void>} afterwards tautspanCall is there */
export async function startEngine() {
  const root = execFileSync('go', ['env', 'GOROOT'], { encoding: 'utf8' }).trim();
  await import(join(root, 'lib/wasm/wasm_exec.js'));
  const file = (await readdir(FILES)).find((name) => /^engine-.*\.wasm$/.test(name));
  if (!file) throw new Error('the engine is not built; make build makes it');
  const go = new Go();
  const { instance } = await WebAssembly.instantiate(await readFile(join(FILES, file)), go.importObject);
  go.run(instance);
}
