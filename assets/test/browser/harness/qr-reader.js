/**
 * Reads QR codes with a reader that shares nothing with the writer: ZXing in
 * C++, compiled to WebAssembly.
 */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { prepareZXingModule, readBarcodes } from 'zxing-wasm/reader';

const wasm = createRequire(import.meta.url).resolve('zxing-wasm/reader/zxing_reader.wasm');
prepareZXingModule({ overrides: { wasmBinary: readFileSync(wasm).buffer } });

/**
 * @param {Uint8Array|{data: Uint8ClampedArray, width: number, height: number}} picture a PNG, or pixels of 4 bytes
 * @returns {Promise<string[]>} the texts of all codes in it
 */
export async function readQR(picture) {
  const found = await readBarcodes(/** @type {any} */ (picture), { formats: ['QRCode'], tryHarder: true });
  return found.map(({ text }) => text);
}
