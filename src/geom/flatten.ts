/** Curves as chains of points, and arcs as cubics. */
import { cubic } from './build.js';
import { transform } from './path.js';
import { partOfStep, pointAt, type Step, steps, sweepOf, tangentAt } from './step.js';
import type { Affine, Cubic, Path, Point, Segment } from './types.js';
import { add, distance, scale } from './vec.js';

/** More pieces than this for one segment is a slip of the tolerance, not a curve. */
const MOST_PIECES = 200_000;

function checked(pieces: number, tolerance: number): number {
  if (!(tolerance > 0 && pieces <= MOST_PIECES)) {
    throw new RangeError(`cannot flatten within ${tolerance} mm: ${pieces} pieces`);
  }
  return Math.max(1, pieces);
}

/** Chords that an arc needs so that none is further than `tolerance` from it (the sagitta):
 *  ⌈|θ| / (2 acos(1 − tolerance / r))⌉, written so that a huge radius keeps its digits. */
export function arcPieces(radius: number, sweep: number, tolerance: number): number {
  const half = 2 * Math.asin(Math.sqrt(Math.min(1, tolerance / (2 * radius))));
  return checked(Math.ceil(Math.abs(sweep) / (2 * half) - 1e-9), tolerance);
}

/** Chords that a cubic needs, by Wang's bound: √(6/8 · max second difference / tolerance). */
export function cubicPieces(from: Point, { c1, c2, to }: Cubic, tolerance: number): number {
  const bend = (a: Point, b: Point, c: Point) =>
    Math.hypot(a[0] - 2 * b[0] + c[0], a[1] - 2 * b[1] + c[1]);
  const most = Math.max(bend(from, c1, c2), bend(c1, c2, to));
  return checked(Math.ceil(Math.sqrt((0.75 * most) / tolerance)), tolerance);
}

/** Chords that one step needs. */
export function stepPieces({ from, segment }: Step, tolerance: number): number {
  if (segment.kind === 'line') return 1;
  if (segment.kind === 'cubic') return cubicPieces(from, segment, tolerance);
  const b = Math.abs(segment.bulge);
  if (b === 0) return 1;
  const radius = (distance(from, segment.to) * (1 + b * b)) / (4 * b);
  return arcPieces(radius, sweepOf(b), tolerance);
}

/**
 * The path as points no further than `tolerance` mm from it, every one on it; the start of a closed
 * path is not repeated. Throws when the tolerance is not positive or the path is not finite.
 */
export function flatten(path: Path, tolerance: number): Point[] {
  const points: Point[] = [path.start];
  for (const step of steps(path)) {
    const n = stepPieces(step, tolerance);
    for (let i = 1; i < n; i++) points.push(pointAt(step, i / n));
    points.push(step.segment.to);
  }
  if (path.closed) points.pop();
  return points;
}

/** A cubic turns by at most this when it stands for an arc: out by 4.2e-6 of the radius. */
const CUBIC_SWEEP = Math.PI / 4;

/** An arc as cubics of at most 45° each, handles 4/3 tan(θ/4) of the radius. */
export function arcAsCubics(step: Step): Segment[] {
  const { segment } = step;
  if (segment.kind !== 'arc') return [segment];
  const n = Math.max(1, Math.ceil(Math.abs(sweepOf(segment.bulge)) / CUBIC_SWEEP - 1e-9));
  const cubics: Segment[] = [];
  for (let i = 0; i < n; i++) {
    const part = partOfStep(step, i / n, (i + 1) / n);
    if (part.segment.kind !== 'arc') continue;
    const { to, bulge } = part.segment;
    // r · 4/3 · tan(θ/4) with r = chord (1 + b²) / (4 b): the radius itself is never needed.
    const handle = (distance(part.from, to) * (1 + bulge * bulge)) / 3;
    cubics.push(
      cubic(
        add(part.from, scale(tangentAt(part, 0), handle)),
        add(to, scale(tangentAt(part, 1), -handle)),
        to,
      ),
    );
  }
  return cubics;
}

/** The same path with every arc as cubics: lines and cubics stay. */
export function arcsToCubics(path: Path): Path {
  if (!path.segments.some(s => s.kind === 'arc')) return path;
  return { ...path, segments: [...steps(path)].flatMap(arcAsCubics) };
}

/** Whether a map keeps circles circles: turns, shifts, mirrors and even scaling do. */
export function isSimilarity([a, b, c, d]: Affine): boolean {
  const size = a * a + b * b + c * c + d * d;
  return (
    Math.abs(a * a + b * b - (c * c + d * d)) <= 1e-9 * size &&
    Math.abs(a * c + b * d) <= 1e-9 * size
  );
}

/** Moves a path by any map: arcs stay arcs under a similarity and become cubics otherwise. */
export const transformAny = (path: Path, map: Affine): Path =>
  transform(isSimilarity(map) ? path : arcsToCubics(path), map);
