/**
 * A text as a QR code (ISO/IEC 18004), as runs of dark modules in a path. At
 * correction level Q a quarter of it may be scratched or muddy.
 */
import { correction, generate } from 'lean-qr/nano';

/** Light modules that the standard wants on every side. */
export const QUIET = 4;

/** @type {Map<string, {modules: number, path: string}>} codes drawn before; one takes some milliseconds */
const made = new Map();
const MOST = 1000;

/**
 * @param {string} text at most about 1600 bytes
 * @returns {{modules: number, path: string}} modules across without the quiet zone; the path in module
 *   units from the first module's corner
 * @throws {Error} when the text is longer than the largest code holds
 */
export function qrPath(text) {
  const known = made.get(text) ?? written(text);
  if (made.size >= MOST) made.clear();
  made.set(text, known);
  return known;
}

/** @param {string} text */
function written(text) {
  const code = generate(text, { minCorrectionLevel: correction.Q });
  let path = '';
  for (let y = 0; y < code.size; y++) {
    for (let x = 0; x < code.size; x++) {
      if (!code.get(x, y)) continue;
      const from = x;
      while (code.get(x, y)) x++;
      path += `M${from} ${y}h${x - from}v1h${from - x}z`;
    }
  }
  return { modules: code.size, path };
}
