import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { test } from 'node:test';

const css = readFileSync(new URL('tokens.css', import.meta.url), 'utf8');

/** @param {string} selector @returns {Record<string, string>} its custom properties */
function tokens(selector) {
  const block = css.slice(css.indexOf(`${selector} {`)).split('}')[0];
  return Object.fromEntries(
    [...block.matchAll(/--([a-z-]+): (#[0-9a-f]{6})/g)].map(([, name, value]) => [name, value]),
  );
}

/** Relative luminance and contrast as WCAG 2.2 defines them. @param {string} hex */
function luminance(hex) {
  const [r, g, b] = [1, 3, 5]
    .map((i) => parseInt(hex.slice(i, i + 2), 16) / 255)
    .map((c) => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4));
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

/** @param {string} a @param {string} b */
function contrast(a, b) {
  const [low, high] = [luminance(a), luminance(b)].sort((x, y) => x - y);
  return (high + 0.05) / (low + 0.05);
}

const light = tokens(':root');
const dark = tokens(":root[data-theme='dark']");

test('the dark set is the same for the phone and for the rider', () => {
  assert.deepEqual(tokens(":root:not([data-theme='light'])"), dark);
  assert.deepEqual(Object.keys(dark).sort(), Object.keys(light).sort());
});

test('black on white is 21:1', () => {
  // WCAG 2.2, definition of contrast ratio.
  assert.ok(Math.abs(contrast('#000000', '#ffffff') - 21) < 1e-9);
});

for (const [name, set] of Object.entries({ light, dark })) {
  test(`${name}: text and verdicts have at least 7:1`, () => {
    for (const [text, under] of [
      ['ink', 'paper'],
      ['ink', 'sheet'],
      ['soft', 'paper'],
      ['soft', 'sheet'],
      ['ink', 'brass-pale'],
      ['on-brass', 'brass'],
      ['on-strong', 'strong'],
    ]) {
      assert.ok(contrast(set[text], set[under]) >= 7, `${text} on ${under}: ${contrast(set[text], set[under])}`);
    }
  });

  test(`${name}: the edge of a control has at least 3:1`, () => {
    for (const under of ['paper', 'sheet']) assert.ok(contrast(set.line, set[under]) >= 3, under);
  });
}
