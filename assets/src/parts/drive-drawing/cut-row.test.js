import assert from 'node:assert/strict';
import { test } from 'node:test';
import { pieces, pitches } from './cut-row.js';

test('every pair of the stock chain is there once, kept ones first', () => {
  const all = pieces({ keep_pairs: 53, half_links: 0, remove_pairs: 5, remove_half_links: 0 });
  assert.equal(all.length, 58);
  assert.equal(pitches(all), 116);
  assert.equal(all.filter((one) => one.kept).length, 53);
  assert.equal(
    all.findIndex((one) => !one.kept),
    53,
  );
  assert.deepEqual([all[57].row, all[57].column], [5, 7]);
});

test('half links stand at the end of their part', () => {
  const all = pieces({ keep_pairs: 3, half_links: 1, remove_pairs: 1, remove_half_links: 1 });
  assert.deepEqual(
    all.map((one) => `${one.kind} ${one.kept ? 'on' : 'off'}`),
    ['pair on', 'pair on', 'pair on', 'half on', 'pair off', 'half off'],
  );
});

test('an empty cut is an empty row', () => {
  assert.deepEqual(pieces({ keep_pairs: 0, half_links: 0, remove_pairs: 0, remove_half_links: 0 }), []);
});
