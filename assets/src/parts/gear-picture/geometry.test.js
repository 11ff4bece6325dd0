import assert from 'node:assert/strict';
import { test } from 'node:test';
import { view } from './geometry.js';

/** @param {number} ring @param {number} sprocket @param {number} [angle] */
const gear = (ring, sprocket, angle) => ({
  ring,
  sprocket,
  development_m: (2.2 * ring) / sprocket,
  gear_inches: (27.57 * ring) / sprocket,
  chain_angle_deg: angle ?? null,
  duplicate_of: null,
});
const gears = [
  [34, 28],
  [34, 24],
  [34, 21],
  [50, 28],
  [34, 19],
  [50, 24],
  [50, 21],
  [50, 19],
].map(([r, s]) => gear(r, s));

test('equal steps are equal gaps', () => {
  const { rungs } = view(gears, 'development_m');
  const y = (/** @type {number} */ ring, /** @type {number} */ sprocket) =>
    Number(rungs.find((one) => one.gear.ring === ring && one.gear.sprocket === sprocket)?.y);
  assert.ok(Math.abs(y(34, 28) - y(34, 24) - (y(50, 28) - y(50, 24))) < 1e-9);
  assert.ok(Math.abs(y(34, 24) - y(50, 24) - (y(34, 21) - y(50, 21))) < 1e-9);
});

test('higher gears stand higher, rungs of one ladder never touch', () => {
  const { rungs, height } = view(gears, 'development_m');
  for (const ring of [34, 50]) {
    const ys = rungs.filter((one) => one.gear.ring === ring).map((one) => one.y);
    for (let i = 1; i < ys.length; i++) assert.ok(ys[i - 1] - ys[i] >= 14.9);
  }
  for (const { y } of rungs) assert.ok(y > 0 && y < height);
});

test('inches and metres give the same ladder, with other marks', () => {
  const [metres, inches] = [view(gears, 'development_m'), view(gears, 'gear_inches')];
  metres.rungs.forEach((rung, i) => assert.ok(Math.abs(rung.y - inches.rungs[i].y) < 1e-6));
  assert.deepEqual(
    metres.marks.map((mark) => mark.text),
    ['3', '4', '5'],
  );
  assert.deepEqual(
    inches.marks.map((mark) => mark.text),
    ['40', '50', '60', '70'],
  );
});

test('a rung leans by five times its angle, none without angles', () => {
  assert.equal(view(gears, 'development_m').leans, false);
  const { rungs, leans } = view([gear(34, 28, 2)], 'development_m');
  assert.equal(leans, true);
  assert.ok(Math.abs(rungs[0].lift - 24 * Math.tan((10 * Math.PI) / 180)) < 1e-9);
});

test('one gear is a ladder too', () => {
  const { height, rungs } = view([gear(44, 16)], 'development_m');
  assert.equal(rungs.length, 1);
  assert.ok(height > 0 && Number.isFinite(height));
});
