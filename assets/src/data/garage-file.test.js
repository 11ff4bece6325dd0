import assert from 'node:assert/strict';
import { test } from 'node:test';
import { Splitter, partsOf } from './garage-file.js';

/** @param {string} text @param {number} step characters fed at once */
function split(text, step) {
  const splitter = new Splitter();
  const parts = [];
  for (let i = 0; i < text.length; i += step) parts.push(...splitter.split(text.slice(i, i + step)));
  return { parts, rest: splitter.end() };
}

const RECORD = {
  record_id: 'r',
  fields: { name: 'a "quote" \\ and ] } , [ {', list: [[1], { deep: ['"'] }], note: '🚲é' },
};

// What the records are is asked of the language's own reader of JSON.
test('the records of a file are what JSON.parse finds in it, wherever it is cut', () => {
  const many = Array.from({ length: 250 }, (_, i) => ({ ...RECORD, record_id: `r${i}` }));
  const file = {
    format: 'f',
    refused: [{ tables: { bikes: [1, 2] } }],
    tables: { bikes: many, none: [], 'o"d': [RECORD] },
  };
  for (const text of [JSON.stringify(file), JSON.stringify(file, null, 2)]) {
    for (const step of [1, 7, 1000, text.length]) {
      const { parts, rest } = split(text, step);
      assert.deepEqual(
        parts.map(({ table, first, records }) => [table, first, records.length]),
        [
          ['bikes', 0, 100],
          ['bikes', 100, 100],
          ['bikes', 200, 50],
          ['o\\"d', 0, 1],
        ],
      );
      assert.deepEqual(
        parts.slice(0, 3).flatMap(({ records }) => records.map((one) => JSON.parse(one))),
        many,
      );
      assert.deepEqual(JSON.parse(rest), { ...file, tables: { bikes: [], none: [], 'o"d': [] } });
    }
  }
});

test('what is no such file stays what it is, for the engine to judge', () => {
  for (const text of [
    '',
    '[]',
    '{}}',
    '{"format":',
    '{"tables":[]}',
    '{"tables":{"bikes":{"a":[1]}}}',
    'no JSON "at all',
  ]) {
    assert.deepEqual(split(text, 1), { parts: [], rest: text }, text);
  }
});

test('nothing that is wrong between records is lost on the way', () => {
  const list = (/** @type {string} */ inside) =>
    split(`{"tables":{"bikes":[${inside}]}}`, 3).parts.flatMap(({ records }) => records);
  assert.deepEqual(list('{},'), ['{}', '']);
  assert.deepEqual(list(',{}'), ['', '{}']);
  assert.deepEqual(list('{} {}'), ['{} {}']);
  assert.deepEqual(list('{}}'), ['{}}']);
  assert.deepEqual(split('{"tables":{"bikes":[{},{"a', 5), { parts: [], rest: '{"tables":{"bikes":[{"a' });
});

test('a file is read to its end, and one that never ends is given up', async () => {
  const text = JSON.stringify({ tables: { bikes: Array.from({ length: 5000 }, () => RECORD) } });
  let [count, share] = [0, 0];
  for await (const { records } of partsOf(new Blob([text]), (now) => (share = now))) count += records.length;
  assert.deepEqual([count, share], [5000, 1]);
  const endless = new Blob([`{"tables":{"bikes":["${'a'.repeat(9 * 1024 * 1024)}`]);
  const reading = partsOf(endless);
  const { value } = await reading.next();
  assert.ok(String(value).length < 5 * 1024 * 1024);
});
