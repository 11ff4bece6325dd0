import assert from 'node:assert/strict';
import { test } from 'node:test';
import { costRequest, readPrices } from './cost-request.js';

test('prices are read in the currency’s minor units', () => {
  assert.deepEqual(readPrices({ currency: 'eur', chain: '35', sprockets: '59,90', chainring: '0' }), {
    put: { currency: 'EUR', chain: 3500, sprockets: 5990, chainring: 0 },
    missing: [],
    unreadable: [],
  });
  assert.equal(readPrices({ currency: 'JPY', chain: '4200', sprockets: '', chainring: '' }).put.chain, 4200);
});

test('what is missing or no sum is named, and never worked out with', () => {
  const read = readPrices({ currency: 'euro', chain: '0', sprockets: 'x', chainring: '' });
  assert.deepEqual(read.missing, ['chain', 'chainring']);
  assert.deepEqual(read.unreadable, ['currency', 'sprockets']);
  assert.equal(read.put.sprockets, null);
});

test('the bike’s own limit is among those compared', () => {
  const prices = { currency: 'EUR', chain: 1, sprockets: 2, chainring: 3 };
  assert.deepEqual(costRequest(prices, { drive: 'hub' }, 0.6).change_at_percent, [0.5, 0.6, 0.75, 1]);
  assert.deepEqual(costRequest(prices, { drive: 'hub' }, 0.75), {
    currency: 'EUR',
    prices: { chain: 1, sprockets: 2, chainring: 3 },
    forecast: { drive: 'hub' },
    change_at_percent: [0.5, 0.75, 1],
  });
});
