/** Convex parts of a face with their sides moved out and in, by fractions of a pixel. */
import type { Point } from '../model.js';

/** Corners go no farther than this many times their sides: at sharp ones the sides cross far out. */
const FARTHEST = 3;
/** Sides turned from each other by less go on straight: the sine of the angle. */
const STRAIGHT = 0.02;

/** A convex polygon whose side i → i + 1 is moved out by `by(i)`; in, where that is negative. It may run
 *  either way round. */
export function movedSides(corners: readonly Point[], by: (side: number) => number): Point[] {
  const n = corners.length;
  const area = corners.reduce((sum, [x, y], k) => {
    const [u, v] = corners[(k + 1) % n]!;
    return sum + x * v - u * y;
  }, 0);
  const sign = area < 0 ? -1 : 1;
  const normals = corners.map(([x, y], k): Point => {
    const [u, v] = corners[(k + 1) % n]!;
    const long = Math.hypot(u - x, v - y);
    return long > 0 ? [(sign * (v - y)) / long, (sign * (x - u)) / long] : [0, 0];
  });
  return corners.map(([x, y], k): Point => {
    const before = (k + n - 1) % n;
    const [[ax, ay], [bx, by_]] = [normals[before]!, normals[k]!];
    const [a, b] = [by(before), by(k)];
    const sine = ax * by_ - ay * bx;
    const most = FARTHEST * Math.max(Math.abs(a), Math.abs(b));
    // Where both moved sides are; on a straight line halfway between.
    const [dx, dy] =
      Math.abs(sine) > STRAIGHT
        ? [(a * by_ - b * ay) / sine, (b * ax - a * bx) / sine]
        : [((a + b) * (ax + bx)) / 4, ((a + b) * (ay + by_)) / 4];
    const far = Math.hypot(dx, dy);
    const k1 = far > most ? most / far : 1;
    return [x + dx * k1, y + dy * k1];
  });
}

/** Lengths, mm of a figure, by which what lies beside a side may miss it. */
const BESIDE = 0.02;

/** Whether the middle of a convex polygon's side lies on a side of another, or in it. */
export function isBeside(
  corners: readonly Point[],
  side: number,
  other: readonly Point[],
): boolean {
  const [ax, ay] = corners[side]!;
  const [bx, by] = corners[(side + 1) % corners.length]!;
  const [x, y] = [(ax + bx) / 2, (ay + by) / 2];
  let [left, right] = [false, false];
  for (let k = 0; k < other.length; k++) {
    const [px, py] = other[k]!;
    const [qx, qy] = other[(k + 1) % other.length]!;
    const out = (x - px) * (qy - py) - (y - py) * (qx - px);
    const near = BESIDE * Math.hypot(qx - px, qy - py);
    if (out > near) left = true;
    if (out < -near) right = true;
    if (left && right) return false;
  }
  return true;
}
