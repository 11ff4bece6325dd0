import assert from 'node:assert/strict';
import { test } from 'node:test';
import { HIGH, PIECES, layOut, transform } from './geometry.js';

/** @param {number} angle */
function turned(angle) {
  const at = (/** @type {number} */ x, /** @type {number} */ y) => ({
    x: 900 + x * Math.cos(angle) - y * Math.sin(angle),
    y: 700 + x * Math.sin(angle) + y * Math.cos(angle),
  });
  const marks = [-500, 0, 500].flatMap((x) => [at(x, -38), at(x, 38)]);
  return { marks, rivets: [-400, -200, 0, 200, 400].map((x) => at(x, 1)) };
}

for (const degrees of [0, 7, -40, 88]) {
  test(`a frame turned by ${degrees}° is cut into level pieces, left to right`, () => {
    const overlay = turned((degrees * Math.PI) / 180);
    const lay = layOut(overlay);
    const width = 320;
    /** @type {(point: {x: number, y: number}, piece: number) => number[]} */
    const put = ({ x, y }, piece) => {
      const [a, b, c, d, e, f] = transform(lay, width, piece);
      return [a * x + c * y + e, b * x + d * y + f];
    };
    for (const rivet of overlay.rivets) {
      const homes = Array.from({ length: PIECES }, (_, piece) => put(rivet, piece)).filter(
        ([x]) => x > 10 && x < width - 10,
      );
      assert.ok(homes.length >= 1, 'whole in one piece at least');
    }
    const [first, second] = [put(overlay.rivets[2], 2), put(overlay.rivets[3], 2)];
    assert.ok(Math.abs(first[1] - 2.5 * width * HIGH) < 2, 'in the middle of its piece');
    assert.ok(second[0] > first[0] && Math.abs(second[1] - first[1]) < 1, 'level, left to right');
    assert.ok(Math.abs(put(overlay.rivets[2], 1)[0] + put(overlay.rivets[2], 2)[0] - width) < 1, 'the seam is shared');
  });
}
