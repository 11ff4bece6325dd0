/** How much slower the same Go benchmark runs as WebAssembly, in Node. */
import { execFile } from 'node:child_process';
import { join } from 'node:path';
import { promisify } from 'node:util';

const run = promisify(execFile);
const ROOT = new URL('../../../', import.meta.url).pathname;

/** @returns {Promise<{native: number, wasm: number}>} ns for one `wear` calculation, the best of three */
export async function wasmRatio() {
  const goroot = (await run('go', ['env', 'GOROOT'])).stdout.trim();
  const { stdout } = await run('go', ['run', './internal/tools/bundle', '-flags'], { cwd: ROOT });
  const asShipped = ['-exec', join(goroot, 'lib/wasm/go_js_wasm_exec'), ...stdout.trim().split('\n')];
  const native = await bench([], {});
  const wasm = await bench(asShipped, { GOOS: 'js', GOARCH: 'wasm' });
  return { native, wasm };
}

/** @param {string[]} extra @param {Record<string, string>} env */
async function bench(extra, env) {
  const args = ['test', ...extra, '-run', '^$', '-bench', '^BenchmarkCalculate$', '-count', '3', './internal/wear'];
  const { stdout } = await run('go', args, { cwd: ROOT, env: { ...process.env, ...env } });
  return Math.min(...[...stdout.matchAll(/([\d.]+) ns\/op/g)].map(([, ns]) => Number(ns)));
}
