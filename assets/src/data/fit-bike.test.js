import assert from 'node:assert/strict';
import { test } from 'node:test';
import { bikeFromFit, fitFromBike, news } from './fit-bike.js';
import { emptyFit } from './fit-draft.js';
import { question } from './fit-request.js';

const derailleur = {
  name: 'Grey tourer',
  drive: 'derailleur',
  rear_sprockets: 9,
  chainrings: [28, 38, 48],
  sprockets: [11, 13, 15, 17, 20, 23, 26, 30, 34],
  chainstay_mm: 442.5,
  derailleur: { capacity_teeth: 43 },
  etrto: '37-622',
};
const fixed = {
  name: 'Canal hub',
  drive: 'hub',
  chainrings: [38],
  sprockets: [19],
  chainstay_mm: 461,
  adjust_mm: [-3, 14],
};

for (const units of /** @type {const} */ (['mixed', 'metric', 'imperial'])) {
  test(`a bike goes into every question and comes back unchanged, ${units}`, () => {
    const fit = fitFromBike(emptyFit(units), 'id', derailleur, { pitches: 112 }, units);
    const long = question({ ...fit, question: 'long' });
    assert.deepEqual([long.missing, long.unreadable], [[], []]);
    assert.equal(long.request.chainstay_mm, 442.5);
    assert.equal(long.request.fitted_pitches, 112);
    assert.equal(question({ ...fit, question: 'gears' }).request.longest_pitches, 112);
    for (const asked of /** @type {const} */ (['which', 'long', 'gears'])) {
      assert.deepEqual(news(bikeFromFit({ ...fit, question: asked }), derailleur), {}, asked);
    }
    const other = fitFromBike(fit, 'other', fixed, null, units);
    const centre = question({ ...other, question: 'long' });
    assert.equal(centre.name, 'centre');
    assert.deepEqual(centre.request.adjust_mm, [-3, 14]);
    assert.deepEqual(news(bikeFromFit({ ...other, question: 'long' }), fixed), {});
    assert.equal(other.length.fitted_pitches, '', 'nothing of the other bike stays behind');
  });
}

test('what was changed goes back to the bike, and nothing unreadable does', () => {
  const fit = fitFromBike(emptyFit('metric'), 'id', derailleur, null, 'metric');
  const length = {
    ...fit.length,
    chainstay_mm: { text: '44,4 cm', unit: /** @type {const} */ ('mm') },
    sprockets: 'eleven',
  };
  const put = news(bikeFromFit({ ...fit, question: 'long', length }), derailleur);
  assert.deepEqual(put, { chainstay_mm: 444 });
});

test('an axle of which nothing was said is not recorded as one that cannot move', () => {
  const fit = fitFromBike(emptyFit('metric'), 'id', { ...fixed, adjust_mm: undefined }, null, 'metric');
  assert.equal('adjust_mm' in bikeFromFit({ ...fit, question: 'long' }), false);
});
