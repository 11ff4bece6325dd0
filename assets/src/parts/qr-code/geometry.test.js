import assert from 'node:assert/strict';
import { test } from 'node:test';
import { readQR } from '../../../test/browser/harness/qr-reader.js';
import { QUIET, qrPath } from './geometry.js';

/** Draws the path's runs as pixels, `scale` to a module. @param {string} text @param {number} scale */
function pixels(text, scale) {
  const { modules, path } = qrPath(text);
  const width = (modules + 2 * QUIET) * scale;
  const data = new Uint8ClampedArray(width * width * 4).fill(255);
  for (const [, x, y, run] of path.matchAll(/M(\d+) (\d+)h(\d+)v1h-\d+z/g)) {
    for (let row = 0; row < scale; row++) {
      const from = ((Number(y) + QUIET) * scale + row) * width + (Number(x) + QUIET) * scale;
      for (let i = 0; i < Number(run) * scale; i++) data.set([0, 0, 0], (from + i) * 4);
    }
  }
  return { data, width, height: width };
}

// An independent reader (ZXing in C++) gives back what was written.
test('an independent reader reads every code back', async () => {
  const texts = [
    'https://bikes.example/#/bike/0190b0a0-1111-7222-8333-444455556666',
    'http://192.0.2.7:8080/#/bike/0190b0a0-1111-7222-8333-444455556666',
    'https://räder.example/#/bike/ü',
    '1',
    'x'.repeat(1000),
  ];
  for (const text of texts) assert.deepEqual(await readQR(pixels(text, 4)), [text]);
});

test('a code with a blot is still read', async () => {
  const text = 'https://bikes.example/#/bike/0190b0a0-1111-7222-8333-444455556666';
  const picture = pixels(text, 4);
  const { width, data } = picture;
  const [from, side] = [Math.round(width * 0.42), Math.round(width * 0.2)];
  for (let y = from; y < from + side; y++) data.fill(60, (y * width + from) * 4, (y * width + from + side) * 4);
  assert.deepEqual(await readQR(picture), [text]);
});

test('a text that no code holds is refused', () => {
  assert.throws(() => qrPath('x'.repeat(3000)));
});

// ISO/IEC 18004: version v is 17 + 4 v modules across, v from 1 to 40.
test('codes have the sizes of the standard', () => {
  for (const text of ['1', 'x'.repeat(60), 'x'.repeat(1000)]) {
    const version = (qrPath(text).modules - 17) / 4;
    assert.ok(Number.isInteger(version) && version >= 1 && version <= 40, String(version));
  }
});
