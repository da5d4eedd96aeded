/** How far a point is from a segment or a path. */
import { bernsteinRoots } from './bernstein.js';
import { pointAt, type Step, steps } from './step.js';
import type { Cubic, Path, Point } from './types.js';
import { distance, dot, lerp, sub } from './vec.js';

/** The nearest point of a step: its parameter and how far it is. */
export interface Nearest {
  readonly t: number;
  readonly distance: number;
}

function nearestOnLine(p: Point, from: Point, to: Point): Nearest {
  const v = sub(to, from);
  const square = dot(v, v);
  const t = square > 0 ? Math.min(1, Math.max(0, dot(sub(p, from), v) / square)) : 0;
  return { t, distance: distance(p, t === 1 ? to : lerp(from, to, t)) };
}

/** An arc as flat as this is nearest where its chord is: it bends by half a nanometre a decimetre. */
const STRAIGHT_BULGE = 1e-8;

function nearestOnArc(p: Point, step: Step): Nearest {
  const { from, segment } = step;
  if (segment.kind !== 'arc') throw new RangeError('not an arc');
  const { to, bulge } = segment;
  const [first, last] = [distance(p, from), distance(p, to)];
  const end: Nearest = last < first ? { t: 1, distance: last } : { t: 0, distance: first };
  const t = besideArc(p, from, to, bulge);
  // Where the point lies beside the arc, nothing of it is nearer; but the rounding may say otherwise.
  if (!(t > 0 && t < 1)) return end;
  const beside = distance(p, pointAt(step, t));
  return beside < end.distance ? { t, distance: beside } : end;
}

/** The parameter at which a point lies beside an arc: on the ray from its centre. NaN where there is none. */
function besideArc(p: Point, from: Point, to: Point, bulge: number): number {
  if (!(Math.abs(bulge) > STRAIGHT_BULGE)) return nearestOnLine(p, from, to).t;
  const [cx, cy] = [to[0] - from[0], to[1] - from[1]];
  if (cx === 0 && cy === 0) return Number.NaN;
  // The centre lies (1 − b²) / 4b chords to the left of the chord's middle (see `arcShape`).
  const h = (1 - bulge * bulge) / (4 * bulge);
  const [mx, my] = [from[0] + cx / 2 - cy * h, from[1] + cy / 2 + cx * h];
  // The angle from the start, seen from the centre; without the angles' own rounding.
  const [ux, uy, vx, vy] = [from[0] - mx, from[1] - my, p[0] - mx, p[1] - my];
  let angle = Math.atan2(ux * vy - uy * vx, ux * vx + uy * vy);
  if (bulge > 0 && angle < 0) angle += 2 * Math.PI;
  if (bulge < 0 && angle > 0) angle -= 2 * Math.PI;
  return angle / (4 * Math.atan(bulge));
}

/** A point is nearest at an end or where the way to it stands square on the curve:
 *  (B(t) − p) · B′(t) = 0, of degree five. */
function nearestOnCubic(p: Point, step: Step): Nearest {
  const { from, segment } = step;
  const { c1, c2, to } = segment as Cubic;
  const [b0, b1, b2, b3] = [sub(from, p), sub(c1, p), sub(c2, p), sub(to, p)];
  const [d0, d1, d2] = [sub(c1, from), sub(c2, c1), sub(to, c2)];
  const square = [
    dot(b0, d0),
    (2 * dot(b0, d1) + 3 * dot(b1, d0)) / 5,
    (dot(b0, d2) + 6 * dot(b1, d1) + 3 * dot(b2, d0)) / 10,
    (dot(b3, d0) + 6 * dot(b2, d1) + 3 * dot(b1, d2)) / 10,
    (2 * dot(b3, d1) + 3 * dot(b2, d2)) / 5,
    dot(b3, d2),
  ];
  let best: Nearest = { t: 0, distance: distance(p, from) };
  for (const t of [1, ...bernsteinRoots(square)]) {
    const d = distance(p, pointAt(step, t));
    if (d < best.distance) best = { t, distance: d };
  }
  return best;
}

/** The nearest point of a step to `p`. */
export function nearestOnStep(p: Point, step: Step): Nearest {
  const { from, segment } = step;
  if (segment.kind === 'line') return nearestOnLine(p, from, segment.to);
  return segment.kind === 'arc' ? nearestOnArc(p, step) : nearestOnCubic(p, step);
}

export const distanceToStep = (p: Point, step: Step): number => nearestOnStep(p, step).distance;

/** How far a point is from the nearest point of a path's line (not of what it encloses). */
export function distanceToPath(p: Point, path: Path): number {
  let least = distance(p, path.start);
  for (const step of steps(path)) least = Math.min(least, distanceToStep(p, step));
  return least;
}
