import assert from 'node:assert/strict';
import { test } from 'node:test';
import { checkLine, known } from './photo.js';

// Worked by hand: 0.5/√6 = 0.2041, 0.1/√3 = 0.0577; one reading 0.2121, four 0.1172 mm.
test('the check line is the mean of what was read, with its uncertainty', () => {
  const one = checkLine(['239.5', '', '', '']);
  assert.equal(one.status, 'ok');
  assert.ok(one.status === 'ok' && one.mm === 239.5 && Math.abs(one.standard_uncertainty - 0.2121) < 1e-4);
  const four = checkLine(['239.5', '239,5', ' 240 mm', '239']);
  assert.ok(four.status === 'ok' && four.mm === 239.5 && Math.abs(four.standard_uncertainty - 0.1172) < 1e-4);
});

test('what is no reading of this line gives nothing', () => {
  for (const [readings, status] of /** @type {const} */ ([
    [[], 'none'],
    [['', ' '], 'none'],
    [['abc'], 'unreadable'],
    [['239.5', '-'], 'unreadable'],
    [['24'], 'far'],
    [['-240'], 'far'],
    [['253'], 'far'],
    [['239', '240.5'], 'wild'],
  ])) {
    const got = checkLine([...readings]).status;
    assert.ok(got === status || (status === 'far' && got === 'unreadable'), `${readings}: ${got}`);
  }
});

test('nothing is measured before scale and thickness are known', () => {
  const readings = ['239.5', '', '', ''];
  const thick = { frame: '', rule: '' };
  const both = { frame: '0.3', rule: '0.8' };
  assert.equal(known({ on: true, reference: 'frame', readings, thick }), null);
  assert.equal(known({ on: true, reference: 'frame', readings: [''], thick: both }), null);
  assert.equal(known({ on: true, reference: 'rule', readings, thick: { ...both, rule: '' } }), null);
  assert.deepEqual(known({ on: true, reference: 'rule', readings: [''], thick: both }), {
    reference: 'rule',
    thickness_mm: 0.8,
  });
  const frame = /** @type {any} */ (known({ on: true, reference: 'frame', readings, thick: both }));
  assert.deepEqual([frame.thickness_mm, frame.check_line_mm, frame.reference], [0.3, 239.5, undefined]);
});
