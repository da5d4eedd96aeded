/** How far two whole paths are from each other. */
import { MEASURE_MM } from '../units/tolerances.js';
import { flatten } from './flatten.js';
import type { Path, Point } from './types.js';
import { cross, distance, sub } from './vec.js';

type Side = readonly [Point, Point];

function sidesOf(path: Path): Side[] {
  const points = flatten(path, MEASURE_MM);
  const ends = path.closed ? [...points, points[0]!] : points;
  return ends.slice(1).map((q, i): Side => [ends[i]!, q]);
}

function toSide(p: Point, [a, b]: Side): number {
  const [vx, vy] = [b[0] - a[0], b[1] - a[1]];
  const square = vx * vx + vy * vy;
  const t = square > 0 ? ((p[0] - a[0]) * vx + (p[1] - a[1]) * vy) / square : 0;
  const k = Math.min(1, Math.max(0, t));
  return distance(p, [a[0] + k * vx, a[1] + k * vy]);
}

function crosses([a, b]: Side, [c, d]: Side): boolean {
  const side = (p: Point, q: Point, r: Point) => cross(sub(q, p), sub(r, p));
  return side(a, b, c) > 0 !== side(a, b, d) > 0 && side(c, d, a) > 0 !== side(c, d, b) > 0;
}

/** The least distance between two paths' lines, within `MEASURE_MM` for curves; 0 where they cross.
 *  A path inside the other is as far as its line is. */
export function pathsApart(a: Path, b: Path): number {
  const [as, bs] = [sidesOf(a), sidesOf(b)];
  let least = Number.POSITIVE_INFINITY;
  for (const s of as) {
    for (const t of bs) {
      if (crosses(s, t)) return 0;
      least = Math.min(least, toSide(s[0], t), toSide(s[1], t), toSide(t[0], s), toSide(t[1], s));
    }
  }
  return least;
}
