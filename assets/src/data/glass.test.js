import assert from 'node:assert/strict';
import { test } from 'node:test';
import { CARD_MM, SETTINGS, SPANS, calibrated, fitting, measured, roundLength, standing } from './glass.js';

/** @typedef {import('./glass.js').Calibration} Calibration */

const DISPLAY = { ratio: 3, zoom: 1, width: 360, height: 780, page: 360, upright: true };
const AT = '2026-06-01T08:00:00Z';

/** @param {ReturnType<typeof calibrated>} result @returns {Calibration} */
function good(result) {
  assert.ok(typeof result === 'object', String(result));
  return result;
}

// Worked by hand: settings 629, 631, 630, 630 px over 100 mm have the mean 630,
// so 6.3 px/mm, and the spread 0.8165 px. Expected of one setting: sighting 0.05
// and parallax 1.5·3/300 = 0.015 mm at both ends give sqrt(2)·0.0522 = 0.07382 mm,
// a step of 1/18.9 mm adds 0.01527: 0.07539 mm = 0.47493 px. The spread is the
// larger one: 0.8165/2 = 0.40825 px = 0.06480 %. A rule off by up to 0.05 mm adds
// 0.02887 mm = 0.02887 %. Together 0.07094 % of 6.3 = 0.0044692 px/mm.
test('a calibration against a rule, worked by hand', () => {
  const made = good(calibrated('rule', 100, [629, 631, 630, 630], DISPLAY, AT));
  assert.ok(Math.abs(made.px_per_mm - 6.3) < 1e-12);
  assert.ok(Math.abs(made.standard_uncertainty - 0.0044692) < 1e-6, String(made.standard_uncertainty));
});

// Worked by hand: equal settings have no spread, so 0.47493/2 = 0.23747 px of
// 539.28 px = 0.04403 %; a card is 85.60 mm ± 0.125: 0.07217/85.6 = 0.08431 %.
// Together 0.09512 % of 6.3 = 0.0059924 px/mm.
test('a card is known less well than a rule', () => {
  const made = good(calibrated('card', CARD_MM, [539.28, 539.28, 539.28, 539.28], DISPLAY, AT));
  assert.ok(Math.abs(made.standard_uncertainty - 0.0059924) < 1e-6, String(made.standard_uncertainty));
});

test('settings of two different lengths are not averaged', () => {
  assert.equal(calibrated('rule', 100, [630, 630, 630, 645], DISPLAY, AT), 'wild');
  assert.equal(calibrated('rule', 1000, [630, 630, 630, 630], DISPLAY, AT), 'implausible');
  assert.equal(calibrated('rule', 100, [NaN, 630, 630, 630], DISPLAY, AT), 'implausible');
  const made = good(calibrated('rule', 100, [630, 630, 630, 630], DISPLAY, AT));
  assert.equal(measured([800, 800, 800, 800, 812], made), null);
});

test('another display is refused, not guessed', () => {
  const made = good(calibrated('rule', 100, [630, 630, 630, 630], DISPLAY, AT));
  assert.equal(standing(null, DISPLAY), 'none');
  assert.equal(standing(made, DISPLAY), 'ok');
  assert.equal(standing(made, { ...DISPLAY, zoom: 1.5 }), 'zoomed');
  for (const other of [{ ratio: 2 }, { width: 412 }, { height: 800 }, { page: 300 }, { upright: false }]) {
    assert.equal(standing(made, { ...DISPLAY, ...other }), 'changed');
  }
  const before = { ...made, display: { ...DISPLAY, page: undefined } }; // made when the page's width was not kept
  assert.equal(standing(before, DISPLAY), 'ok');
});

test('as many whole link pairs as fit, and a round length for the rule', () => {
  // 10 pitches at 3 % longer are 130.81 mm; at 6 px/mm that is 784.86 px.
  assert.equal(fitting(785, 6, 12.7), 10);
  assert.equal(fitting(784, 6, 12.7), 8);
  assert.equal(roundLength(640, 6.3, 10), 90);
});

/** A generator with a seed (a linear congruence; constants from memory). @param {number} seed */
function seeded(seed) {
  let state = seed >>> 0;
  const uniform = () => (state = (Math.imul(state, 1664525) + 1013904223) >>> 0) / 2 ** 32;
  return {
    between: (/** @type {number} */ half) => (2 * uniform() - 1) * half,
    normal: () => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform()),
  };
}

/**
 * Somebody sets the marks: rays from an eye at its own place over each end,
 * drawn through the pin or line to the lit layer, then rounded to what the
 * display can show. Written from the ray, not from the budget.
 * @param {ReturnType<typeof seeded>} random
 * @param {number} mm true length
 * @param {number} above mm between the lit layer and what is sighted
 * @param {number} pxPerMM true
 */
function set(random, mm, above, pxPerMM) {
  const end = (/** @type {number} */ at) => {
    const eye = { x: at + 3 * random.normal(), z: 300 + above };
    const shadow = eye.x + ((at - eye.x) * eye.z) / (eye.z - above);
    return shadow + 0.05 * random.normal();
  };
  const device = (end(mm) - end(0)) * pxPerMM * DISPLAY.ratio;
  return Math.round(device) / DISPLAY.ratio;
}

// The promise: what the budget says is what happens, within 15 %.
for (const against of /** @type {const} */ (['rule', 'card'])) {
  test(`stated uncertainty against ${against} is what 4,000 simulated people reach`, () => {
    const random = seeded(20260601);
    const pxPerMM = 6.2998;
    const length = 127 * 1.006;
    let squares = 0;
    let stated = 0;
    let refused = 0;
    const people = 4000;
    for (let i = 0; i < people; i++) {
      const nominal = against === 'card' ? CARD_MM : 100;
      const real = nominal + random.between(against === 'card' ? 0.125 : 0.05);
      const settings = Array.from({ length: SETTINGS }, () => set(random, real, 1.5, pxPerMM));
      const made = calibrated(against, nominal, settings, DISPLAY, AT);
      const spans = Array.from({ length: SPANS }, () => set(random, length, 7, pxPerMM));
      const span = typeof made === 'object' ? measured(spans, made) : null;
      if (typeof made !== 'object' || !span) {
        refused += 1;
        continue;
      }
      squares += (span.px / made.px_per_mm / length - 1) ** 2;
      stated += Math.hypot(span.standard_uncertainty / span.px, made.standard_uncertainty / made.px_per_mm) ** 2;
    }
    const ratio = Math.sqrt(stated / squares);
    assert.ok(ratio > 0.85 && ratio < 1.15, `stated over simulated ${ratio.toFixed(3)}`);
    assert.ok(refused < people / 500, `${refused} refused`);
  });
}
