import assert from 'node:assert/strict';
import { test } from 'node:test';
import { NO_TOOL } from '../app/kit-state.js';
import { emptyDraft, withEntry } from './draft.js';
import { fieldsOf, formOf, instrumentOf, marksOf, percentOf, stepsOf, unreadable, withMine } from './instruments.js';
import { probe, requests } from './request.js';

test('percentages are read with comma or point, a sign and a percent sign, and nothing else', () => {
  assert.equal(percentOf('0.05'), 0.05);
  assert.equal(percentOf(' -0,05 % '), -0.05);
  assert.equal(percentOf('−.1'), -0.1);
  assert.equal(percentOf(''), null);
  for (const bad of ['a', '1e5', '0.05.1', 'NaN', '1000', '--1', '0x1']) assert.ok(Number.isNaN(percentOf(bad)), bad);
  assert.deepEqual(stepsOf('0,75; 0.5 1'), [0.5, 0.75, 1]);
  assert.deepEqual(stepsOf('0.5, 0.75'), [0.5, 0.75]);
  assert.deepEqual(unreadable({ ...NO_TOOL, bias: 'x' }), ['bias']);
  assert.deepEqual(unreadable({ ...NO_TOOL, kind: 'gauge', steps: '0.5 x' }), ['steps']);
});

test('a record comes back as it was typed, and what is emptied is cleared', () => {
  const rule = { ...NO_TOOL, name: ' Steel rule ', bias: '-0.05' };
  const put = fieldsOf(rule, true);
  assert.deepEqual(put, { name: 'Steel rule', kind: 'rule', resolution_mm: 25.4 / 32, bias_percent: -0.05 });
  assert.deepEqual(formOf(put), { ...rule, name: 'Steel rule', bias: '−0.05' });
  assert.equal(fieldsOf({ ...rule, bias: '' }, false).bias_percent, null);
  const gauge = { ...NO_TOOL, name: 'G', kind: /** @type {const} */ ('gauge'), steps: '0.75 0.5' };
  assert.deepEqual(fieldsOf(gauge, true), { name: 'G', kind: 'gauge', steps: [0.5, 0.75], bears_on: 'same_side' });
});

test('a resolution finds the marks nearest to it', () => {
  assert.equal(marksOf(0.8), 'in32');
  assert.equal(marksOf(0.5), 'mm05');
  assert.equal(marksOf(1e-9), 'mm001');
  assert.equal(marksOf(1000), 'in16');
});

test('an instrument brings its marks, ends and bias into every reading taken with it', () => {
  const row = (/** @type {any} */ fields) => ({ table: 'instruments', record_id: 'id', fields });
  const draft = withMine(
    emptyDraft('mixed'),
    row({ name: 'R', kind: 'rule', resolution_mm: 25.4 / 32, bias_percent: 0.05 }),
  );
  assert.equal(draft.rule.marks, 'in32');
  assert.deepEqual(instrumentOf(draft), { instrument_id: 'id' });
  const [one] = /** @type {any[]} */ (requests(withEntry(draft, { text: '12 1/16', mm: null })));
  assert.equal(one.reading.bias_percent, 0.05);
  assert.equal(/** @type {any} */ (probe(draft)).reading.bias_percent, 0.05);
  const other = { ...draft, instrument: /** @type {const} */ ('caliper') };
  assert.equal(/** @type {any} */ (probe(other)).reading.bias_percent, undefined, 'another kind is not biased');
  assert.deepEqual(instrumentOf(withMine(draft, null)), {});
  const gauge = { ...emptyDraft('mixed'), instrument: /** @type {const} */ ('gauge') };
  const ends = withMine(gauge, row({ kind: 'gauge', steps: [0.4], bears_on: 'opposed_rollers' })).gauge;
  assert.deepEqual(ends, { steps: [{ percent: 0.4, drops: null }], bears_on: 'opposed_rollers' });
});
