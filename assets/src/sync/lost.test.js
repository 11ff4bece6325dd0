import assert from 'node:assert/strict';
import { test } from 'node:test';
import { kept, toTell } from './lost.js';

const [A, B] = ['00000000-0000-4000-8000-00000000000a', '00000000-0000-4000-8000-00000000000b'];
const OP = '017f22e2-79b0-7cc3-98c4-000000000001';
/** @param {number} n @param {string} device */
const at = (n, device) => `2026-03-01T08:00:00.00${n}Z-0000 ${device} ${OP}`;
/** @param {Record<string, [any, number, string]>} cells value, when, by whom @param {[number, string]} [removed] @returns {any} */
function row(cells, removed) {
  const entries = Object.entries(cells);
  return {
    ...{ table: 'care', record_id: 'r', removed: removed !== undefined, removed_at: removed && at(...removed) },
    fields: Object.fromEntries(entries.map(([name, [value]]) => [name, value])),
    stamps: Object.fromEntries(entries.map(([name, [, n, device]]) => [name, at(n, device)])),
  };
}
/** @param {ReturnType<typeof toTell>} told */
const short = (told) =>
  told.map(({ put, remove, hlc, device_id }) => [Number(hlc.slice(22, 23)), device_id.slice(-1), put ?? remove]);

const made = row({ at: ['x', 1, A], note: ['n', 1, A] });
const both = row({ at: ['y', 3, B], note: ['n', 1, A], did: [null, 2, A] });

test('a leader tells what is missing or older there, each at its clock and in the name of who made it', () => {
  const leader = { role: 'leader', device_id: B };
  assert.deepEqual(short(toTell(both, made, leader)), [
    [2, 'a', { did: null }],
    [3, 'b', { at: 'y' }],
  ]);
  assert.deepEqual(toTell(made, both, leader), [], 'the server knows more');
  const anew = { ...made, stamps: { at: made.stamps.at.replace(OP, 'told again'), note: made.stamps.note } };
  assert.deepEqual(toTell(made, anew, leader), [], 'another phone has told it, in an operation of its own');
});

test('a record that is gone begins with all of it, at its first clock', () => {
  assert.deepEqual(short(toTell(both, undefined, { role: 'owner', device_id: B })), [
    [1, 'a', { at: 'y', note: 'n', did: null }],
    [2, 'a', { did: null }],
    [3, 'b', { at: 'y' }],
  ]);
  const hidden = row({ at: ['x', 1, A] }, [4, B]);
  assert.deepEqual(short(toTell(hidden, undefined, { role: 'owner', device_id: B })), [
    [1, 'a', { at: 'x' }],
    [4, 'b', true],
  ]);
  assert.deepEqual(short(toTell(hidden, row({ at: ['x', 1, A] }), { role: 'owner', device_id: A })), [[4, 'b', true]]);
  const back = { ...hidden, removed: false, removed_at: at(0, B) };
  assert.deepEqual(
    toTell(back, row({ at: ['x', 1, A] }), { role: 'owner', device_id: A }),
    [],
    'it is not hidden any more',
  );
});

test('others tell what they had a hand in, as themselves, and keep the rest', () => {
  assert.deepEqual(toTell(made, undefined, { role: 'checker', device_id: B }), []);
  assert.deepEqual(toTell(made, undefined, { role: 'viewer', device_id: B }), []);
  const own = toTell(both, undefined, { role: 'checker', device_id: A });
  assert.deepEqual(
    own.map(({ device_id }) => device_id),
    [A, A, A],
  );
  const joinedAgain = toTell(made, undefined, { role: 'checker', device_id: B, former: [A] });
  assert.deepEqual(short(joinedAgain), [[1, 'b', { at: 'x', note: 'n' }]]);
  assert.deepEqual(kept(both, undefined), both);
  const late = kept(both, row({ at: ['x', 1, A], note: ['newer', 5, A] }));
  assert.deepEqual(late.fields, { at: 'y', note: 'newer', did: null });
  assert.equal(late.stamps.at, both.stamps.at);
});
