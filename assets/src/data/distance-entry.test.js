import assert from 'node:assert/strict';
import { test } from 'node:test';
import { gone, goneSince, shownAt } from './distance-entry.js';

const known = { km: 5200, shown: 5200, chainKM: 1200 };

test('nothing typed is the last known count', () => {
  assert.deepEqual(gone({ mode: 'odometer', text: '' }, known, 'metric'), {
    fault: '',
    km: 5200,
    chainKM: 1200,
    earlier: false,
    put: null,
  });
});

test('an odometer entry moves bike and chain by the same distance', () => {
  const then = gone({ mode: 'odometer', text: '5 450' }, known, 'metric');
  assert.equal(then.km, 5450);
  assert.equal(then.chainKM, 1450);
  assert.deepEqual(then.put, { odometer_km: 5450 });
});

test('after a new odometer the count goes on from where it was', () => {
  // 5200 on the bike's own count, while the new odometer shows 200.
  const then = gone({ mode: 'odometer', text: '260' }, { ...known, shown: 200 }, 'metric');
  assert.equal(then.km, 5260);
  assert.equal(then.chainKM, 1260);
});

test('what was ridden since adds up, in miles where miles are set', () => {
  const then = gone({ mode: 'since', text: '100' }, known, 'imperial');
  assert.equal(then.chainKM, 1360.934); // 100 statute miles, to the metre
  assert.deepEqual(then.put, { add_km: 160.934 });
  assert.equal(gone({ mode: 'since', text: '0' }, known, 'metric').put, null);
});

test('an earlier count is taken as of then and adds no distance; before the chain is a fault', () => {
  const then = gone({ mode: 'odometer', text: '4500' }, known, 'metric');
  assert.deepEqual([then.chainKM, then.earlier, then.put], [500, true, null]);
  assert.equal(gone({ mode: 'odometer', text: '3900' }, known, 'metric').fault, 'before');
});

test('slips are refused', () => {
  assert.equal(gone({ mode: 'odometer', text: '545000' }, known, 'metric').fault, 'far');
  for (const text of ['x', '-1', '1e5', 'Infinity', '<b>']) {
    assert.equal(gone({ mode: 'since', text }, known, 'metric').fault, 'unreadable', text);
  }
});

test('the odometer shows its last entry and the rides since', () => {
  assert.equal(shownAt([]), null);
  assert.equal(shownAt([{ at: '2026-03-03T08:00:00Z', add_km: 40 }]), null);
  assert.equal(
    shownAt([
      { at: '2026-03-03T08:00:00Z', add_km: 40 },
      { at: '2026-03-01T08:00:00Z', odometer_km: 1000 },
      { at: '2026-02-01T08:00:00Z', add_km: 900 },
    ]),
    1040,
  );
  // Times of different zones: 09:00+02:00 is before 08:00Z.
  assert.equal(
    shownAt([
      { at: '2026-03-01T09:00:00+02:00', odometer_km: 500 },
      { at: '2026-03-01T08:00:00Z', odometer_km: 600 },
    ]),
    600,
  );
});

test('a reading of another day is taken at the count of that day', () => {
  const rows = [
    { at: '2026-03-01T08:00:00Z', odometer_km: 1000 },
    { at: '2026-03-03T08:00:00Z', add_km: 40 },
    { at: '2026-03-09T08:00:00Z', odometer_km: 1200 },
  ];
  assert.equal(goneSince(rows, '2026-03-02T08:00:00Z'), 200);
  assert.equal(goneSince(rows, '2026-03-04T08:00:00Z'), 160);
  assert.equal(goneSince(rows, '2026-03-10T08:00:00Z'), 0);
  assert.equal(goneSince(rows.slice(1, 2), '2026-03-02T08:00:00Z'), 40);
  assert.equal(goneSince([{ at: '2026-03-09T08:00:00Z', odometer_km: 5 }, rows[0]], '2026-03-02T08:00:00Z'), 0);
  const early = { km: 900, shown: 900, chainKM: -20 };
  assert.equal(gone({ mode: 'odometer', text: '' }, early, 'metric').fault, 'before', 'the chain was not on yet');
});
