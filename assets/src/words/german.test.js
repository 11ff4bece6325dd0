import assert from 'node:assert/strict';
import { readFileSync, readdirSync } from 'node:fs';
import { after, test } from 'node:test';
import { german } from './de.js';
import { english } from './en.js';
import { familyName, faultText, inWords, said, saidOne } from './engine.js';
import { ENGLISH, pick, speak } from './language.js';
import { day, exact, fixed, moment } from './numbers.js';
import { t } from './t.js';

const ROOT = new URL('../../../', import.meta.url);

/** @type {Record<string, string>} */
const en = Object.assign({}, ...english);
/** @type {Record<string, string>} */
const deutsch = Object.assign({}, ...german.words);

after(() => speak(ENGLISH));

/** @param {string} text @returns {string[]} the names in its braces, sorted, their decimals left out */
const braces = (text) => (text.match(/\{\w+/g) ?? []).sort();

/** @param {string} folder @param {string} end @returns {string[]} the texts of all files in it that end so */
function texts(folder, end) {
  return readdirSync(new URL(folder, ROOT), { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith(end))
    .map((name) => readFileSync(new URL(`${folder}/${name}`, ROOT), 'utf8'));
}

test('every text of the screens is there in German, with the same braces', () => {
  const missing = Object.keys(en).filter((key) => !(key in deutsch));
  assert.deepEqual(missing, [], 'the German stands in the file of the same name with de in place of en');
  const gone = Object.keys(deutsch).filter((key) => !(key in en));
  assert.deepEqual(gone, [], 'no English text has this name any more');
  for (const [key, text] of Object.entries(deutsch)) {
    assert.ok(text.trim(), `${key} is empty`);
    assert.deepEqual(braces(text), braces(en[key]), key);
  }
});

test('what reads the same in both languages is a name, a sign or a unit', () => {
  const same = Object.entries(deutsch).filter(([key, text]) => text === en[key]);
  const allowed = /^(app\.name|demo\.helper\.\d|kit\.language\.\w+|kit\.version)$/;
  for (const [key, text] of same) assert.ok(allowed.test(key) || !/[a-z]{4}/.test(text.replace(/\{\w+\}/g, '')), key);
});

/** The engine's own catalogue, read from its source. */
const codes = Object.fromEntries(
  texts('internal/words', '.go').flatMap((source) =>
    [...source.matchAll(/^\t"(\w+)":\s+"((?:[^"\\]|\\.)*)",$/gm)].map(([, code, text]) => [code, text]),
  ),
);

test('every code of the engine has its German sentence, with the same numbers in it', () => {
  assert.ok(Object.keys(codes).length > 150);
  assert.deepEqual(Object.keys(german.engine).sort(), Object.keys(codes).sort());
  for (const [code, text] of Object.entries(german.engine)) assert.deepEqual(braces(text), braces(codes[code]), code);
});

/** @param {any} part of an answer @param {(part: any) => void} visit every object in it */
function walk(part, visit) {
  if (!part || typeof part !== 'object') return;
  if (!Array.isArray(part)) visit(part);
  for (const one of Object.values(part)) walk(one, visit);
}

const answers = texts('testdata/engine', '.answer.json').map((text) => JSON.parse(text));

/** @param {string} text @returns {number[]} the numbers in it, sorted; units such as 1/2 in give theirs too */
const numbers = (text) => (text.match(/\d+(?:[.,]\d+)?/g) ?? []).map((one) => Number(one.replace(',', '.'))).sort();

test('over all golden answers a German sentence says the numbers the English one says', () => {
  speak(german);
  let seen = 0;
  for (const answer of answers) {
    walk(answer, (part) => {
      for (const name of Object.keys(part)) {
        const listed = !name.endsWith('_codes') && `${name.replace(/s$/, '')}_codes` in part;
        const english = listed ? part[name] : part[`${name}_code`]?.code ? [part[name]] : [];
        const translated = listed ? said(part, name) : english.map(() => saidOne(part, name));
        for (const [i, text] of translated.entries()) {
          seen++;
          assert.notEqual(text, english[i]);
          assert.deepEqual(numbers(text), numbers(english[i]), `${english[i]} / ${text}`);
        }
      }
    });
  }
  assert.ok(seen > 200, `${seen} sentences`);
});

test('every error a rider can be shown is told in German', () => {
  speak(german);
  const told = answers.flatMap((answer) => (answer.error ? [answer.error.message] : []));
  const models = ['wear', 'identify', 'drive', 'gears', 'chain', 'forecast', 'cost', 'units'];
  for (const source of [...models.map((model) => `internal/${model}`), 'server/store'].flatMap((dir) =>
    texts(dir, '.go'),
  )) {
    for (const [, text] of source.matchAll(/fault\.New\(fault\.\w+, "?[\w.]*"?,\s*"([^"]+)"\)/g)) told.push(text);
  }
  for (const source of texts('internal/photo/raster', '.go')) {
    for (const [, text] of source.matchAll(/refuse\(fault\.\w+, "([^"]+)"\)/g)) told.push(text);
  }
  assert.ok(told.length > 50);
  const json = /^this field is not known|Infinity|stands twice|RFC 8259|cursor|another operation/; // a program's mistake, not a rider's
  for (const message of told.filter((text) => !json.test(text))) {
    const text = faultText({ code: 'unreadable', message });
    assert.ok(!text.includes(`(${message})`), message);
    assert.ok(!/\b(allowed|give|this|and)\b/.test(text), text);
  }
});

test('an error without its own text says what kind it is, and keeps the English', () => {
  speak(german);
  assert.equal(faultText({ code: 'denied', message: 'no way' }), 'Das darf dieses Telefon nicht (no way).');
  assert.equal(
    faultText({ code: 'out_of_range', message: '0 is not possible here; allowed is 0.05 to 3 percent' }),
    '0 geht hier nicht; erlaubt ist 0,05 bis 3 Prozent.',
  );
});

test('numbers and dates follow the language', () => {
  speak(german, ['en-GB', 'de-AT']);
  assert.equal(fixed(0.5, 2), '0,50');
  assert.equal(exact(-7.75), '−7,75');
  assert.equal(t('answer.limit', { percent: 0.75 }), 'Grenze 0,75 %');
  // Austria says Jänner: the region is the rider's own.
  assert.match(moment('2026-01-05T08:00:00Z'), /2026/);
  speak(ENGLISH, ['en-GB']);
  assert.equal(fixed(0.5, 2), '0.50');
  assert.equal(day('2026-03-01T12:00:00Z'), '1 Mar 2026');
  assert.equal(inWords({ code: 'limit_is', values: { limit: 1 } }, 'The limit.'), 'The limit.');
  assert.equal(familyName({ class: 'derailleur_9', name: 'Nine' }), 'Nine');
});

test('the language is the rider’s, else the first of the browser’s that there is', () => {
  assert.equal(pick('system', ['fr-FR', 'de-CH', 'en-US']), 'de');
  assert.equal(pick('system', ['en-US', 'de']), 'en');
  assert.equal(pick('system', ['fr']), 'en');
  assert.equal(pick('system', []), 'en');
  assert.equal(pick('de', ['en-US']), 'de');
});
