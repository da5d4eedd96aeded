/**
 * Smooth cubics through given points, for outlines drawn by eye: J. D. Hobby, "Smooth, easy to compute
 * interpolating splines", Discrete & Computational Geometry 1 (1986) 123–140, as in METAFONT with
 * every tension 1. Tangents agree at each knot and curvatures nearly do.
 */
import { cubic, line } from './build.js';
import type { Path, Point, Segment } from './types.js';
import {
  add,
  angleOf,
  apply,
  cross,
  distance,
  dot,
  rotation,
  scale,
  sub,
  unit,
  wrapAngle,
} from './vec.js';

/** A point that the curve passes. A bare point is passed smoothly, in the direction that suits. */
export type Knot =
  | Point
  | {
      readonly point: Point;
      /** Directions of travel before and after it, of any length. One alone makes a corner whose
       *  other side finds its own; `'free'` is a corner with both sides so. */
      readonly into?: Point | 'free';
      readonly out?: Point | 'free';
    };

/** A smooth knot passed in a given direction. */
export const heading = (point: Point, direction: Point): Knot => ({
  point,
  into: direction,
  out: direction,
});
/** A corner; both sides find their own direction unless told. */
export const corner = (
  point: Point,
  into: Point | 'free' = 'free',
  out: Point | 'free' = 'free',
): Knot => ({ point, into, out });

interface Node {
  readonly point: Point;
  readonly into?: Point | 'free';
  readonly out?: Point | 'free';
  readonly breaks: boolean;
}

const nodeOf = (knot: Knot): Node => {
  if (!('point' in knot)) return { point: knot, breaks: false };
  const { point, into = 'free', out = 'free' } = knot;
  return { point, into, out, breaks: true };
};

/** The closed curve through knots. Throws for fewer than two, or for neighbours at one point. */
export function closedSpline(knots: readonly Knot[]): Path {
  const nodes = knots.map(nodeOf);
  const first = nodes.findIndex(n => n.breaks);
  const start = nodes[Math.max(first, 0)];
  if (!start || nodes.length < 2) throw new RangeError('a closed curve needs two knots or more');
  if (first < 0) {
    return { start: start.point, segments: through(nodes.map(n => n.point)), closed: true };
  }
  const turned = [...nodes.slice(first), ...nodes.slice(0, first), start];
  return { start: start.point, segments: runs(turned), closed: true };
}

/** The open curve from the first knot to the last. Throws for fewer than two. */
export function openSpline(knots: readonly Knot[]): Path {
  const nodes = knots.map(nodeOf);
  const [start] = nodes;
  if (!start || nodes.length < 2) throw new RangeError('a curve needs two knots or more');
  return { start: start.point, segments: runs(nodes), closed: false };
}

/** Each stretch between knots that say their direction is a curve of its own. */
function runs(nodes: readonly Node[]): Segment[] {
  const segments: Segment[] = [];
  let from = 0;
  for (let i = 1; i < nodes.length; i++) {
    if (!nodes[i]!.breaks && i < nodes.length - 1) continue;
    const part = nodes.slice(from, i + 1);
    const ends = [part[0]!.out ?? 'free', part.at(-1)!.into ?? 'free'] as const;
    segments.push(
      ...through(
        part.map(n => n.point),
        ends,
      ),
    );
    from = i;
  }
  return segments;
}

/** Turn at b between the chords a → b and b → c. */
function turnAt(a: Point, b: Point, c: Point): number {
  const [u, v] = [sub(b, a), sub(c, b)];
  return Math.atan2(cross(u, v), dot(u, v));
}

/**
 * Cubics through points. Unknown are the angles θ between each chord and the curve where it starts;
 * φ = −ψ − θ is the angle where the chord before it ends, ψ the turn between the two. Mock
 * curvatures agree at each point: (2φₖ − θₖ₋₁)/dₖ₋₁ = (2θₖ − φₖ₊₁)/dₖ, d the chords. Without
 * `ends` the points are a ring. A free end has the curvature of its neighbour ("curl 1").
 */
