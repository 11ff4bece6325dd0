import assert from 'node:assert/strict';
import { test } from 'node:test';
import { BUDGET, sizes, totals } from './size.js';

test('what a first visit loads stays within its budget', () => {
  const rows = sizes();
  const { engine, all, photo } = totals(rows);
  assert.ok(engine > 0, 'the engine is built; make build makes it');
  assert.ok(rows.some(({ name }) => name === 'index.html') && rows.some(({ name }) => name === 'sw.js'));
  assert.ok(engine <= BUDGET.engine, `engine: ${engine} bytes with brotli, at most ${BUDGET.engine}`);
  assert.ok(photo > 0 && photo <= BUDGET.photo, `photo: ${photo} bytes with brotli, at most ${BUDGET.photo}`);
  assert.ok(all <= BUDGET.all, `all: ${all} bytes with brotli, at most ${BUDGET.all}`);
});
