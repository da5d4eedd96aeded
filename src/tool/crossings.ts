/** Where cuts cross each other or themselves. */
import Flatbush from 'flatbush';
import type { Path, Point } from '../geom/index.js';
import { TIP_MM } from '../units/tolerances.js';
import { chordsOf, joined } from './chords.js';
import { Effort } from './effort.js';

/** More than this many are not listed: the drawing is wrong as a whole. */
export const MOST_CROSSINGS = 200;

/** Pairs of neighbours looked at in all, for drawings of lines heaped on each other: a second's work. */
export const MOST_CROSSING_PAIRS = 1e7;

/**
 * Points where two pieces of line pass through each other. Lines that meet end to end, end on another
 * (a slit up to an outline), or lie along each other do not cross: both must go on by more than
 * `TIP_MM` on either side. Curves are looked at as chords within `TIP_MM`. Stops at `MOST_CROSSINGS`, or
 * where `effort` (pairs of neighbouring chords) is over, which it then tells in chords.
 */
export function crossings(
  paths: readonly Path[],
  effort = new Effort(MOST_CROSSING_PAIRS),
): Point[] {
  const xy = joined(paths.map(path => chordsOf(path, TIP_MM)));
  const n = xy.length / 2 - 1;
  if (!(n >= 1)) return [];
  const index = new Flatbush(n);
  for (let i = 0; i < n; i++) {
    const [x0, y0, x1, y1] = chord(xy, i);
    if (Number.isNaN(x0 + y0 + x1 + y1)) index.add(0, 0);
    else index.add(Math.min(x0, x1), Math.min(y0, y1), Math.max(x0, x1), Math.max(y0, y1));
  }
  index.finish();
  const found: Point[] = [];
  for (let i = 0; i < n && found.length < MOST_CROSSINGS; i++) {
    if (effort.over) {
      effort.stop(i, n);
      break;
    }
    const [x0, y0, x1, y1] = chord(xy, i);
    if (Number.isNaN(x0 + y0 + x1 + y1)) continue;
    const near = index.search(
      Math.min(x0, x1),
      Math.min(y0, y1),
      Math.max(x0, x1),
      Math.max(y0, y1),
      j => j > i + 1,
    );
    effort.spent += near.length;
    for (const j of near.sort((a, b) => a - b)) {
      const at = crossing(xy, i, j);
      if (at) found.push(at);
      if (found.length >= MOST_CROSSINGS) break;
    }
  }
  return found;
}

const chord = (xy: Float64Array, i: number) =>
  [xy[2 * i]!, xy[2 * i + 1]!, xy[2 * i + 2]!, xy[2 * i + 3]!] as const;

/** Where chords i and j pass through each other; false for NaN. */
function crossing(xy: Float64Array, i: number, j: number): Point | undefined {
  const [ax, ay, bx, by] = chord(xy, i);
  const [cx, cy, dx, dy] = chord(xy, j);
  const ux = bx - ax;
  const uy = by - ay;
  const vx = dx - cx;
  const vy = dy - cy;
  const lu = Math.sqrt(ux * ux + uy * uy);
  const lv = Math.sqrt(vx * vx + vy * vy);
  // How far the ends of each lie to the two sides of the other.
  const c = (ux * (cy - ay) - uy * (cx - ax)) / lu;
  const d = (ux * (dy - ay) - uy * (dx - ax)) / lu;
  const a = (vx * (ay - cy) - vy * (ax - cx)) / lv;
  const b = (vx * (by - cy) - vy * (bx - cx)) / lv;
  const apart = (p: number, q: number) =>
    (p > TIP_MM && q < -TIP_MM) || (p < -TIP_MM && q > TIP_MM);
  if (!(apart(a, b) && apart(c, d))) return undefined;
  const t = a / (a - b);
  return [ax + t * ux, ay + t * uy];
}
