/**
 * Cubics through dense, slightly noisy points, by least squares: P. J. Schneider, "An algorithm for
 * automatically fitting digitized curves", in Graphics Gems (1990) 612–626. Few long curves where
 * `fitPolyline`, which keeps every point, would give many short arcs.
 */
import { cubic, line } from './build.js';
import { pointAt, velocityAt } from './step.js';
import type { Cubic, Path, Point, Segment } from './types.js';
import { add, cross, distance, dot, length, samePoint, scale, sub } from './vec.js';

/** Points are bent this much over the way before and after them at a corner, radians. */
const CORNER = 0.75;
/** The way over which a corner is told from a curve, in tolerances. */
const CORNER_REACH = 5;
/** Rounds of better parameters before a stretch is divided. */
const ROUNDS = 6;
/** Worse than this many tolerances at first, better parameters will not help. */
const HOPELESS = 6;

/**
 * The polyline as cubics and lines no farther than `tolerance` mm from its points; corners are kept, all
 * else is smooth. A closed one does not repeat its start. Throws for fewer than two different points,
 * three when closed.
 */
export function fitCubics(points: readonly Point[], closed: boolean, tolerance: number): Path {
  if (!(tolerance > 0)) throw new RangeError(`cannot fit within ${tolerance} mm`);
  const ring = points.filter((p, i) => i === 0 || !samePoint(p, points[i - 1]!));
  if (closed && ring.length > 1 && samePoint(ring[0]!, ring.at(-1)!)) ring.pop();
  const n = ring.length;
  if (n < (closed ? 3 : 2)) throw new RangeError(`${n} points are too few`);
  const corners = cornersOf(ring, closed, CORNER_REACH * tolerance);
  const first = closed ? Math.max(0, corners.indexOf(true)) : 0;
  const chain = closed ? [...ring.slice(first), ...ring.slice(0, first), ring[first]!] : ring;
  const smooth = closed && !corners.includes(true);
  const segments: Segment[] = [];
  let from = 0;
  for (let i = 1; i < chain.length; i++) {
    if (i < chain.length - 1 && !corners[(first + i) % n]) continue;
    segments.push(...stretch(chain.slice(from, i + 1), smooth, tolerance));
    from = i;
  }
  return { start: chain[0]!, segments, closed };
}

/** Whether the way turns sharply at a point, seen over `reach` mm each way; of neighbours the sharpest. */
function cornersOf(ring: readonly Point[], closed: boolean, reach: number): boolean[] {
  const n = ring.length;
  const along = (i: number, way: 1 | -1): Point | undefined => {
    let [far, at] = [0, i];
    for (let k = 0; k < n; k++) {
      const next = at + way;
      if (!closed && (next < 0 || next >= n)) return undefined;
      const [p, q] = [ring[(at + n) % n]!, ring[(next + n) % n]!];
      const step = distance(p, q);
      if (far + step >= reach) {
        const t = (reach - far) / step;
        return add(p, scale(sub(q, p), t));
      }
      far += step;
      at = (next + n) % n;
    }
    return undefined;
  };
  const turns = ring.map((p, i) => {
    const [before, after] = [along(i, -1), along(i, 1)];
    if (!before || !after) return 0;
    const [u, v] = [sub(p, before), sub(after, p)];
    return Math.abs(Math.atan2(cross(u, v), dot(u, v)));
  });
  return turns.map((turn, i) => {
    if (!(turn > CORNER)) return false;
    // The sharpest within reach, the first of equals.
    for (const way of [1, -1] as const) {
      let far = 0;
      for (let k = 1; k < n; k++) {
        const j = i + way * k;
        if (!closed && (j < 0 || j >= n)) break;
        const at = ring[(j + n * k) % n]!;
        far = distance(ring[i]!, at);
        if (far > reach) break;
        const other = turns[(j + n * k) % n]!;
        if (other > turn || (other === turn && way < 0)) return false;
      }
    }
    return true;
  });
}

/** Points from corner to corner; `loop` when these are one smooth point. */
function stretch(points: readonly Point[], loop: boolean, tolerance: number): Segment[] {
  const last = points.length - 1;
  const reach = 3 * tolerance;
  if (loop) {
    const tangent = unitOr(sub(ahead(points, 0, 1, reach), ahead(points, last, -1, reach)));
    return curves(points, 0, last, tangent, scale(tangent, -1), tolerance);
  }
  const out = unitOr(sub(ahead(points, 0, 1, reach), points[0]!));
  const back = unitOr(sub(ahead(points, last, -1, reach), points[last]!));
  return curves(points, 0, last, out, back, tolerance);
}

const unitOr = (v: Point): Point => {
  const l = length(v);
  return l > 0 ? scale(v, 1 / l) : [1, 0];
};

/** The point `reach` mm on from one, or the last that way. */
function ahead(points: readonly Point[], i: number, way: 1 | -1, reach: number): Point {
  let at = i;
  while (points[at + way] && distance(points[i]!, points[at]!) < reach) at += way;
  return points[at]!;
}

