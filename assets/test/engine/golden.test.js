/**
 * The engine as it goes to the phone, asked every golden request: it must agree
 * with the answers of the native build within 1e-9 (exp, pow and erf differ in
 * their last bits between targets).
 */
import assert from 'node:assert/strict';
import { readFile, readdir } from 'node:fs/promises';
import { join } from 'node:path';
import { before, test } from 'node:test';
import { startEngine } from './start.js';

const GOLDEN = new URL('../../../testdata/engine/', import.meta.url).pathname;
const TOLERANCE = 1e-9;

before(startEngine);

for (const name of await readdir(GOLDEN)) {
  for (const file of (await readdir(join(GOLDEN, name))).filter((f) => f.endsWith('.request.json'))) {
    test(`${name}/${file}`, async () => {
      const request = await readFile(join(GOLDEN, name, file), 'utf8');
      const wanted = await readFile(join(GOLDEN, name, file.replace('.request.', '.answer.')), 'utf8');
      assertAgree(JSON.parse(tautspanCall(name, request)), JSON.parse(wanted), name);
    });
  }
}

test('an unknown name and broken JSON are errors, not the end', () => {
  assert.equal(JSON.parse(tautspanCall('nothing', '{}')).error.code, 'unknown_name');
  for (const bad of ['', '{', 'null', '[]', '{"drive":NaN}', '\u0000']) {
    assert.ok(JSON.parse(tautspanCall('wear', bad)).error.message, bad);
  }
});

/** @param {any} got @param {any} wanted @param {string} path */
function assertAgree(got, wanted, path) {
  if (typeof wanted === 'number' && typeof got === 'number') {
    const scale = Math.max(Math.abs(wanted), Math.abs(got));
    assert.ok(Math.abs(got - wanted) <= TOLERANCE * scale, `${path}: ${got}, native ${wanted}`);
    return;
  }
  if (typeof wanted !== 'object' || wanted === null) return assert.equal(got, wanted, path);
  assert.deepEqual(Object.keys(got), Object.keys(wanted), path);
  for (const key of Object.keys(wanted)) assertAgree(got[key], wanted[key], `${path}.${key}`);
}
