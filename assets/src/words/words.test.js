import assert from 'node:assert/strict';
import { readFileSync, readdirSync } from 'node:fs';
import { test } from 'node:test';
import { english } from './en.js';
import { percent, sentence } from './numbers.js';
import { list, t } from './t.js';

/** @type {Record<string, string>} */
const en = Object.assign({}, ...english);
const SRC = new URL('../', import.meta.url);

/** Every script of the page but the catalogues and the tests. */
function sources() {
  return readdirSync(SRC, { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.js') && !name.endsWith('.test.js') && !/^words.(de|en)[-.]/.test(name))
    .map((name) => readFileSync(new URL(name, SRC), 'utf8'));
}

/** @param {string} all sources @returns {RegExp[]} the names that are put together in them, such as `care.${one}.text` or named('role', one) */
function names(all) {
  const made = [...all.matchAll(/(?<!(?:keep|recall|forget|Form)\()`((?:\w+\.)+(?:[\w.]|\$\{[^{}`]*\})*)`/g)];
  const grouped = [...all.matchAll(/named\(\s*'([\w.]+)',\s*(?:`([^`]*)`)?/g)];
  const texts = [...made.map(([, text]) => text), ...grouped.map(([, group, text = '${}']) => `${group}.${text}`)];
  return [...new Set(texts)].map((text) => {
    const parts = text.split(/\$\{[^{}]*\}/).map((part) => part.replaceAll('.', '\\.'));
    return new RegExp(`^${parts.join('[\\w.]+')}(\\.\\d+)?$`); // numbered where all of them are listed
  });
}

test('no text of the catalogue is left unused', () => {
  const all = sources().join('\n');
  const quoted = new Set([...all.matchAll(/'([\w.]+)'/g)].map(([, text]) => text));
  const made = names(all);
  /** @type {(key: string) => boolean} */
  const used = (key) =>
    quoted.has(key) ||
    made.some((name) => name.test(key)) ||
    (/\.(\d+|one)$/.test(key) && used(key.slice(0, key.lastIndexOf('.'))));
  assert.deepEqual(
    Object.keys(en).filter((key) => !used(key)),
    [],
  );
});

test('each text has its name alone', () => {
  const names = english.flatMap((one) => Object.keys(one));
  assert.equal(new Set(names).size, names.length, 'the first of two would hide the second');
});

test('values are filled in, and every brace has a value', () => {
  assert.equal(t('drive.chosen', { n: 11 }), 'Derailleur, 11 sprockets');
  assert.deepEqual(list('how.rule', { n: 24 }).length, 3);
});

test('one of a thing has a text of its own', () => {
  assert.equal(t('sync.waiting', { n: 1 }), 'One change waits here to be sent.');
  assert.equal(t('sync.waiting', { n: 2 }), '2 changes wait here to be sent.');
});

test('no text leaves the plural to the reader', () => {
  for (const [key, text] of Object.entries(en)) assert.doesNotMatch(text, /\w\((s|es|n|en|e)\)/, key);
});

test('screens hold no texts of their own', () => {
  for (const source of sources()) {
    for (const [text] of source.replace(/\/\*[^]*?\*\//g, '').matchAll(/>\s*[A-Z][a-z]+[^<>${}`;]*</g))
      assert.fail(`a text outside the catalogue: ${text}`);
  }
});

test('percentages are rounded as the engine rounds them', () => {
  // Half to even, as strconv.FormatFloat does: 0.625 is exact in binary.
  assert.equal(percent(0.625), '0.62');
  assert.equal(percent(0.375), '0.38');
  assert.equal(percent(-0.14), '−0.14');
  assert.equal(percent(-0.001), '0.00');
  assert.equal(percent(0.5208333), '0.52');
  assert.equal(percent(3.175), '3.17'); // a little less in binary
});

test('an error becomes a sentence', () => {
  assert.equal(sentence('this has no unit; write it like 12 in'), 'This has no unit; write it like 12 in.');
  assert.equal(sentence(''), '');
});