/** `out` and `back` are the unit ways into the stretch from its two ends. */
function curves(
  points: readonly Point[],
  from: number,
  to: number,
  out: Point,
  back: Point,
  tolerance: number,
): Segment[] {
  const [p, q] = [points[from]!, points[to]!];
  if (to - from === 1 || isStraight(points, from, to, tolerance / 4)) return [line(q)];
  let params = chords(points, from, to);
  let worst = { off: Number.POSITIVE_INFINITY, at: (from + to) >> 1 };
  for (let round = 0; round < ROUNDS; round++) {
    const curve = leastSquares(points, from, to, params, out, back);
    worst = farthest(points, from, to, params, p, curve);
    if (worst.off <= tolerance) return [curve];
    if (worst.off > HOPELESS * tolerance) break;
    params = params.map((t, k) => nearer(points[from + k]!, p, curve, t));
  }
  const at = Math.min(Math.max(worst.at, from + 1), to - 1);
  const reach = 3 * tolerance;
  const tangent = unitOr(sub(ahead(points, at, 1, reach), ahead(points, at, -1, reach)));
  return [
    ...curves(points, from, at, out, scale(tangent, -1), tolerance),
    ...curves(points, at, to, tangent, back, tolerance),
  ];
}

function isStraight(points: readonly Point[], from: number, to: number, most: number): boolean {
  const [p, q] = [points[from]!, points[to]!];
  const along = sub(q, p);
  const far = length(along);
  if (!(far > 0)) return false;
  for (let i = from + 1; i < to; i++) {
    const v = sub(points[i]!, p);
    const t = dot(v, along) / far;
    if (!(Math.abs(cross(along, v)) / far <= most && t >= -most && t <= far + most)) return false;
  }
  return true;
}

function chords(points: readonly Point[], from: number, to: number): number[] {
  const sums = [0];
  for (let i = from + 1; i <= to; i++) {
    sums.push(sums.at(-1)! + distance(points[i - 1]!, points[i]!));
  }
  const whole = sums.at(-1)!;
  return sums.map(s => s / whole);
}

function way(points: readonly Point[], from: number, to: number): number {
  let sum = 0;
  for (let i = from + 1; i <= to; i++) sum += distance(points[i - 1]!, points[i]!);
  return sum;
}

/** Handle lengths by least squares; a third of the chord where these make no sense. */
function leastSquares(
  points: readonly Point[],
  from: number,
  to: number,
  params: readonly number[],
  out: Point,
  back: Point,
): Cubic {
  const [p, q] = [points[from]!, points[to]!];
  let [c00, c01, c11, x0, x1] = [0, 0, 0, 0, 0];
  params.forEach((t, k) => {
    const s = 1 - t;
    const [b1, b2] = [3 * t * s * s, 3 * t * t * s];
    const [a0, a1] = [scale(out, b1), scale(back, b2)];
    const [w0, w1] = [s * s * s + b1, t * t * t + b2];
    const rest = sub(points[from + k]!, [w0 * p[0] + w1 * q[0], w0 * p[1] + w1 * q[1]]);
    c00 += dot(a0, a0);
    c01 += dot(a0, a1);
    c11 += dot(a1, a1);
    x0 += dot(a0, rest);
    x1 += dot(a1, rest);
  });
  const det = c00 * c11 - c01 * c01;
  const chord = distance(p, q);
  let [l0, l1] = [(x0 * c11 - x1 * c01) / det, (c00 * x1 - c01 * x0) / det];
  // A handle as long as the whole way would swing the curve out between two points and back.
  const [least, most] = [1e-3 * chord, way(points, from, to)];
  const sound = l0 > least && l1 > least && l0 < most && l1 < most && det > 0;
  if (!sound) [l0, l1] = [chord / 3, chord / 3];
  const segment = cubic(add(p, scale(out, l0)), add(q, scale(back, l1)), q);
  return segment as Cubic;
}

/** Where the curve is looked at between two points. */
const BETWEEN = [0.25, 0.5, 0.75];

/** How far the points are from the curve, and the curve between two of them from their chord. */
function farthest(
  points: readonly Point[],
  from: number,
  to: number,
  params: readonly number[],
  start: Point,
  segment: Cubic,
) {
  let [off, at] = [0, (from + to) >> 1];
  for (let i = from + 1; i < to; i++) {
    const d = distance(points[i]!, pointAt({ from: start, segment }, params[i - from]!));
    if (!(d <= off)) [off, at] = [d, i];
  }
  for (let i = from + 1; i <= to; i++) {
    const [a, b] = [points[i - 1]!, points[i]!];
    const [s, t] = [params[i - from - 1]!, params[i - from]!];
    for (const part of BETWEEN) {
      const d = toChord(pointAt({ from: start, segment }, s + part * (t - s)), a, b);
      if (!(d <= off)) [off, at] = [d, i];
    }
  }
  return { off, at };
}

function toChord(p: Point, a: Point, b: Point): number {
  const [along, v] = [sub(b, a), sub(p, a)];
  const square = dot(along, along);
  const t = square > 0 ? Math.min(1, Math.max(0, dot(v, along) / square)) : 0;
  return distance(v, scale(along, t));
}

/** A step of Newton's toward the parameter of the nearest point. */
function nearer(point: Point, from: Point, segment: Cubic, t: number): number {
  const d = sub(pointAt({ from, segment }, t), point);
  const v = velocityAt(from, segment, t);
  const { c1, c2, to } = segment;
  const bend = (k: 0 | 1) =>
    6 * ((1 - t) * (c2[k] - 2 * c1[k] + from[k]) + t * (to[k] - 2 * c2[k] + c1[k]));
  const slope = dot(v, v) + d[0] * bend(0) + d[1] * bend(1);
  const next = slope !== 0 ? t - dot(d, v) / slope : t;
  return next >= 0 && next <= 1 ? next : t;
}
