import assert from 'node:assert/strict';
import { test } from 'node:test';
import { chainChanges, chainForm } from './chain-form.js';

const chain = { bike_id: 'b', name: 'A', pitches: 114, limit_percent: 0.5, fitted_at_km: 1200.4, km_before: 0 };

test('a chain left alone changes nothing; what changed or was emptied is put', () => {
  assert.deepEqual(chainChanges(chainForm(chain, 'imperial'), chain, 'imperial'), { put: {}, unreadable: [] });
  const form = { ...chainForm(chain, 'metric'), name: '', pitches: '116', limit_percent: '0,75', km_before: '12' };
  assert.deepEqual(chainChanges(form, chain, 'metric').put, {
    name: null,
    pitches: 116,
    limit_percent: 0.75,
    km_before: 12,
  });
});

test('what cannot be read is named', () => {
  const form = { ...chainForm(chain, 'metric'), pitches: 'many', fitted_at_km: '-3' };
  assert.deepEqual(chainChanges(form, chain, 'metric'), { put: {}, unreadable: ['pitches', 'fitted_at_km'] });
});
