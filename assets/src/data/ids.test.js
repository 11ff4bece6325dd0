import assert from 'node:assert/strict';
import { test } from 'node:test';
import { newId } from './ids.js';

test('ids are UUIDs of version 4 and differ', () => {
  // RFC 9562, section 5.4: version 0b0100, variant 0b10.
  const ids = new Set(Array.from({ length: 1000 }, newId));
  assert.equal(ids.size, 1000);
  for (const id of ids) assert.match(id, /^[0-9a-f]{8}-[0-9a-f]{4}-4[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/);
});
