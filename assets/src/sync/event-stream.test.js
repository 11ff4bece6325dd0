import assert from 'node:assert/strict';
import { test } from 'node:test';
import { eventReader } from './event-stream.js';

/** As the HTML standard, section 9.2.6, has it, with its own examples among them. */
const ROWS = [
  ['event: cursor\nid: a-1\ndata: {}\n\n', [{ event: 'cursor', id: 'a-1', data: '{}' }]],
  [': open\n\nevent: cursor\ndata: 1\n\n', [{ event: 'cursor', id: '', data: '1' }]],
  ['data: YHOO\ndata: +2\ndata: 10\n\n', [{ event: 'message', id: '', data: 'YHOO\n+2\n10' }]],
  [
    'data: first\nid: 1\n\ndata:second\nid\n\ndata:  third\n\n',
    [
      { event: 'message', id: '1', data: 'first' },
      { event: 'message', id: '', data: 'second' },
      { event: 'message', id: '', data: ' third' },
    ],
  ],
  [
    'data\r\rdata\r\ndata\r\n\r\n',
    [
      { event: 'message', id: '', data: '' },
      { event: 'message', id: '', data: '\n' },
    ],
  ],
  ['event: lost\n\ndata: kept: with a colon\n\n', [{ event: 'message', id: '', data: 'kept: with a colon' }]],
  ['data: not whole\n', []],
  ['unknown: field\nretry: 10\n\n', []],
];

test('events are read however the text is cut', () => {
  for (const [text, want] of ROWS) {
    for (let size = 1; size <= text.length; size++) {
      const read = eventReader();
      const got = [];
      for (let i = 0; i < text.length; i += size) got.push(...read(String(text).slice(i, i + size)));
      assert.deepEqual(got, want, `${JSON.stringify(text)} in pieces of ${size}`);
    }
  }
});