function through(points: readonly Point[], ends?: readonly (Point | 'free')[]): Segment[] {
  const ring = ends === undefined;
  const n = points.length;
  const at = (i: number) => points[(i + n) % n]!;
  const chords = ring ? n : n - 1;
  const d = Array.from({ length: chords }, (_, i) => distance(at(i), at(i + 1)));
  if (!d.every(x => x > 0)) throw new RangeError('two knots of a curve are at one point');
  if (ends && n === 2 && ends[0] === 'free' && ends[1] === 'free') return [line(at(1))];
  const isEnd = (i: number) => !ring && (i === 0 || i === n - 1);
  const psi = points.map((p, i) => (isEnd(i) ? 0 : turnAt(at(i - 1), p, at(i + 1))));

  const rows = points.map(() => new Array<number>(n + 1).fill(0));
  for (const [i, row] of rows.entries()) {
    const put = (k: number, value: number) => {
      row[(k + n) % n]! += value;
    };
    if (ends && isEnd(i)) {
      const end = ends[i === 0 ? 0 : 1]!;
      const chord = i === 0 ? sub(at(1), at(0)) : sub(at(n - 1), at(n - 2));
      put(i, 1);
      if (end === 'free') {
        const next = i === 0 ? 1 : n - 2;
        put(next, 1);
        // The last knot has no turn of its own, and its φ is −θ.
        row[n] = i === 0 ? -psi[next]! : 0;
      } else row[n] = wrapAngle(angleOf(end) - angleOf(chord));
      continue;
    }
    const [a, b] = [1 / d[(i - 1 + chords) % chords]!, 1 / d[i]!];
    put(i - 1, a);
    put(i, 2 * a + 2 * b);
    put(i + 1, b);
    row[n] = -2 * a * psi[i]! - b * psi[(i + 1) % n]!;
  }
  const theta = solve(rows);
  return d.map((length, i) => {
    const [p, q] = [at(i), at(i + 1)];
    const j = (i + 1) % n;
    return span(p, q, length, theta[i]!, -psi[j]! - theta[j]!);
  });
}

/** One cubic from p to q that leaves its chord by θ and comes back to it by φ. */
function span(p: Point, q: Point, length: number, theta: number, phi: number): Segment {
  const along = unit(sub(q, p));
  const turned = (angle: number, reach: number) =>
    scale(apply(rotation(angle), along), reach * length);
  return cubic(
    add(p, turned(theta, reach(theta, phi))),
    sub(q, turned(-phi, reach(phi, theta))),
    q,
  );
}

/** Hobby's length of a handle as a part of the chord. */
function reach(theta: number, phi: number): number {
  const [st, sp] = [Math.sin(theta), Math.sin(phi)];
  const [ct, cp] = [Math.cos(theta), Math.cos(phi)];
  const bend = Math.SQRT2 * (st - sp / 16) * (sp - st / 16) * (ct - cp);
  const root = Math.sqrt(5);
  return (2 + bend) / (3 + (3 / 2) * (root - 1) * ct + (3 / 2) * (3 - root) * cp);
}

/** Gauss elimination; the system is diagonally dominant but for free ends, so pivots are sought. */
function solve(rows: number[][]): number[] {
  const n = rows.length;
  for (let k = 0; k < n; k++) {
    let best = k;
    for (let i = k + 1; i < n; i++) {
      if (Math.abs(rows[i]![k]!) > Math.abs(rows[best]![k]!)) best = i;
    }
    [rows[k], rows[best]] = [rows[best]!, rows[k]!];
    for (let i = k + 1; i < n; i++) {
      const f = rows[i]![k]! / rows[k]![k]!;
      if (f === 0) continue;
      for (let j = k; j <= n; j++) rows[i]![j]! -= f * rows[k]![j]!;
    }
  }
  const x = new Array<number>(n).fill(0);
  for (let k = n - 1; k >= 0; k--) {
    let sum = rows[k]![n]!;
    for (let j = k + 1; j < n; j++) sum -= rows[k]![j]! * x[j]!;
    x[k] = sum / rows[k]![k]!;
  }
  return x;
}
