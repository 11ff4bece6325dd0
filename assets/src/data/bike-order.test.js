import assert from 'node:assert/strict';
import { test } from 'node:test';
import { byUrgency, search, standing, urgency } from './bike-order.js';

/**
 * @param {string} name
 * @param {string|null} verdict
 * @param {number} [left]
 * @param {Record<string, any>} [more]
 * @returns {any}
 */
function bike(name, verdict, left = 500, more = {}) {
  return {
    fields: { name, ...more },
    fitted_chain_id: 'chain',
    last_reading: verdict && {},
    judged: verdict && { verdict },
    forecast: { km_to_limit: { p50: left }, probability_past_limit_now: left ? 0 : 0.6, check_again_in_km: left - 100 },
  };
}

test('the most urgent bike stands first, and a bike nobody measured before one known to be well', () => {
  const bikes = [
    bike('well', 'ride', 900),
    bike('Äpfel', 'ride', 900),
    { ...bike('no chain', null), fitted_chain_id: null },
    bike('never read', null),
    bike('check due', 'ride', 50),
    bike('soon', 'plan', 300),
    bike('sooner', 'plan', 100),
    bike('slipped', 'measure_again'),
    bike('worn', 'change', 0),
    bike('very worn', 'change_and_inspect', 0),
    { ...bike('held', 'ride', 900), round: { state: 'held' } },
    { ...bike('not worked out', 'ride'), forecast: null, judged: null },
  ];
  assert.deepEqual(
    byUrgency(bikes).map(({ fields }) => fields.name),
    [
      'held',
      'very worn',
      'worn',
      'slipped',
      'sooner',
      'soon',
      'check due',
      'never read',
      'not worked out',
      'Äpfel',
      'well',
      'no chain',
    ],
  );
  assert.equal(urgency(bikes[4]), 'due');
  assert.deepEqual(byUrgency([]), []);
});

test('search finds words in any order, whatever their accents and capitals', () => {
  const bikes = [
    bike('Loaner 4', null, 0, { tag: 'K-04', set: 'loaners' }),
    bike('Vélo bleu', null, 0, { note: 'basket' }),
    bike('loaner 14', null),
  ];
  const found = (/** @type {string} */ query) => search(bikes, query).map(({ fields }) => fields.name);
  assert.deepEqual(found(''), ['Loaner 4', 'Vélo bleu', 'loaner 14']);
  assert.deepEqual(found('  LOANER '), ['Loaner 4', 'loaner 14']);
  assert.deepEqual(found('k-04 loan'), ['Loaner 4']);
  assert.deepEqual(found('velo'), ['Vélo bleu']);
  assert.deepEqual(found('BASKÉT'), ['Vélo bleu']);
  assert.deepEqual(found('.*'), []);
});

test('a verdict is never kinder than the forecast has become since the reading', () => {
  assert.equal(standing(bike('well', 'ride', 900)), 'ride');
  assert.equal(standing(bike('due', 'ride', 50)), 'plan');
  assert.equal(standing(bike('run on', 'ride', 0)), 'change');
  assert.equal(standing(bike('run on', 'plan', 0)), 'change');
  assert.equal(standing(bike('very worn', 'change_and_inspect', 900)), 'change_and_inspect');
  assert.equal(standing(bike('slipped', 'measure_again', 0)), 'measure_again');
  assert.equal(standing({ ...bike('bare', 'ride'), fitted_chain_id: null }), 'none');
  assert.equal(standing(bike('never read', null)), 'none');
});
