/** The engine's door for GPX files, fed as the worker feeds it: piece by piece. */
import assert from 'node:assert/strict';
import { before, test } from 'node:test';
import { startEngine } from './start.js';

before(startEngine);

/** @param {Uint8Array} bytes */
function ride(bytes) {
  return JSON.parse(tautspanRide((from, to) => bytes.subarray(from, to)));
}

/** @param {number} points one a second due north, 1e-5 degrees apart */
function recorded(points) {
  let text = '<gpx xmlns="http://www.topografix.com/GPX/1/1" version="1.1" creator="test"><trk><trkseg>';
  for (let i = 0; i < points; i++) text += `<trkpt lat="${(45 + i * 1e-5).toFixed(5)}" lon="7"><ele>1</ele></trkpt>\n`;
  return new TextEncoder().encode(`${text}</trkseg></trk></gpx>`);
}

test('a file of several megabytes is measured', () => {
  const file = recorded(100_001);
  assert.ok(file.length > 4 << 20);
  const { distance_km, points } = ride(file);
  assert.equal(points, 100_001);
  // 45 to 46 degrees on a meridian, computed with GeographicLib: 111141.548474 m
  assert.ok(Math.abs(distance_km - 111.141548474) < 1e-6, distance_km);
});

test('a damaged file, and one that cannot be read, are errors, not the end', () => {
  assert.equal(ride(recorded(9).subarray(0, 300)).error.code, 'unreadable');
  assert.equal(ride(new Uint8Array()).error.code, 'unreadable');
  const gone = JSON.parse(
    tautspanRide(() => {
      throw new Error('gone');
    }),
  );
  assert.equal(gone.error.code, 'unavailable');
  assert.equal(ride(recorded(2)).points, 2);
});
