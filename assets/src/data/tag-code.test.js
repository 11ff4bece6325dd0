import assert from 'node:assert/strict';
import { test } from 'node:test';
import { ALPHABET, freeCodes, plain, tagCode } from './tag-code.js';

const ALL = Array.from({ length: 529 }, (_, n) => tagCode(n));

test('529 codes, all different', () => {
  assert.equal(new Set(ALL).size, 529);
});

// What a check character is for, by trying all of them: no single wrong character
// and no swap of unequal neighbours leads to another code.
test('no single slip of the thumb leads to another bike', () => {
  const codes = new Set(ALL);
  for (const code of ALL) {
    for (let i = 0; i < 3; i++) {
      for (const other of ALPHABET) {
        if (other !== code[i])
          assert.ok(!codes.has(code.slice(0, i) + other + code.slice(i + 1)), `${code} ${i} ${other}`);
      }
    }
    for (const [i, j] of [
      [0, 1],
      [1, 2],
    ]) {
      const swapped = [...code];
      [swapped[i], swapped[j]] = [swapped[j], swapped[i]];
      const text = swapped.join('');
      assert.ok(text === code || !codes.has(text), `${code} ${text}`);
    }
  }
});

test('codes in use are left alone, however they are written', () => {
  const [first, second] = freeCodes([], 2);
  assert.deepEqual(freeCodes([`${first[0]}-${first.slice(1).toLowerCase()}`], 1), [second]);
  assert.equal(freeCodes(['x', first], 2000).length, 527);
});

test('codes are compared by letters and digits', () => {
  assert.equal(plain(' k-0 7\n'), 'K07');
  assert.equal(plain('Ä 3'), 'Ä3');
  assert.equal(plain(''), '');
});
