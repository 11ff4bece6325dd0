import assert from 'node:assert/strict';
import { readFileSync, readdirSync } from 'node:fs';
import { test } from 'node:test';
import { HEIGHT, PAPER, WIDTH, ticks, view } from './geometry.js';

/** Answers of the real engine: the golden ones. */
const GOLDEN = new URL('../../../../testdata/engine/forecast/', import.meta.url);

/** @param {string} name @returns {import('./geometry.js').Forecast} */
const answer = (name) => JSON.parse(readFileSync(new URL(`${name}.answer.json`, GOLDEN), 'utf8'));

const all = readdirSync(GOLDEN)
  .filter((name) => name.endsWith('.answer.json'))
  .map((name) => answer(name.replace('.answer.json', '')))
  .filter((one) => one.curve);

/** @param {string} points */
const pairs = (points) => points.split(' ').map((pair) => pair.split(',').map(Number));

test('every golden forecast can be drawn: all numbers finite, time to the right, never falling', () => {
  assert.ok(all.length >= 8);
  for (const forecast of all) {
    const seen = view(forecast, 'mixed');
    const middle = pairs(seen.middle);
    assert.equal(middle.length, forecast.curve.length);
    for (const points of [seen.band, seen.low, seen.middle, seen.high]) {
      for (const number of pairs(points).flat()) assert.ok(Number.isFinite(number));
    }
    for (let i = 1; i < middle.length; i++) {
      assert.ok(middle[i][0] > middle[i - 1][0]);
      assert.ok(middle[i][1] <= middle[i - 1][1], 'more elongation is higher up');
    }
    pairs(seen.low).forEach(([, y], i) => {
      assert.ok(y >= middle[i][1] && middle[i][1] >= pairs(seen.high)[i][1], 'the band holds the middle');
    });
    assert.ok(seen.limit > PAPER.y && seen.limit < PAPER.y + PAPER.height, 'the limit is on the paper');
    assert.ok(seen.now >= PAPER.x && seen.check >= seen.now && seen.check <= PAPER.x + PAPER.width);
    for (const pin of seen.pins) {
      assert.ok(pin.x >= PAPER.x && pin.x <= seen.now + 1e-9, 'a reading lies before now');
      if (!pin.off) assert.ok(pin.top >= PAPER.y && pin.bottom <= PAPER.y + PAPER.height);
    }
    for (const { at, text } of [...seen.across, ...seen.up]) {
      assert.ok(Number.isFinite(at) && at >= 0 && at <= Math.max(WIDTH, HEIGHT) && text.length <= 6, text);
    }
  }
});

test('equal distances and equal elongations are equal lengths on the paper', () => {
  const forecast = answer('four-readings-earlier-chain');
  const { pins, limit, now } = view(forecast, 'metric');
  const [a, b] = [pins[0], pins[2]];
  const [from, to] = [forecast.marks[0], forecast.marks[2]];
  const perKM = (b.x - a.x) / (to.at_km - from.at_km);
  const perPercent = (Number(a.y) - Number(b.y)) / (Number(to.percent) - Number(from.percent));
  assert.ok(Math.abs(now - b.x - perKM * (forecast.curve[0].km - to.at_km)) < 1e-6);
  assert.ok(Math.abs(Number(b.y) - limit - perPercent * (forecast.limit_percent - Number(to.percent))) < 1e-6);
  assert.ok(Math.abs(b.bottom - b.top - perPercent * (Number(to.high_percent) - Number(to.low_percent))) < 1e-6);
});

test('the mark to check again stands where the engine says, on the scale of the axis', () => {
  const forecast = answer('one-reading');
  const { across, now, check } = view(forecast, 'metric');
  const perKM = (across[1].at - across[0].at) / (Number(across[1].text) - Number(across[0].text));
  assert.ok(Math.abs((check - now) / perKM - forecast.check_again_in_km) < 1e-6);
  const miles = view(forecast, 'imperial').across;
  const perMile = (miles[1].at - miles[0].at) / (Number(miles[1].text) - Number(miles[0].text));
  assert.ok(Math.abs(perMile / perKM - 1.609344) < 1e-6); // the statute mile, by definition
});

test('a gauge is a bracket; an end that was not tried is open', () => {
  const { pins } = view(answer('gauge-only'), 'mixed');
  assert.deepEqual(
    pins.map(({ y, openTop, openBottom }) => ({ y, openTop, openBottom })),
    [
      { y: null, openTop: false, openBottom: true },
      { y: null, openTop: false, openBottom: false },
    ],
  );
});

test('a reading set aside is marked, and one off the paper is an arrow at its edge', () => {
  const seen = view(answer('digits-swapped'), 'mixed');
  assert.deepEqual(
    seen.pins.map(({ aside }) => aside),
    [false, true, false, false],
  );
  assert.equal(seen.pins[1].off, 1);
  assert.ok(seen.pins.every(({ off }, i) => i === 1 || off === 0));
});

test('an earlier chain is joined from value to value', () => {
  const { earlier } = view(answer('four-readings-earlier-chain'), 'mixed');
  assert.equal(earlier.length, 1);
  assert.equal(pairs(earlier[0].line).length, 2);
});

test('what is to come has a twelfth of the width at least; readings too far back are counted, not drawn', () => {
  const forecast = answer('four-readings-earlier-chain');
  const far = {
    ...forecast,
    curve: forecast.curve.map((one) => ({ ...one, km: 20_000 + (one.km - forecast.curve[0].km) / 2 })),
  };
  const seen = view(far, 'mixed');
  assert.ok(Math.abs(PAPER.x + PAPER.width - seen.now - PAPER.width / 12) < 1e-6);
  assert.equal(seen.begins, false);
  assert.equal(seen.hidden, 4);
});

test('scale marks are round', () => {
  assert.deepEqual(ticks(0, 1.125, 4), [0, 0.5, 1]);
  assert.deepEqual(ticks(0, 3007, 4), [0, 1000, 2000, 3000]);
  assert.deepEqual(ticks(812, 3007, 4), [1000, 2000, 3000]);
  assert.deepEqual(ticks(-0.1, 0.9, 4), [0, 0.25, 0.5, 0.75]);
});
