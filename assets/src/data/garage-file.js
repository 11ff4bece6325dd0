/**
 * A garage that was given out as a file, read bit by bit: its records come in
 * small parts, so that neither the page nor the engine holds all of them at
 * once. Nothing is judged here: what is no such file falls apart so that the
 * engine says what is wrong.
 */

/** So many bytes are read at once. */
const READ = 128 * 1024;

/** So many records make a part, fewer when they are long. */
const RECORDS = 100;

/** Characters. */
const LONG = 64 * 1024;

/** The most that is kept of anything that does not end, characters; no record is nearly so long. */
const MOST = 4 * 1024 * 1024;

/** @typedef {{table: string, first: number, records: string[]}} Part records as they stand in the file; `first`: the place of the first in its table */

/**
 * @param {Blob} file
 * @param {(share: number) => void} [progress] told how much is read, 0 to 1
 * @returns {AsyncGenerator<Part, string>} at its end the rest: the file without its records
 */
export async function* partsOf(file, progress = () => {}) {
  const decoder = new TextDecoder();
  const splitter = new Splitter();
  for (let at = 0; at < file.size && !splitter.lost; at += READ) {
    const bytes = await file.slice(at, at + READ).arrayBuffer();
    yield* splitter.split(decoder.decode(bytes, { stream: true }));
    progress(Math.min(1, (at + READ) / file.size));
  }
  yield* splitter.split(decoder.decode());
  return splitter.end();
}

/** Takes the records out of the lists in a file's `tables`. */
export class Splitter {
  #rest = '';
  #quoted = false;
  #escaped = false;
  #depth = 0;
  #inTables = false;
  #table = '';
  /** Whether it is in a table's list; what is at that depth are its records. */
  #inList = false;
  #record = '';
  #first = 0;
  /** @type {string[]} */
  #records = [];
  #length = 0;

  /** @returns {boolean} whether this goes nowhere */
  get lost() {
    return this.#rest.length + this.#record.length > MOST;
  }

  /** @returns {string} what is left when the file is read */
  end() {
    return this.#rest + this.#record;
  }

  /** @param {string} text what comes next @returns {Generator<Part, void>} parts that are full by then */
  *split(text) {
    let from = 0;
    for (let i = 0; i < text.length; i++) {
      const sign = text[i];
      if (this.#quoted) this.#quote(sign);
      else if (sign === '"') this.#quoted = true;
      else if (this.#inList && this.#depth === LIST && (sign === ',' || sign === ']')) {
        this.#take(text.slice(from, i), sign);
        from = sign === ',' ? i + 1 : i;
        if (sign === ']') this.#inList = false;
        if (sign === ']' || this.#records.length === RECORDS || this.#length > LONG) yield* this.#full();
        if (sign === ']') this.#depth--;
      } else if (sign === '{' || sign === '[') {
        if (!this.#inList && this.#opens(sign, this.#rest.slice(-NAME) + text.slice(Math.max(from, i - NAME), i))) {
          this.#rest += text.slice(from, i + 1);
          from = i + 1;
        }
        this.#depth++;
      } else if ((sign === '}' || sign === ']') && !(this.#inList && this.#depth === LIST)) {
        this.#depth--;
        if (this.#depth < IN_TABLES) this.#inTables = false;
      }
    }
    if (this.#inList) this.#record += text.slice(from);
    else this.#rest += text.slice(from);
  }

  /** @param {string} sign in a quoted text */
  #quote(sign) {
    if (this.#escaped) this.#escaped = false;
    else if (sign === '\\') this.#escaped = true;
    else if (sign === '"') this.#quoted = false;
  }

  /** @param {string} sign @param {string} before @returns {boolean} whether a table's list begins */
  #opens(sign, before) {
    const [, name = ''] = /"((?:[^"\\]|\\.)*)"\s*:\s*$/.exec(before.slice(-NAME)) ?? [];
    if (sign === '{' && this.#depth === IN_TABLES - 1 && name === 'tables') this.#inTables = true;
    if (sign === '{' || !this.#inTables || this.#depth !== IN_TABLES) return false;
    this.#inList = true;
    this.#table = name;
    this.#first = 0;
    return true;
  }

  /** @param {string} end of a record @param {string} sign after it */
  #take(end, sign) {
    const record = this.#record + end;
    this.#record = '';
    const empty = sign === ']' && this.#first + this.#records.length === 0 && !record.trim();
    if (empty) return;
    this.#records.push(record);
    this.#length += record.length;
  }

  *#full() {
    if (!this.#records.length) return;
    yield { table: this.#table, first: this.#first, records: this.#records };
    this.#first += this.#records.length;
    this.#records = [];
    this.#length = 0;
  }
}

/** How deep a file's `tables` and the lists in it lie. */
const [IN_TABLES, LIST] = [2, 3];

/** Longer names are no table's. */
const NAME = 200;
