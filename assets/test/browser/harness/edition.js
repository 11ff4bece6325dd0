/**
 * Another edition of the app: the same sources with a mark in the page and in
 * the script, built into a program of its own, so that a test can see which
 * edition each part of a page is from.
 */
import { execFile } from 'node:child_process';
import { cp, mkdtemp, readFile, readdir, rm, symlink, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { promisify } from 'node:util';

const run = promisify(execFile);
const ROOT = new URL('../../../../', import.meta.url).pathname;
const DIST = join(ROOT, 'assets/dist');

/**
 * @param {string} mark
 * @param {string} [script] added to the page's own, with imports of its own
 * @returns {Promise<{program: string, remove: () => Promise<void>}>} path of the program
 */
export async function buildEdition(mark, script = '') {
  const dir = await mkdtemp(join(tmpdir(), 'tautspan-edition-'));
  const [src, dist, program] = ['src', 'dist', 'tautspan'].map((name) => join(dir, name));
  await cp(join(ROOT, 'assets/src'), src, { recursive: true });
  await symlink(join(ROOT, 'assets/node_modules'), join(dir, 'node_modules'));
  await append(join(src, 'app/main.js'), `\ndocument.documentElement.dataset.scriptEdition = '${mark}';\n${script}\n`);
  await append(join(src, 'index.html'), `<!-- edition ${mark} -->\n`);
  await cp(DIST, dist, { recursive: true }); // what stays the same is not compressed anew
  await run('go', ['run', './internal/tools/bundle', '-src', src, '-out', dist], { cwd: ROOT });
  await writeFile(join(dir, 'overlay.json'), JSON.stringify({ Replace: await overlay(dist) }));
  await run('go', ['build', '-trimpath', '-overlay', join(dir, 'overlay.json'), '-o', program, '.'], { cwd: ROOT });
  return { program, remove: () => rm(dir, { recursive: true, force: true }) };
}

/** @param {string} path @param {string} text */
async function append(path, text) {
  await writeFile(path, (await readFile(path, 'utf8')) + text);
}

/**
 * Puts one dist folder in the place of the project's own, for `go build`.
 * @param {string} dist
 * @returns {Promise<Record<string, string>>}
 */
async function overlay(dist) {
  /** @type {Record<string, string>} */
  const replace = {};
  for (const name of await files(DIST)) replace[resolve(DIST, name)] = '';
  for (const name of await files(dist)) replace[resolve(DIST, name)] = resolve(dist, name);
  return replace;
}

/** @param {string} dir @returns {Promise<string[]>} */
async function files(dir) {
  const entries = await readdir(dir, { recursive: true, withFileTypes: true });
  const root = resolve(dir);
  return entries.filter((e) => e.isFile()).map((e) => join(e.path, e.name).slice(root.length + 1));
}
