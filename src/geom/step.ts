/** One segment with where it starts: reading, reversing and splitting it. */
import { arcTo } from './arc.js';
import { cubic, line } from './build.js';
import type { Cubic, Path, Point, Segment } from './types.js';
import { distance, lerp, samePoint, sub, unit } from './vec.js';

/** A segment together with where it starts. */
export interface Step {
  readonly from: Point;
  readonly segment: Segment;
}

export function steps(path: Path): Step[] {
  let from = path.start;
  return path.segments.map(segment => {
    const step = { from, segment };
    from = segment.to;
    return step;
  });
}

/** The signed turn of an arc, radians. */
export const sweepOf = (bulge: number): number => 4 * Math.atan(bulge);

/** `v` turned by `angle`. */
function turned(v: Point, angle: number): Point {
  const c = Math.cos(angle);
  const s = Math.sin(angle);
  return [c * v[0] - s * v[1], s * v[0] + c * v[1]];
}

/** A point of an arc, by the chord to it: unlike the centre form it keeps its digits when the arc is
 *  almost a line, and it meets both ends. */
function pointOnArc(from: Point, to: Point, bulge: number, t: number): Point {
  const half = sweepOf(bulge) / 2;
  const part = half === 0 ? t : Math.sin(t * half) / Math.sin(half);
  const v = turned(sub(to, from), (t - 1) * half);
  return [from[0] + part * v[0], from[1] + part * v[1]];
}

/** The point of one step at parameter t in [0, 1]. */
export function pointAt({ from, segment }: Step, t: number): Point {
  if (segment.kind === 'line') return lerp(from, segment.to, t);
  if (segment.kind === 'arc') return pointOnArc(from, segment.to, segment.bulge, t);
  const s = 1 - t;
  const b0 = s * s * s;
  const b1 = 3 * s * s * t;
  const b2 = 3 * s * t * t;
  const b3 = t * t * t;
  const { c1, c2, to } = segment;
  return [
    b0 * from[0] + b1 * c1[0] + b2 * c2[0] + b3 * to[0],
    b0 * from[1] + b1 * c1[1] + b2 * c2[1] + b3 * to[1],
  ];
}

/** Derivative of a cubic by its parameter. */
export function velocityAt(from: Point, { c1, c2, to }: Cubic, t: number): Point {
  const s = 1 - t;
  const a = 3 * s * s;
  const b = 6 * s * t;
  const c = 3 * t * t;
  return [
    a * (c1[0] - from[0]) + b * (c2[0] - c1[0]) + c * (to[0] - c2[0]),
    a * (c1[1] - from[1]) + b * (c2[1] - c1[1]) + c * (to[1] - c2[1]),
  ];
}

/** Unit tangent of one step at parameter t, in the direction of travel. A cubic with a zero
 *  handle takes the direction of the next handle or of its chord. Throws where there is none. */
export function tangentAt({ from, segment }: Step, t: number): Point {
  if (segment.kind === 'line') return unit(sub(segment.to, from));
  if (segment.kind === 'arc') {
    const half = sweepOf(segment.bulge) / 2;
    return unit(turned(sub(segment.to, from), (2 * t - 1) * half));
  }
  const { c1, c2, to } = segment;
  const d = velocityAt(from, segment, t);
  const size = distance(from, to) + distance(from, c1) + distance(c2, to);
  // A cusp is found to the root of the rounding: what is slower than that has no direction of its own.
  if (Math.hypot(d[0], d[1]) > 1e-7 * size) return unit(d);
  if (t < 0.5) return unit(samePoint(from, c2) ? sub(to, from) : sub(c2, from));
  return unit(samePoint(c1, to) ? sub(to, from) : sub(to, c1));
}

export function reverseSegment({ from, segment }: Step): Segment {
  if (segment.kind === 'line') return line(from);
  if (segment.kind === 'arc') return { kind: 'arc', to: from, bulge: -segment.bulge };
  return cubic(segment.c2, segment.c1, from);
}

/** The part of a step between two parameters, 0 ≤ t0 < t1 ≤ 1: exact for every kind, and to the bit at
 *  the step's own ends. */
export function partOfStep(step: Step, t0: number, t1: number): Step {
  if (!(t0 >= 0 && t1 > t0 && t1 <= 1)) throw new RangeError(`no part from ${t0} to ${t1}`);
  const { from, segment } = step;
  const start = t0 === 0 ? from : pointAt(step, t0);
  const end = t1 === 1 ? segment.to : pointAt(step, t1);
  if (segment.kind === 'line') return { from: start, segment: line(end) };
  if (segment.kind === 'arc') {
    return { from: start, segment: arcTo(end, sweepOf(segment.bulge) * (t1 - t0)) };
  }
  const { c1, c2, to } = segment;
  // The blossom: each control point of the part is the curve's polar form at (t0, t0, t1), (t0, t1, t1).
  const blossom = (a: number, b: number, c: number): Point => {
    const p = lerp(from, c1, a);
    const q = lerp(c1, c2, a);
    const r = lerp(c2, to, a);
    return lerp(lerp(p, q, b), lerp(q, r, b), c);
  };
  return { from: start, segment: cubic(blossom(t0, t0, t1), blossom(t0, t1, t1), end) };
}

/** The two parts of a step at parameter t in (0, 1). */
export const splitStep = (step: Step, t: number): [Step, Step] => [
  partOfStep(step, 0, t),
  partOfStep(step, t, 1),
];
