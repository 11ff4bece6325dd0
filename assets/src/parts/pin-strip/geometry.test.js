import assert from 'node:assert/strict';
import { test } from 'node:test';
import { WIDTH, clamp, view } from './geometry.js';

/** @type {import('./geometry.js').Frame} */
const rule = { nominal: 304.8, bias: 0, length: 304.8, limit: 0.5, marks: 'in16' };

test('a 12 in span is drawn at ten times life size', () => {
  const { scale, x, at } = view(rule);
  assert.equal(scale, 10);
  // 1/16 in is 1.5875 mm, so the pin moves 15.875 mm on paper.
  assert.ok(Math.abs(x(304.8 + 1.5875) - x(304.8) - 15.875) < 1e-9);
  // 0.5 % of 304.8 mm is 1.524 mm.
  assert.ok(Math.abs(at(0.5) - at(0) - 15.24) < 1e-9);
});

test('a short span is drawn larger, so that new and limit stand apart', () => {
  // 0.5 % of 127 mm is 0.635 mm: 6.35 at 10:1, 12.7 at 20:1.
  const { scale, at } = view({ ...rule, nominal: 127, length: 127, marks: 'mm001' });
  assert.equal(scale, 20);
  assert.ok(Math.abs(at(0.5) - at(0) - 12.7) < 1e-9);
});

test('what an instrument adds moves the limit, not the reading', () => {
  const { x, at } = view({ ...rule, bias: 0.1 });
  assert.equal(x(304.8), view(rule).x(304.8));
  assert.ok(Math.abs(at(0) - x(304.8 * 1.001)) < 1e-9);
});

test('the limit and what lies past it fit on every span', () => {
  for (const limit of [0.5, 0.75, 1, 3]) {
    for (const pitches of [2, 20, 24, 48, 100, 200, 400]) {
      const frame = {
        nominal: pitches * 12.7,
        bias: 0,
        length: pitches * 12.7,
        limit,
        marks: /** @type {const} */ ('mm05'),
      };
      const { at, ticks } = view(frame);
      assert.ok(at(0) > 0 && at(limit * 1.3) < WIDTH, `${pitches} pitches, ${limit} %`);
      assert.ok(ticks.length > 1 && ticks.length < 150, `${ticks.length} ticks on ${pitches} pitches`);
    }
  }
});

test('inch marks are labelled past the whole inch, and the whole is longest', () => {
  const { ticks } = view(rule);
  const whole = ticks.find((tick) => tick.level === 0);
  assert.equal(whole?.text, '12');
  assert.deepEqual(
    ticks
      .filter((tick) => tick.text)
      .map((tick) => tick.text)
      .slice(0, 4),
    ['12', '1/16', '1/8', '3/16'],
  );
});

test('labels never stand closer than they are wide', () => {
  for (const marks of /** @type {const} */ (['in16', 'in32', 'mm1', 'mm05', 'mm01', 'mm001'])) {
    const at = view({ ...rule, marks })
      .ticks.filter((tick) => tick.text)
      .map((tick) => tick.x);
    for (let i = 1; i < at.length; i++) assert.ok(at[i] - at[i - 1] >= 8.9, marks);
  }
});

test('the percentages leave room for the limit', () => {
  for (const limit of [0.5, 0.75, 1]) {
    const { percents, at } = view({ ...rule, limit });
    assert.ok(percents.length > 0);
    for (const { x } of percents) assert.ok(x < at(limit) - 8 || x > at(limit) + 25);
  }
});

test('a pin off the strip stays at its edge and says so', () => {
  assert.deepEqual(clamp(-40), { x: 5, off: -1 });
  assert.deepEqual(clamp(1e9), { x: WIDTH - 5, off: 1 });
  assert.deepEqual(clamp(40), { x: 40, off: 0 });
});
