/**
 * Lines and arcs out of a dense polyline. Where the points came from lines and arcs these are found
 * again, each through as many points as lie on it; other curves become tangent-continuous biarcs
 * (Meek & Walton, "Approximation of discrete data by G1 arc splines", CAD 24(6), 1992).
 */
import { FIT_MM, ON_PATH_MM } from '../units/tolerances.js';
import { arcShape, arcThrough } from './arc.js';
import { line } from './build.js';
import { tidied } from './chain.js';
import { distanceToStep } from './distance.js';
import { AIM, biarc } from './fit-arcs.js';
import type { Arc, Path, Point, Segment } from './types.js';
import { cross, distance, dot, lerp, samePoint, sub, unit } from './vec.js';

/** A turn sharper than this (20°) is a corner whatever stands beside it. */
const CORNER = Math.PI / 9;
/** A turn of this and more is a corner if its neighbours turn by less than a third of it. */
const SLIGHT_CORNER = Math.PI / 60;
/** Points that lie on one line or arc by no more than this were made from it: twice the rounding of
 *  the polygon library at five decimals. */
const RECOVERED_MM = 2 * ON_PATH_MM;

const turnAt = (a: Point, b: Point, c: Point): number => {
  const [u, v] = [sub(b, a), sub(c, b)];
  return Math.atan2(cross(u, v), dot(u, v));
};

/** The polyline with repeated points left out; `closed` ones do not repeat their start. */
function cleaned(points: readonly Point[], closed: boolean): Point[] {
  const kept: Point[] = [];
  for (const p of points) if (!kept.length || !samePoint(p, kept.at(-1)!)) kept.push(p);
  while (closed && kept.length > 1 && samePoint(kept[0]!, kept.at(-1)!)) kept.pop();
  return kept;
}

/** Which points of a closed polyline are corners. */
function cornersOf(points: readonly Point[], tolerance: number): boolean[] {
  const n = points.length;
  const turns = points.map((p, i) => turnAt(points[(i + n - 1) % n]!, p, points[(i + 1) % n]!));
  return points.map((p, i) => {
    const turn = Math.abs(turns[i]!);
    if (turn > CORNER) return true;
    const [before, after] = [points[(i + n - 1) % n]!, points[(i + 1) % n]!];
    // A curve through the point would leave even the shorter of its edges.
    if ((Math.min(distance(p, before), distance(p, after)) * turn) / 8 > tolerance) return true;
    const beside = Math.max(Math.abs(turns[(i + n - 1) % n]!), Math.abs(turns[(i + 1) % n]!));
    return turn > SLIGHT_CORNER && turn > 3 * beside;
  });
}

/**
 * The polyline as lines and arcs, no further than `tolerance` mm from it, its corners kept. A closed
 * one does not repeat its start and is joined to it. Throws for fewer than two different points,
 * three when closed.
 */
export function fitPolyline(
  points: readonly Point[],
  closed: boolean,
  tolerance: number = FIT_MM,
): Path {
  const ring = cleaned(points, closed);
  if (ring.length < (closed ? 3 : 2)) {
    throw new RangeError(
      `a ${closed ? 'closed ' : ''}polyline needs more than ${ring.length} points`,
    );
  }
  if (!(tolerance > 0)) throw new RangeError(`cannot fit within ${tolerance} mm`);
  const corner = cornersOf(ring, tolerance);
  if (!closed) {
    corner[0] = true;
    corner[ring.length - 1] = true;
  }
  const first = Math.max(0, corner.indexOf(true));
  const chain = closed ? [...ring.slice(first), ...ring.slice(0, first), ring[first]!] : ring;
  const isCorner = (i: number) => corner[(first + i) % ring.length]!;

  const segments: Segment[] = [];
  const smooth = closed && !corner.includes(true);
  let from = 0;
  for (let i = 1; i < chain.length; i++) {
    if (i < chain.length - 1 && !isCorner(i)) continue;
    segments.push(...fitStretch(chain.slice(from, i + 1), smooth, AIM * tolerance));
    from = i;
  }
  const path: Path = { start: chain[0]!, segments, closed };
  return tidied(path) ?? path;
}

/** One stretch without corners, from its first point to its last; `loop` when these are one. */
function fitStretch(points: readonly Point[], loop: boolean, tolerance: number): Segment[] {
  const found = recovered(points, tolerance);
  if (found.length <= 2) return found;
  const fitted = biarcs(points, loop, tolerance);
  return fitted && fitted.length < found.length ? fitted : found;
}

/** The largest index from `lo` to `hi` that passes, if passing runs out once: doubling, then halving. */
function longest(lo: number, hi: number, passes: (j: number) => boolean): number {
  let good = lo;
  let reach = 1;
  let bad = hi + 1;
  while (good + reach <= hi) {
    if (!passes(good + reach)) {
      bad = good + reach;
      break;
    }
    good += reach;
    reach *= 2;
  }
  while (bad - good > 1) {
    const mid = Math.floor((good + bad) / 2);
    if (passes(mid)) good = mid;
    else bad = mid;
  }
  return good;
}

