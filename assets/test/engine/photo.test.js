import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, readdirSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { test } from 'node:test';
import { pathToFileURL } from 'node:url';

const ROOT = new URL('../../../', import.meta.url).pathname;
const FILES = join(ROOT, 'assets/dist/files');
const MOST_MB = 200;

/** @param {string} program @param {string[]} args */
const run = (program, ...args) => execFileSync(program, args, { cwd: ROOT, encoding: 'utf8' }).trim();

// Seeds 2 and 6 are drawn with 12 megapixels.
for (const [reference, seed] of /** @type {const} */ ([
  ['frame', '2'],
  ['rule', '6'],
])) {
  test(`the photo engine that is shipped measures 12 megapixels by a ${reference} within its memory`, async () => {
    await import(pathToFileURL(join(run('go', 'env', 'GOROOT'), 'lib/wasm/wasm_exec.js')).href);
    const name = readdirSync(FILES).find((one) => /^photo-\w+\.wasm$/.test(one));
    const go = new Go();
    const { instance } = await WebAssembly.instantiate(readFileSync(join(FILES, String(name))), go.importObject);
    go.run(instance);
    const path = join(mkdtempSync(join(tmpdir(), 'tautspan-')), 'picture.jpg');
    const ruled = `-ruled=${reference === 'rule'}`;
    const drawn = JSON.parse(run('go', 'run', './internal/tools/picture', '-seed', seed, ruled, '-out', path));
    const file = new Uint8Array(readFileSync(path));
    const { check_line_mm, thickness_mm } = drawn;
    for (let i = 0; i < 3; i++) {
      const answer = JSON.parse(tautspanPhoto(file, JSON.stringify({ reference, check_line_mm, thickness_mm })));
      assert.equal(answer.overlay.width * answer.overlay.height, 12_000_000);
      assert.ok(answer.accepted);
      assert.ok(Math.abs(answer.elongation_percent - drawn.elongation_percent) < 0.2);
      assert.deepEqual(JSON.parse(tautspanPhoto(new Uint8Array(9), '{}')).error.code, 'not_allowed');
    }
    const memory = /** @type {WebAssembly.Memory} */ (instance.exports.mem);
    assert.ok(memory.buffer.byteLength / 1e6 <= MOST_MB, `${memory.buffer.byteLength / 1e6} MB`);
  });
}
