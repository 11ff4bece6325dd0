/** The same Go benchmarks natively and as WebAssembly in Node, compiled as shipped. */
import { execFile } from 'node:child_process';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { ROOM } from '../../src/engine/room.js';

/** @typedef {{name: string, native: number, wasm: number, allocations: number}} Row ns a call; allocations native */

const run = promisify(execFile);
const ROOT = new URL('../../../', import.meta.url).pathname;

/** @returns {Promise<Row[]>} every calculation from JSON to JSON, the best of three */
export async function nativeAndWasm() {
  const goroot = (await run('go', ['env', 'GOROOT'])).stdout.trim();
  const { stdout } = await run('go', ['run', './internal/tools/bundle', '-flags'], { cwd: ROOT });
  const settings = stdout.trim().split('\n');
  const flags = settings.filter((setting) => setting.startsWith('-'));
  const env = Object.fromEntries(settings.filter((s) => !s.startsWith('-')).map((s) => s.split('=')));
  const native = await bench([], {});
  const asShipped = ['-exec', join(goroot, 'lib/wasm/go_js_wasm_exec'), ...flags];
  const wasm = await bench(asShipped, { ...env, ...ROOM, GOOS: 'js', GOARCH: 'wasm' });
  return [...native].map(([name, { ns, allocations }]) => {
    return { name, native: ns, wasm: wasm.get(name)?.ns ?? NaN, allocations };
  });
}

/** @param {string[]} extra @param {Record<string, string>} env */
async function bench(extra, env) {
  const args = ['test', ...extra, '-run', '^$', '-bench', '^BenchmarkCall$', '-benchtime', '200ms', '-count', '3'];
  const { stdout } = await run('go', [...args, './internal/engine'], { cwd: ROOT, env: { ...process.env, ...env } });
  /** @type {Map<string, {ns: number, allocations: number}>} */
  const best = new Map();
  const line = /^BenchmarkCall\/(\S+?)(?:-\d+)?\s+\d+\s+([\d.]+) ns\/op.* (\d+) allocs\/op/gm;
  for (const [, name, ns, allocations] of stdout.matchAll(line)) {
    best.set(name, { ns: Math.min(Number(ns), best.get(name)?.ns ?? Infinity), allocations: Number(allocations) });
  }
  return best;
}
