import assert from 'node:assert/strict';
import { test } from 'node:test';
import { changesFor, emptyChange, lifeRequest } from './chain-change.js';

const AT = '2026-03-01T08:00:00Z';
const rule = { at_km: 900, reading: { kind: 'rule', pitches: 24, span_mm: 306.2 } };

/** @param {Record<string, any>} [more] @returns {any} */
const chain = (more = {}) => ({
  chain_id: 'old',
  place: 'on_bike',
  km: 900,
  reading_ids: [],
  forecast_request: { drive: 'hub', readings: [rule], now_km: 900, earlier_chains: [] },
  ...more,
});
const known = { fitted: chain(), next: null, km: 5900, distance: { odometer_km: 5900 }, pitches: 112 };

test('the old one is retired, the new one begins where the bike is', () => {
  const draft = {
    ...emptyChange('bike', { class: 'single_1_8', pitches: 110 }, 'odometer'),
    closure: 'spring_clip_joining_link',
  };
  assert.equal(draft.pitches, '110');
  assert.deepEqual(changesFor(draft, known, AT), [
    { table: 'distances', put: { bike_id: 'bike', at: AT, odometer_km: 5900 } },
    { table: 'chains', record_id: 'old', put: { retired_at: AT } },
    {
      table: 'chains',
      put: {
        bike_id: 'bike',
        fitted_at_km: 5900,
        km_before: 0,
        class: 'single_1_8',
        pitches: 112,
        closure: 'spring_clip_joining_link',
      },
    },
  ]);
});

test('in a rotation the old one rests, and a rested one keeps what it had run', () => {
  const draft = { ...emptyChange('bike', null, 'since'), old: /** @type {const} */ ('rest'), next: 'rested' };
  const next = chain({ chain_id: 'rested', place: 'resting', km: 1234.5 });
  assert.deepEqual(changesFor(draft, { ...known, next, distance: null }, AT), [
    { table: 'chains', record_id: 'rested', put: { fitted_at_km: 5900, km_before: 1234.5 } },
  ]);
});

test('nothing told is nothing written', () => {
  const draft = emptyChange('bike', null, 'since');
  assert.deepEqual(changesFor(draft, { ...known, fitted: null, distance: null, pitches: null }, AT), [
    { table: 'chains', put: { bike_id: 'bike', fitted_at_km: 5900, km_before: 0 } },
  ]);
});

test('the life of a new chain is asked from the finished ones', () => {
  const bike = { drive: 'derailleur', care: 'gritty', km_per_week: 80 };
  const request = lifeRequest(bike, chain(), true, undefined);
  assert.deepEqual(request, {
    drive: 'derailleur',
    rear_sprockets: 12,
    care: 'gritty',
    km_per_week: 80,
    readings: [],
    now_km: 0,
    earlier_chains: [{ readings: [rule] }],
  });
  assert.deepEqual(lifeRequest(bike, chain(), false, undefined).earlier_chains, []);
  const many = { readings: [], earlier_chains: Array(12).fill({ readings: [rule] }) };
  assert.equal(lifeRequest(bike, chain({ forecast_request: many }), true, undefined).earlier_chains.length, 12);
  assert.deepEqual(lifeRequest({ drive: 'hub', km_per_week: 0 }, null, true, undefined), {
    drive: 'hub',
    readings: [],
    now_km: 0,
    earlier_chains: [],
  });
});
