import assert from 'node:assert/strict';
import { test } from 'node:test';
import { SPANS, cleared, emptyDraft, entered, entry, nudged, thrice, withEntry, withSpanName } from './draft.js';
import { Unsendable, largest, probe, requests, shownMM } from './request.js';

test('the first draft assumes the strictest limit and holds no reading', () => {
  const draft = emptyDraft('mixed');
  assert.equal(entered(draft), false);
  assert.deepEqual(requests(draft), []);
  assert.equal(draft.drive.chosen, false);
  assert.ok(draft.drive.sprockets >= 11, '11 or more sprockets is the strictest default limit');
});

test('one nudge on a 1/16 in rule is 12 1/16 in over 24 pitches', () => {
  const draft = nudged(emptyDraft('imperial'), 1);
  assert.deepEqual(requests(draft), [
    {
      drive: 'derailleur',
      rear_sprockets: 11,
      reading: { kind: 'rule', pitches: 24, span_text: '12 1/16 in', resolution_in: '1/16' },
    },
  ]);
  // common practice, no source: 12 1/16 in over 24 pitches is 0.5208 %
  assert.ok(Math.abs((entry(draft)?.mm ?? 0) / (24 * 12.7) - 1 - 0.005208) < 1e-6);
});

test('what is typed goes to the engine as typed, with a unit', () => {
  const inch = emptyDraft('imperial');
  const metric = emptyDraft('metric');
  /** @type {[import('./draft.js').Draft, string, string][]} */
  const rows = [
    [inch, '12 1/16', '12 1/16 in'],
    [inch, '12-1/16"', '12-1/16"'],
    [inch, '30.64 cm', '30.64 cm'],
    [metric, '306,4', '306,4 mm'],
    [metric, 'twelve', 'twelve'],
    [metric, '12.06″', '12.06″'],
  ];
  for (const [draft, text, sent] of rows) {
    const [request] = /** @type {any[]} */ (requests(withEntry(draft, { text, mm: null })));
    assert.equal(request.reading.span_text, sent);
  }
});

test('measure thrice keeps every place and goes by the largest', () => {
  let draft = thrice(nudged(emptyDraft('imperial'), 1), true);
  assert.equal(draft.rule.active, 1);
  draft = nudged(draft, 2);
  assert.deepEqual(
    draft.rule.places.map((place) => place && place.text),
    ['12 1/16 in', '12 1/8 in', null],
  );
  assert.equal(requests(draft).length, 2);
  const answers = [0.52, 1.04, 0.1].map((elongation_percent) => /** @type {any} */ ({ elongation_percent }));
  assert.equal(largest(answers), 1);
});

test('a single drive sends no sprocket count', () => {
  const draft = nudged({ ...emptyDraft('metric'), drive: { kind: 'single', sprockets: 11, chosen: true } }, 1);
  assert.equal('rear_sprockets' in requests(draft)[0], false);
});

test('a gauge sends only the steps that were tried', () => {
  const draft = /** @type {import('./draft.js').Draft} */ ({ ...emptyDraft('metric'), instrument: 'gauge' });
  assert.deepEqual(requests(draft), []);
  draft.gauge.steps[0].drops = true;
  draft.gauge.steps[1].drops = false;
  const [request] = /** @type {any[]} */ (requests(draft));
  assert.deepEqual(request.reading, {
    kind: 'gauge',
    bears_on: 'same_side',
    steps: [
      { percent: 0.5, drops: true },
      { percent: 0.75, drops: false },
    ],
  });
});

test('compare and caliper refuse what is not a length', () => {
  for (const instrument of /** @type {const} */ (['compare', 'caliper'])) {
    const draft = withEntry({ ...emptyDraft('metric'), instrument }, { text: 'long', mm: null });
    assert.throws(() => requests(draft), Unsendable);
  }
  const odd = nudged({ ...emptyDraft('metric'), instrument: 'caliper' }, 1);
  odd.caliper.roller = '';
  assert.throws(
    () => requests(odd),
    (error) => error instanceof Unsendable && error.field === 'reading.roller_mm',
  );
});

test('an answer is shown where the instrument showed it', () => {
  const draft = emptyDraft('imperial');
  const answer = /** @type {any} */ ({ elongation_percent: 0.4, correction_percent: 0.1 });
  // 0.5 % over 304.8 mm is 306.324 mm, over 1270 mm 6.35 mm, over 127 mm 0.635 mm.
  assert.ok(Math.abs(shownMM(draft, answer) - 306.324) < 1e-9);
  assert.ok(Math.abs(shownMM({ ...draft, instrument: 'compare' }, answer) - 6.35) < 1e-9);
  assert.ok(Math.abs(shownMM({ ...draft, instrument: 'caliper' }, answer) - (127 + 0.635 - 7.75)) < 1e-9);
});

test('the probe asks about a chain of nominal length', () => {
  const draft = emptyDraft('imperial');
  /** @type {any} */
  const rule = probe(draft);
  assert.equal(rule.reading.span_text, `${24 * 12.7} mm`);
  /** @type {any} */
  const compare = probe({ ...draft, instrument: 'compare' });
  assert.equal(compare.reading.growth_mm, 0);
});

test('a change of span empties the reading and keeps the marks in its unit', () => {
  const draft = withSpanName(nudged(emptyDraft('imperial'), 1), 'mm254');
  assert.equal(entered(draft), false);
  assert.equal(draft.rule.marks, 'mm05');
  assert.equal(withSpanName(draft, 'mm300').rule.pitches, 22);
});

test('every span on offer counts whole pairs', () => {
  for (const { pitches } of Object.values(SPANS)) assert.equal(pitches % 2, 0);
});

test('clearing keeps instrument, drive and marks', () => {
  const draft = cleared(nudged(emptyDraft('imperial'), 3));
  assert.deepEqual(draft, emptyDraft('imperial'));
});
