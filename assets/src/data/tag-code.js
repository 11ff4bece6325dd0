/**
 * Tag codes: three characters that a gloved thumb types and nobody misreads. The
 * third follows from the first two, c = a + 2b modulo 23, so that one wrong
 * character, or two neighbours swapped, is never another bike's code: in a prime
 * modulus each single error and each swap of neighbours changes the sum (computed).
 */

/** 23 characters; no vowels, and none of a pair that looks alike (0 O, 1 I L, 2 Z, 5 S, 8 B, U V, Q, Y). */
export const ALPHABET = '23456789CDFGHJKMNPRTVWX';

const N = ALPHABET.length;

/**
 * @param {number} n from 0 to 528
 * @returns {string} the nth code
 */
export function tagCode(n) {
  const [a, b] = [Math.floor(n / N), n % N];
  return ALPHABET[a] + ALPHABET[b] + ALPHABET[(a + 2 * b) % N];
}

/**
 * @param {Iterable<string>} taken tags in use, however they are written
 * @param {number} count
 * @returns {string[]} codes that are free, fewer when they run out; never 222, which tempts to read on
 */
export function freeCodes(taken, count) {
  const used = new Set([...taken].map(plain));
  const free = [];
  for (let n = 1; n < N * N && free.length < count; n++) {
    const code = tagCode(n);
    if (!used.has(code)) free.push(code);
  }
  return free;
}

/** @param {string} text @returns {string} capitals and digits only, as codes are compared */
export function plain(text) {
  return text.toUpperCase().replace(/[^\p{L}\p{N}]/gu, '');
}
