import assert from 'node:assert/strict';
import { readFileSync, readdirSync } from 'node:fs';
import { test } from 'node:test';

const SRC = new URL('../', import.meta.url);

/** @param {RegExp} name @returns {string} all files of the page that are called so */
function all(name) {
  return readdirSync(SRC, { recursive: true, encoding: 'utf8' })
    .filter((file) => name.test(file) && !file.includes('.test.') && !/^words.(de|en)[-.]/.test(file))
    .map((file) => readFileSync(new URL(file, SRC), 'utf8'))
    .join('\n');
}

test('no rule of the style sheets is about a class that nothing has', () => {
  const drawn = all(/\.(js|html)$/);
  const begun = [...drawn.matchAll(/([a-z-]+-)\$\{/g)].map(([, begin]) => begin); // bar-${state}
  const selectors = all(/\.css$/)
    .replace(/\/\*[^]*?\*\//g, '')
    .matchAll(/([^{}]+)\{/g);
  const classes = new Set(
    [...selectors].flatMap(([, text]) => [...text.matchAll(/\.([a-z][\w-]*)/gi)].map(([, one]) => one)),
  );
  assert.ok(classes.size > 100);
  const unused = [...classes].filter(
    (one) => !new RegExp(`(?<![\\w-])${one}(?![\\w-])`).test(drawn) && !begun.some((begin) => one.startsWith(begin)),
  );
  assert.deepEqual(unused, []);
});
