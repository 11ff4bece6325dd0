/** How many bytes a phone loads, by file, in the best form the server has. */
import { readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';

const DIST = new URL('../../dist/', import.meta.url).pathname;

/** The most a first visit may load, and the photo engine on top for who turns it on; bytes with brotli, kB = 1000 bytes. */
export const BUDGET = { engine: 750_000, all: 900_000, photo: 900_000 };

/** @returns {{name: string, plain: number, sent: number}[]} largest first */
export function sizes() {
  const names = readdirSync(DIST, { recursive: true, encoding: 'utf8' }).filter((name) => {
    return statSync(join(DIST, name)).isFile() && !/\.(gz|br)$|^placeholder/.test(name);
  });
  const rows = names.map((name) => {
    const forms = [name, `${name}.br`].map((form) => statSync(join(DIST, form), { throwIfNoEntry: false })?.size);
    return { name, plain: Number(forms[0]), sent: Number(forms[1] ?? forms[0]) };
  });
  return rows.sort((a, b) => b.sent - a.sent);
}

/** @param {{name: string, sent: number}[]} rows @returns {{engine: number, all: number, photo: number}} */
export function totals(rows) {
  const sum = (/** @type {{sent: number}[]} */ some) => some.reduce((total, row) => total + row.sent, 0);
  const photo = rows.filter(({ name }) => /photo-[\w-]+\.(wasm|js)$/.test(name));
  const first = rows.filter((row) => !photo.includes(row));
  return { engine: sum(first.filter(({ name }) => name.endsWith('.wasm'))), all: sum(first), photo: sum(photo) };
}
