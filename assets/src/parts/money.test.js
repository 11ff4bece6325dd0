import assert from 'node:assert/strict';
import { test } from 'node:test';
import { amount, digits, money, readMoney } from './money.js';

// Digits after the point as ISO 4217 lists them: EUR 2, JPY 0, KWD 3.
test('minor units follow the currency', () => {
  assert.deepEqual(['EUR', 'JPY', 'KWD', 'not one'].map(digits), [2, 0, 3, 2]);
  assert.equal(money(3550, 'EUR'), '35.50\u00a0EUR');
  assert.equal(amount(1200, 'JPY'), '1200');
});

test('sums are read as typed, and nothing else is a sum', () => {
  assert.equal(readMoney('35', 'EUR'), 3500);
  assert.equal(readMoney('35,5', 'EUR'), 3550);
  assert.equal(readMoney('1 200.00', 'EUR'), 120_000);
  assert.equal(readMoney('1200', 'JPY'), 1200);
  assert.equal(readMoney('', 'EUR'), null);
  for (const bad of ['-1', '1.234', '1e3', 'NaN', '9999999999', '1.2.3', 'x']) {
    assert.ok(Number.isNaN(readMoney(bad, 'EUR')), bad);
  }
  assert.ok(Number.isNaN(readMoney('12.5', 'JPY')));
});
