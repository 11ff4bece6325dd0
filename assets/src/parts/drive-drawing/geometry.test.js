import assert from 'node:assert/strict';
import { test } from 'node:test';
import { view } from './geometry.js';

// As the engine answers for 50/28 teeth on axles 410 mm apart.
const drawing = {
  centre_mm: 410,
  ring_radius_mm: 101.13,
  sprocket_radius_mm: 56.714,
  ring_wrap_deg: 192.438,
  sprocket_wrap_deg: 167.562,
  sag_mm: 60,
};

/** @param {string} path @returns {number[]} */
const numbers = (path) => (path.match(/-?\d+(\.\d+)?/g) ?? []).map(Number);

test('the runs touch both wheels and stand square on the radius there', () => {
  const { chain, ring, sprocket } = view(drawing);
  const [sx, sy, rx, ry] = numbers(chain);
  assert.ok(Math.abs(Math.hypot(sx - sprocket.x, sy - sprocket.y) - sprocket.r) < 0.02);
  assert.ok(Math.abs(Math.hypot(rx - ring.x, ry - ring.y) - ring.r) < 0.02);
  assert.ok(Math.abs((rx - sx) * sx + (ry - sy) * sy) / sprocket.r < 0.05);
  assert.ok(Math.abs((rx - sx) * (rx - ring.x) + (ry - sy) * (ry - ring.y)) / ring.r < 0.05);
});

test('a straight run is as long as the engine says', () => {
  const [sx, sy, rx, ry] = numbers(view(drawing).chain);
  assert.ok(Math.abs(Math.hypot(rx - sx, ry - sy) - 407.587) < 0.05);
});

test('slack hangs by its sag, and the paper holds it', () => {
  const { low, taut, box } = view(drawing);
  assert.ok(Math.abs(low.y - taut.y - 60) < 1e-9);
  const deep = view({ ...drawing, sag_mm: 400 });
  assert.ok(deep.box.y + deep.box.height > deep.low.y);
  assert.ok(box.x + box.width > 410 + 101 && box.x < -56);
});

test('the smaller wheel in front leans the other way', () => {
  const { chain, sprocket } = view({
    ...drawing,
    ring_radius_mm: 56.714,
    sprocket_radius_mm: 101.13,
    ring_wrap_deg: 167.562,
    sprocket_wrap_deg: 192.438,
  });
  const [sx, sy, rx, ry] = numbers(chain);
  assert.ok(Math.abs(Math.hypot(sx, sy) - sprocket.r) < 0.02);
  assert.ok(ry > sy && rx > sx);
});