/** Greedy: the line or the arc that goes furthest, again and again. */
function recovered(points: readonly Point[], tolerance: number): Segment[] {
  const last = points.length - 1;
  const exact = Math.min(tolerance, RECOVERED_MM);
  const segments: Segment[] = [];
  let i = 0;
  while (i < last) {
    const lineEnd = longest(i + 1, last, j => onLine(points, i, j, exact));
    const arcEnd = longest(i + 1, last, j => j < i + 3 || !!onArc(points, i, j, exact, tolerance));
    const arc =
      arcEnd > Math.max(lineEnd, i + 2) ? onArc(points, i, arcEnd, exact, tolerance) : undefined;
    segments.push(arc ?? line(points[lineEnd]!));
    i = arc ? arcEnd : lineEnd;
  }
  return segments;
}

function onLine(points: readonly Point[], i: number, j: number, exact: number): boolean {
  const step = { from: points[i]!, segment: line(points[j]!) };
  for (let k = i + 1; k < j; k++) if (!(distanceToStep(points[k]!, step) <= exact)) return false;
  return true;
}

/** The arc from point i to point j if the points between lie on it and no chord leaves it. */
function onArc(
  points: readonly Point[],
  i: number,
  j: number,
  exact: number,
  tolerance: number,
): Arc | undefined {
  const from = points[i]!;
  const arc = arcThrough(from, points[Math.floor((i + j) / 2)]!, points[j]!);
  if (!arc || !(Math.abs(arc.bulge) <= 1 + 1e-6)) return undefined;
  const { centre, radius } = arcShape(from, arc);
  for (let k = i + 1; k <= j; k++) {
    if (!(Math.abs(distance(points[k]!, centre) - radius) <= exact)) return undefined;
    const middle = lerp(points[k - 1]!, points[k]!, 0.5);
    if (!(Math.abs(distance(middle, centre) - radius) <= tolerance)) return undefined;
  }
  return arc;
}

/** Greedy biarcs through points of a smooth stretch, with tangents from circles through three. */
function biarcs(points: readonly Point[], loop: boolean, tolerance: number): Segment[] | undefined {
  const last = points.length - 1;
  const tangents = points.map((p, i) => {
    if (i > 0 && i < last) return tangentThrough(points[i - 1]!, p, points[i + 1]!);
    if (loop) return tangentThrough(points[last - 1]!, p, points[1]!);
    // At an end, the first chord turned back by as much as the curve turns along it.
    const [a, b, c] =
      i === 0 ? [p, points[1]!, points[2]!] : [p, points[last - 1]!, points[last - 2]!];
    if (!c) return unit(i === 0 ? sub(b, a) : sub(a, b));
    const t = tangentThrough(a, b, c);
    const chord = unit(sub(b, a));
    const mirrored = 2 * dot(t, chord);
    const back: Point = [mirrored * chord[0] - t[0], mirrored * chord[1] - t[1]];
    return i === 0 ? back : ([-back[0], -back[1]] as const);
  });
  const segments: Segment[] = [];
  let i = 0;
  while (i < last) {
    const pairTo = (j: number) => {
      const pair = biarc(points[i]!, tangents[i]!, points[j]!, tangents[j]!);
      return pair && follows(points, i, j, pair, tolerance) ? pair : undefined;
    };
    const end = longest(i + 1, last, j => j === i + 1 || !!pairTo(j));
    const pair = end === i + 1 ? [line(points[end]!)] : pairTo(end);
    if (!pair) return undefined;
    segments.push(...pair);
    i = end;
  }
  return segments;
}

/** Direction at `b` of the circle through three points. */
function tangentThrough(a: Point, b: Point, c: Point): Point {
  const [u, v] = [sub(b, a), sub(c, b)];
  const [p, q] = [dot(u, u), dot(v, v)];
  // The shorter chord is the nearer to the tangent: each weighs as the other's length squared.
  return unit([u[0] * q + v[0] * p, u[1] * q + v[1] * p]);
}

function follows(
  points: readonly Point[],
  i: number,
  j: number,
  pair: readonly Segment[],
  tolerance: number,
): boolean {
  const near = (p: Point): boolean => {
    let from = points[i]!;
    for (const segment of pair) {
      if (distanceToStep(p, { from, segment }) <= tolerance) return true;
      from = segment.to;
    }
    return false;
  };
  for (let k = i + 1; k <= j; k++) {
    if (!near(points[k]!) || !near(lerp(points[k - 1]!, points[k]!, 0.5))) return false;
  }
  return true;
}
