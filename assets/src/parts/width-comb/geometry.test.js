import assert from 'node:assert/strict';
import { test } from 'node:test';
import { WIDTH, view } from './geometry.js';

/** @type {import('./geometry.js').Family[]} */
const families = [
  { class: 'narrow', name: 'narrow', outer_width_mm: [4.9, 5], probability: 0 },
  { class: 'middle', name: 'middle', outer_width_mm: [6.5, 6.8], probability: 1 },
  { class: 'wide', name: 'wide', outer_width_mm: [11, 14.8], probability: 0 },
];

test('one scale for all: equal widths are equally long', () => {
  const { teeth } = view({ reading_mm: null, interval95_mm: null, families });
  const perMM = teeth.map((tooth, i) => tooth.width / (families[i].outer_width_mm[1] - families[i].outer_width_mm[0]));
  for (const one of perMM) assert.ok(Math.abs(one - perMM[0]) < 1e-9);
  assert.ok(teeth[0].x < teeth[1].x && teeth[2].x + teeth[2].width < WIDTH);
});

test('a reading inside a family crosses its tooth', () => {
  const { teeth, reading, band } = view({ reading_mm: 6.6, interval95_mm: [6.5, 6.7], families });
  assert.ok(reading && reading.x > teeth[1].x && reading.x < teeth[1].x + teeth[1].width && reading.off === 0);
  assert.ok(band && band.x < Number(reading?.x) && band.x + band.width > Number(reading?.x));
});

test('a reading off the scale stays at its edge and says so', () => {
  for (const [mm, off] of [
    [2, -1],
    [40, 1],
  ]) {
    const { reading, band } = view({ reading_mm: mm, interval95_mm: [mm - 0.1, mm + 0.1], families });
    assert.equal(reading?.off, off);
    assert.ok(Number(reading?.x) > 0 && Number(reading?.x) < WIDTH && Number(band?.width) >= 0);
  }
});
