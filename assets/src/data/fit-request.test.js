import assert from 'node:assert/strict';
import { test } from 'node:test';
import { asked, emptied, emptyFit, restored, touched } from './fit-draft.js';
import { question } from './fit-request.js';

/** @param {string} text */
const mm = (text) => ({ text, unit: /** @type {const} */ ('mm') });
const fit = emptyFit('metric');

test('nothing entered asks nothing, and says what is needed', () => {
  assert.deepEqual(question(fit).missing, ['outer_width_mm']);
  assert.deepEqual(question({ ...fit, question: 'long' }).missing, ['chainstay_mm', 'chainrings', 'sprockets']);
  assert.deepEqual(question({ ...fit, question: 'long', drive: 'hub' }).missing, [
    'centre_mm',
    'chainring',
    'sprocket',
  ]);
  assert.deepEqual(question({ ...fit, question: 'gears' }).missing, ['chainrings', 'sprockets', 'etrto']);
});

test('which chain: widths, a span only with its count, the bike', () => {
  const which = {
    ...fit.which,
    drive: /** @type {const} */ ('derailleur'),
    rear_sprockets: 9,
    outer_width_mm: mm('6,6'),
    span_mm: mm('127'),
  };
  assert.deepEqual(question({ ...fit, which }).request, {
    drive: 'derailleur',
    rear_sprockets: 9,
    outer_width_mm: 6.6,
    span_mm: 127,
    pitches: 10,
  });
  const hub = { ...which, drive: /** @type {const} */ ('hub'), span_mm: mm('') };
  assert.deepEqual(question({ ...fit, which: hub }).request, { drive: 'hub', outer_width_mm: 6.6 });
});

test('how long with a derailleur', () => {
  const length = {
    ...fit.length,
    chainstay_mm: mm('410'),
    chainrings: '50 34',
    sprockets: '11-13-28',
    capacity_teeth: '33',
    stock_pitches: '116',
  };
  assert.deepEqual(question({ ...fit, question: 'long', length }).request, {
    chainstay_mm: 410,
    chainrings: [50, 34],
    sprockets: [11, 13, 28],
    derailleur: { capacity_teeth: 33 },
    stock_pitches: 116,
    add_pitches: 2,
    half_link_allowed: false,
  });
  const bad = { ...length, chainrings: 'fifty', chainstay_mm: mm('long'), max_sprocket: 'x' };
  assert.deepEqual(question({ ...fit, question: 'long', length: bad }).unreadable, [
    'chainstay_mm',
    'chainrings',
    'max_sprocket',
  ]);
});

test('how long without one: forward is negative, half a range is not a range', () => {
  const centre = {
    ...fit.centre,
    centre_mm: mm('415'),
    forward_mm: mm('4'),
    back_mm: mm('12'),
    chainring: '44',
    sprocket: '16',
    elongation_percent: '0,25',
  };
  const asks = question({ ...fit, question: 'long', drive: 'single', centre });
  assert.deepEqual(asks.request, {
    centre_mm: 415,
    chainring: 44,
    sprocket: 16,
    adjust_mm: [-4, 12],
    elongation_percent: 0.25,
    half_link_allowed: false,
  });
  const half = question({
    ...fit,
    question: 'long',
    drive: 'single',
    centre: { ...centre, slack_lo_mm: mm('8'), ratio_lo: '2,5', ratio_hi: '3' },
  });
  assert.deepEqual(half.missing, ['slack_hi_mm']);
  assert.equal(half.request.search, undefined);
  const whole = question({
    ...fit,
    question: 'long',
    drive: 'single',
    centre: {
      ...centre,
      chainrings_lo: '42',
      chainrings_hi: '46',
      sprockets_lo: '15',
      sprockets_hi: '18',
      ratio_lo: '2,5',
      ratio_hi: '3',
    },
  });
  assert.deepEqual(whole.request.search, { chainrings: [42, 46], sprockets: [15, 18], ratio: [2.5, 3] });
});

test('gears: a circumference stands in for the tyre size', () => {
  const gears = { ...fit.gears, chainrings: '44', sprockets: '16', etrto: '37-622' };
  assert.deepEqual(question({ ...fit, question: 'gears', gears }).request, {
    chainrings: [44],
    sprockets: [16],
    etrto: '37-622',
    cadence_rpm: 90,
  });
  const rolled = question({
    ...fit,
    question: 'gears',
    gears: { ...gears, wheel_circumference_mm: mm('2200') },
  }).request;
  assert.equal(rolled.wheel_circumference_mm, 2200);
  assert.equal(rolled.etrto, undefined);
});

test('emptying empties the open question only', () => {
  const full = {
    ...fit,
    question: /** @type {const} */ ('long'),
    length: { ...fit.length, chainrings: '44' },
    gears: { ...fit.gears, chainrings: '44' },
  };
  assert.equal(touched(full, 'metric'), true);
  const after = emptied(full, 'metric');
  assert.equal(after.length.chainrings, '');
  assert.equal(after.gears.chainrings, '44');
  assert.equal(touched(after, 'imperial'), false);
  assert.equal(asked(after), 'length');
});

test('what an older app kept is completed, and rubbish does no harm', () => {
  const old = restored({ question: 'gears', gears: { chainrings: '50 34' } }, 'metric');
  assert.equal(old.gears.chainrings, '50 34');
  assert.equal(old.gears.cadence_rpm, '90');
  assert.deepEqual(old.which, fit.which);
  assert.deepEqual(restored({}, 'metric'), fit);
});

test('the fitted chain, its pitch and the chainrings’ spacing go on where they are filled in', () => {
  const mm = (/** @type {string} */ text) => ({ text, unit: /** @type {const} */ ('mm') });
  const fit = emptyFit('metric');
  const length = { ...fit.length, fitted_pitches: '112', pitch_mm: mm('15.875') };
  const asked = question({ ...fit, question: 'long', length }).request;
  assert.deepEqual([asked.fitted_pitches, asked.pitch_mm], [112, 15.875]);
  const centre = { ...fit.centre, pitch_mm: mm('10') };
  assert.equal(question({ ...fit, question: 'long', drive: 'hub', centre }).request.pitch_mm, 10);
  const gears = { ...fit.gears, longest_pitches: '114', chainring_spacing_mm: mm('8'), pitch_mm: mm('1 in') };
  const geared = question({ ...fit, question: 'gears', gears }).request;
  assert.deepEqual([geared.longest_pitches, geared.chainring_spacing_mm, geared.pitch_mm], [114, 8, 25.4]);
  for (const name of ['pitch_mm', 'fitted_pitches']) {
    assert.equal(name in question({ ...fit, question: 'long' }).request, false, name);
  }
});
