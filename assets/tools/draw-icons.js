/**
 * Draws the PNG icons from their SVG sources in src/icons with Chromium, the
 * one named by CHROMIUM or the system's. Run it after changing a drawing:
 * node tools/draw-icons.js
 */
import { readFile, writeFile } from 'node:fs/promises';
import { chromium } from 'playwright-core';
import { packed } from './pack-png.js';

const ICONS = new URL('../src/icons/', import.meta.url);

/** @type {[source: string, size: number, target: string][]} */
const DRAWINGS = [
  ['mark.svg', 192, 'icon-192.png'],
  ['mark.svg', 512, 'icon-512.png'],
  ['maskable.svg', 512, 'maskable-512.png'],
];

const browser = await chromium.launch({
  executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
  args: ['--no-sandbox'],
});
for (const [source, size, target] of DRAWINGS) {
  const page = await browser.newPage({ viewport: { width: size, height: size } });
  const drawing = (await readFile(new URL(source, ICONS), 'utf8')).replace(
    '<svg ',
    `<svg width="${size}" height="${size}" `,
  );
  await page.setContent(`<!doctype html><style>body{margin:0}svg{display:block}</style>${drawing}`);
  await writeFile(new URL(target, ICONS), packed(await page.screenshot({ omitBackground: true })));
  await page.close();
}
await browser.close();
