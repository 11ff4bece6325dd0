/**
 * Makes a PNG of few colours small: the most frequent colours and steps between
 * each two of them become a palette, and every pixel takes the nearest. W3C PNG
 * names the parts.
 */
import { crc32, deflateSync, inflateSync } from 'node:zlib';

/** So many colours count as the drawing's own; the rest are its soft edges. */
const OWN = 4;

/** Steps of a soft edge from one colour to the next. */
const STEPS = 6;

const SIGNATURE = Buffer.from('\x89PNG\r\n\x1a\n', 'latin1');

/** @param {Buffer} png 8 bits a channel, not interlaced @returns {Buffer} */
export function packed(png) {
  const { width, height, pixels } = decoded(png);
  const palette = paletteOf(pixels);
  /** @type {Map<number, number>} */
  const known = new Map();
  const rows = Buffer.alloc(height * (width + 1)); // each row begins with its filter, 0 for none
  for (let i = 0; i < width * height; i++) {
    const color = pixels.readUInt32BE(4 * i);
    let index = known.get(color);
    if (index === undefined) known.set(color, (index = nearest(palette, parts(color))));
    rows[i + Math.floor(i / width) + 1] = index;
  }
  const head = Buffer.alloc(13);
  head.writeUInt32BE(width, 0);
  head.writeUInt32BE(height, 4);
  head.set([8, 3, 0, 0, 0], 8);
  return Buffer.concat([
    SIGNATURE,
    chunk('IHDR', head),
    chunk('PLTE', Buffer.from(palette.flatMap((color) => color.slice(0, 3)))),
    chunk('tRNS', Buffer.from(palette.map((color) => color[3]))),
    chunk('IDAT', deflateSync(rows, { level: 9 })),
    chunk('IEND', Buffer.alloc(0)),
  ]);
}

/** @param {Buffer} png @returns {{width: number, height: number, pixels: Buffer}} red, green, blue, opacity */
function decoded(png) {
  /** @type {Buffer[]} */
  const data = [];
  for (let at = 8; at < png.length; at += 12 + png.readUInt32BE(at)) {
    if (png.toString('latin1', at + 4, at + 8) === 'IDAT')
      data.push(png.subarray(at + 8, at + 8 + png.readUInt32BE(at)));
  }
  const [width, height, channels] = [png.readUInt32BE(16), png.readUInt32BE(20), png[25] === 6 ? 4 : 3];
  const raw = inflateSync(Buffer.concat(data));
  const long = width * channels;
  const bytes = Buffer.alloc(height * long);
  for (let i = 0; i < bytes.length; i++) {
    const [x, y] = [i % long, Math.floor(i / long)];
    const left = x >= channels ? bytes[i - channels] : 0;
    const up = y ? bytes[i - long] : 0;
    const corner = x >= channels && y ? bytes[i - long - channels] : 0;
    bytes[i] = raw[i + y + 1] + predicted(raw[y * (long + 1)], left, up, corner);
  }
  const pixels = Buffer.alloc(width * height * 4, 255);
  for (let i = 0; i < width * height; i++) bytes.copy(pixels, 4 * i, channels * i, channels * (i + 1));
  return { width, height, pixels };
}

/** @param {number} filter @param {number} left @param {number} up @param {number} corner */
function predicted(filter, left, up, corner) {
  if (filter < 4) return [0, left, up, (left + up) >> 1][filter];
  const [a, b, c] = [left, up, corner].map((one) => Math.abs(left + up - corner - one));
  return a <= b && a <= c ? left : b <= c ? up : corner;
}

/** @param {number} color @returns {number[]} */
const parts = (color) => [24, 16, 8, 0].map((shift) => (color >>> shift) & 255);

/** @param {Buffer} pixels @returns {number[][]} at most 256 colours */
function paletteOf(pixels) {
  /** @type {Map<number, number>} */
  const counts = new Map();
  for (let i = 0; i < pixels.length; i += 4) {
    const color = pixels.readUInt32BE(i);
    counts.set(color, (counts.get(color) ?? 0) + 1);
  }
  const own = [...counts]
    .sort((a, b) => b[1] - a[1])
    .slice(0, OWN)
    .map(([color]) => parts(color));
  const edges = own.flatMap((from, i) => own.slice(0, i).flatMap((to) => between(from, to)));
  return [...own, ...edges];
}

/** @param {number[]} from @param {number[]} to @returns {number[][]} an invisible colour lends its opacity only */
function between(from, to) {
  const steps = Array.from({ length: STEPS }, (_, i) => (i + 1) / (STEPS + 1));
  return steps.map((part) =>
    from.map((value, i) => {
      if (i < 3 && from[3] === 0) return to[i];
      if (i < 3 && to[3] === 0) return value;
      return Math.round(value + part * (to[i] - value));
    }),
  );
}

/** @param {number[][]} palette @param {number[]} color @returns {number} */
function nearest(palette, color) {
  const off = palette.map((one) => one.reduce((sum, value, i) => sum + (value - color[i]) ** 2, 0));
  return off.indexOf(Math.min(...off));
}

/** @param {string} name @param {Buffer} data */
function chunk(name, data) {
  const body = Buffer.concat([Buffer.from(name, 'latin1'), data]);
  const ends = Buffer.alloc(8);
  ends.writeUInt32BE(data.length, 0);
  ends.writeUInt32BE(crc32(body), 4);
  return Buffer.concat([ends.subarray(0, 4), body, ends.subarray(4)]);
}
