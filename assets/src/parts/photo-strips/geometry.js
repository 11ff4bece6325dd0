/** Where the pieces of a picture go that show a chain large, piece under piece. */

/** @typedef {{x: number, y: number}} Point */

/** Height of a piece by its length: the frame is 36 mm wide, a quarter of it 65 mm long. */
export const HIGH = 0.47;

/** So many pieces, one under the other, each with some of its neighbours at its ends. */
export const PIECES = 4;
const SHARED = 1.16;

/**
 * @param {{marks: Point[], rivets: Point[]}} overlay with marks
 * @returns {{angle: number, x: number, y: number, length: number}} how far the frame is turned, radians; its
 *   middle and its length, px of the picture
 */
export function layOut({ marks, rivets }) {
  const middle = mean(marks);
  const angle = direction(rivets.length > 1 ? rivets : marks);
  const along = marks.map(({ x, y }) => (x - middle.x) * Math.cos(angle) + (y - middle.y) * Math.sin(angle));
  return { angle, ...middle, length: 1.06 * (Math.max(...along) - Math.min(...along)) };
}

/** @param {Point[]} points @returns {Point} */
function mean(points) {
  const sum = points.reduce((all, { x, y }) => ({ x: all.x + x, y: all.y + y }), { x: 0, y: 0 });
  return { x: sum.x / points.length, y: sum.y / points.length };
}

/** @param {Point[]} points @returns {number} of the line they lie along, -π/2 to π/2 */
function direction(points) {
  const { x: mx, y: my } = mean(points);
  let [xx, yy, xy] = [0, 0, 0];
  for (const { x, y } of points) {
    xx += (x - mx) ** 2;
    yy += (y - my) ** 2;
    xy += (x - mx) * (y - my);
  }
  return Math.atan2(2 * xy, xx - yy) / 2;
}

/**
 * @param {{angle: number, x: number, y: number, length: number}} lay
 * @param {number} width of a piece, px of the drawing
 * @param {number} piece from 0
 * @returns {[a: number, b: number, c: number, d: number, e: number, f: number]} from the picture to the drawing, as
 *   a canvas takes it
 */
export function transform({ angle, x, y, length }, width, piece) {
  const scale = (width * PIECES) / (length * SHARED);
  const [cos, sin] = [scale * Math.cos(angle), scale * Math.sin(angle)];
  const middleX = width / 2 + ((PIECES - 1) / 2 - piece) * (width / SHARED);
  const middleY = (piece + 0.5) * width * HIGH;
  return [cos, -sin, sin, cos, middleX - cos * x - sin * y, middleY + sin * x - cos * y];
}
