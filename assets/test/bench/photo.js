/**
 * A picture of 12 megapixels on a slow phone. Chromium slows down pages only,
 * not workers, so the shipped engine and its worker's script run in the page.
 */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { openAndKeep } from '../browser/harness/phone.js';
import { slowCPU } from './page.js';

const ROOT = new URL('../../../', import.meta.url).pathname;

/** Drawn with 12 megapixels; the rule's has marks on both its edges, which takes longer. */
const SEED = { frame: '2', rule: '6' };

/**
 * @param {import('../browser/harness/phone.js').Phone} phone
 * @param {'frame'|'rule'} reference
 * @returns {Promise<{taken: number, worked: number, memory: number}>} s from the file to the answer, s of them the
 *   processor's own, MB; the processor four times slower
 */
export async function pictures({ page, context }, reference) {
  const path = join(mkdtempSync(join(tmpdir(), 'tautspan-')), 'picture.jpg');
  const drawing = ['-seed', SEED[reference], `-ruled=${reference === 'rule'}`, '-out', path];
  execFileSync('go', ['run', './internal/tools/picture', ...drawing], { cwd: ROOT });
  await openAndKeep(page);
  const script = await page.evaluate(async () => {
    const { photoWorker } = /** @type {any} */ (document.querySelector('meta[name=tautspan-build]')).dataset;
    return (await fetch(photoWorker)).text();
  });
  await page.evaluate(script.replace(/addEventListener\("message",/, 'void (')); // its engine, without its post box
  await page.evaluate(load, readFileSync(path, 'base64'));
  await slowCPU(context, page);
  const cdp = await context.newCDPSession(page);
  await cdp.send('Performance.enable', { timeDomain: 'threadTicks' });
  const clock = async () =>
    (await cdp.send('Performance.getMetrics')).metrics.find(({ name }) => name === 'ThreadTime');
  const from = Number((await clock())?.value);
  const { taken, memory, accepted } = await page.evaluate(measure, reference);
  if (!accepted) throw new Error('the picture was refused');
  return { taken, memory, worked: Number((await clock())?.value) - from };
}

/** Runs in the page: compiles the engine and keeps the picture. @param {string} base64 */
async function load(base64) {
  const { photo } = /** @type {any} */ (document.querySelector('meta[name=tautspan-build]')).dataset;
  const all = /** @type {any} */ (globalThis);
  all.photoModule = await WebAssembly.compileStreaming(fetch(photo));
  all.photoFile = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
}

/** Runs in the page: one picture, from an engine that has not started. @param {string} reference */
async function measure(reference) {
  const { photoModule, photoFile } = /** @type {any} */ (globalThis);
  const from = performance.now();
  const go = new Go();
  const instance = /** @type {any} */ (await WebAssembly.instantiate(photoModule, go.importObject));
  go.run(instance);
  const { accepted } = JSON.parse(
    tautspanPhoto(photoFile, JSON.stringify({ reference, check_line_mm: 240, thickness_mm: 0.5 })),
  );
  const memory = instance.exports.mem.buffer.byteLength / 1e6;
  return { taken: (performance.now() - from) / 1000, memory, accepted };
}
