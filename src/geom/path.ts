/** Whole paths: their ends and corners, reversing, moving, beginning elsewhere. */
import { cubic, line } from './build.js';
import { signedArea } from './measure.js';
import { reverseSegment, steps, tangentAt } from './step.js';

export * from './build.js';
export * from './measure.js';
export * from './step.js';

import type { Affine, Path, Point, Segment } from './types.js';
import { apply } from './vec.js';

export const endOf = (path: Path): Point => path.segments.at(-1)?.to ?? path.start;

/** The corner points in order; for a closed path without the repeated start. */
export function vertices(path: Path): Point[] {
  const points = [path.start, ...path.segments.map(s => s.to)];
  if (path.closed) points.pop();
  return points;
}

export const startTangent = (path: Path): Point => {
  const segment = path.segments[0];
  if (!segment) throw new RangeError('an empty path has no direction');
  return tangentAt({ from: path.start, segment }, 0);
};
export const endTangent = (path: Path): Point => {
  const all = [...steps(path)];
  const last = all.at(-1);
  if (!last) throw new RangeError('an empty path has no direction');
  return tangentAt(last, 1);
};

export function reverse(path: Path): Path {
  const back = [...steps(path)].reverse().map(reverseSegment);
  return { start: endOf(path), segments: back, closed: path.closed };
}

/** Moves a path. Arcs ask for a similarity (they stay arcs); any other map with arcs throws. */
export function transform(path: Path, m: Affine): Path {
  const [a, b, c, d] = m;
  const det = a * d - b * c;
  const similar =
    Math.abs(a * a + b * b - (c * c + d * d)) <= 1e-9 * (a * a + b * b + c * c + d * d) &&
    Math.abs(a * c + b * d) <= 1e-9 * (a * a + b * b + c * c + d * d);
  const segments = path.segments.map((s): Segment => {
    if (s.kind === 'line') return line(apply(m, s.to));
    if (s.kind === 'cubic') return cubic(apply(m, s.c1), apply(m, s.c2), apply(m, s.to));
    if (!similar) throw new RangeError('an arc only follows a similarity: make it cubic first');
    return { kind: 'arc', to: apply(m, s.to), bulge: det < 0 ? -s.bulge : s.bulge };
  });
  return { start: apply(m, path.start), segments, closed: path.closed };
}

/** Counter-clockwise, whatever it was. */
export const counterClockwise = (path: Path): Path => (signedArea(path) < 0 ? reverse(path) : path);
export const clockwise = (path: Path): Path => (signedArea(path) > 0 ? reverse(path) : path);

/** A closed path made to begin at another of its corners. */
export function startingAt(path: Path, index: number): Path {
  if (!path.closed) throw new RangeError('only a closed path can begin elsewhere');
  const n = path.segments.length;
  const i = ((index % n) + n) % n;
  if (i === 0) return path;
  const start = path.segments[i - 1]!.to;
  return {
    start,
    segments: [...path.segments.slice(i), ...path.segments.slice(0, i)],
    closed: true,
  };
}

/** Every number of the path is finite. */
export function isFinitePath(path: Path): boolean {
  const ok = (p: Point) => Number.isFinite(p[0]) && Number.isFinite(p[1]);
  return (
    ok(path.start) &&
    path.segments.every(
      s =>
        ok(s.to) &&
        (s.kind !== 'arc' || Number.isFinite(s.bulge)) &&
        (s.kind !== 'cubic' || (ok(s.c1) && ok(s.c2))),
    )
  );
}
