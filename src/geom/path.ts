/**
 * Paths: building, reading and moving them. Measuring is exact for lines and arcs; for cubics it is
 * exact in area and bounds, and by Gauss–Legendre quadrature in length.
 */
import { arcPoint, arcShape, arcTo } from './arc.js';
import type { Affine, Bounds, Path, Point, Segment } from './types.js';
import { apply, cross, distance, lerp, perp, polar, samePoint, scale, sub, unit } from './vec.js';

/** A segment together with where it starts. */
export interface Step {
  readonly from: Point;
  readonly segment: Segment;
}

export const line = (to: Point): Segment => ({ kind: 'line', to });
export const cubic = (c1: Point, c2: Point, to: Point): Segment => ({ kind: 'cubic', c1, c2, to });

export const openPath = (start: Point, segments: readonly Segment[]): Path => ({
  start,
  segments,
  closed: false,
});

/** Closes a chain: if it does not end on `start` a straight segment is added; if it ends within
 *  `SAME_POINT_MM` of it, its end is moved onto it. */
export function closedPath(start: Point, segments: readonly Segment[]): Path {
  const last = segments.at(-1);
  if (!last) throw new RangeError('a closed path needs at least one segment');
  if (samePoint(last.to, start)) {
    return {
      start,
      segments: [...segments.slice(0, -1), { ...last, to: start } as Segment],
      closed: true,
    };
  }
  return { start, segments: [...segments, line(start)], closed: true };
}

export function polyline(points: readonly Point[], closed = false): Path {
  const [start, ...rest] = points;
  if (!start || rest.length === 0) throw new RangeError('a polyline needs two points or more');
  return closed ? closedPath(start, rest.map(line)) : openPath(start, rest.map(line));
}
export const polygon = (points: readonly Point[]): Path => polyline(points, true);

/** Counter-clockwise from the lower left corner. */
export const rectangle = (x: number, y: number, width: number, height: number): Path =>
  polygon([
    [x, y],
    [x + width, y],
    [x + width, y + height],
    [x, y + height],
  ]);

/** Two half circles, counter-clockwise, starting at the right. */
export function circle(centre: Point, radius: number): Path {
  const right: Point = [centre[0] + radius, centre[1]];
  const left: Point = [centre[0] - radius, centre[1]];
  return { start: right, segments: [arcTo(left, Math.PI), arcTo(right, Math.PI)], closed: true };
}

/**
 * A polygon whose corners are rounded by tangent arcs: `radii[i]` at `points[i]` (0 leaves it
 * sharp). A radius that the neighbouring edges cannot hold is an error, not a smaller radius.
 */
export function roundedPolygon(points: readonly Point[], radii: number | readonly number[]): Path {
  const n = points.length;
  const radius = (i: number) => (typeof radii === 'number' ? radii : (radii[i] ?? 0));
  const trim: number[] = [];
  const turns: number[] = [];
  for (let i = 0; i < n; i++) {
    const u = unit(sub(points[i]!, points[(i + n - 1) % n]!));
    const v = unit(sub(points[(i + 1) % n]!, points[i]!));
    const turn = Math.atan2(cross(u, v), u[0] * v[0] + u[1] * v[1]);
    turns.push(turn);
    trim.push(radius(i) * Math.tan(Math.abs(turn) / 2));
  }
  for (let i = 0; i < n; i++) {
    const j = (i + 1) % n;
    const edge = distance(points[i]!, points[j]!);
    if (!(trim[i]! + trim[j]! <= edge * (1 + 1e-12))) {
      throw new RangeError(
        `corner radii ${radius(i)} and ${radius(j)} mm do not fit an edge of ${edge} mm`,
      );
    }
  }
  const corners = points.map((p, i) => {
    const u = unit(sub(points[(i + n - 1) % n]!, p));
    const v = unit(sub(points[(i + 1) % n]!, p));
    const t = trim[i]!;
    const enter: Point = [p[0] + u[0] * t, p[1] + u[1] * t];
    const leave: Point = [p[0] + v[0] * t, p[1] + v[1] * t];
    return { enter, leave, turn: turns[i]!, round: t > 0 };
  });
  const first = corners[0]!;
  const start = first.round ? first.leave : first.enter;
  const segments: Segment[] = [];
  let at = start;
  const go = (s: Segment) => {
    if (s.kind !== 'line' || !samePoint(at, s.to)) segments.push(s);
    at = s.to;
  };
  for (let k = 1; k <= n; k++) {
    const c = corners[k % n]!;
    go(line(c.enter));
    if (c.round) go(arcTo(c.leave, c.turn));
  }
  return closedPath(start, segments);
}

export function* steps(path: Path): Generator<Step> {
  let from = path.start;
  for (const segment of path.segments) {
    yield { from, segment };
    from = segment.to;
  }
}

export const endOf = (path: Path): Point => path.segments.at(-1)?.to ?? path.start;

/** The corner points in order; for a closed path without the repeated start. */
export function vertices(path: Path): Point[] {
  const points = [path.start, ...path.segments.map(s => s.to)];
  if (path.closed) points.pop();
  return points;
}

/** The point of one step at parameter t in [0, 1]. */
export function pointAt({ from, segment }: Step, t: number): Point {
  if (segment.kind === 'line') return lerp(from, segment.to, t);
  if (segment.kind === 'arc') return arcPoint(arcShape(from, segment), t);
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

/** Unit tangent of one step at parameter t, in the direction of travel. A cubic with a zero
 *  handle takes the direction of the next handle or of its chord. */
export function tangentAt({ from, segment }: Step, t: number): Point {
  if (segment.kind === 'line') return unit(sub(segment.to, from));
  if (segment.kind === 'arc') {
    const shape = arcShape(from, segment);
    const outward = sub(arcPoint(shape, t), shape.centre);
    return unit(scale(perp(outward), Math.sign(shape.sweep)));
  }
  const { c1, c2, to } = segment;
  const s = 1 - t;
  const d: Point = [
    s * s * (c1[0] - from[0]) + 2 * s * t * (c2[0] - c1[0]) + t * t * (to[0] - c2[0]),
    s * s * (c1[1] - from[1]) + 2 * s * t * (c2[1] - c1[1]) + t * t * (to[1] - c2[1]),
  ];
  const size = Math.hypot(sub(to, from)[0], sub(to, from)[1]) + distance(from, c1);
  if (Math.hypot(d[0], d[1]) > 1e-9 * size) return unit(d);
  if (t < 0.5) return unit(samePoint(from, c2) ? sub(to, from) : sub(c2, from));
  return unit(samePoint(c1, to) ? sub(to, from) : sub(to, c1));
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

export function reverseSegment({ from, segment }: Step): Segment {
  if (segment.kind === 'line') return line(from);
  if (segment.kind === 'arc') return { kind: 'arc', to: from, bulge: -segment.bulge };
  return cubic(segment.c2, segment.c1, from);
}

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

// Gauss–Legendre abscissae and weights, 16 points (positive half), Abramowitz & Stegun table 25.4.
const GAUSS: readonly (readonly [number, number])[] = [
  [0.0950125098376374, 0.1894506104550685],
  [0.2816035507792589, 0.1826034150449236],
  [0.4580167776572274, 0.1691565193950025],
  [0.6178762444026438, 0.1495959888165767],
  [0.755404408355003, 0.1246289712555339],
  [0.8656312023878318, 0.0951585116824928],
  [0.9445750230732326, 0.0622535239386479],
  [0.9894009349916499, 0.0271524594117541],
];

function speed({ from, segment }: Step, t: number): number {
  if (segment.kind !== 'cubic') return 0;
  const { c1, c2, to } = segment;
  const s = 1 - t;
  const x = s * s * (c1[0] - from[0]) + 2 * s * t * (c2[0] - c1[0]) + t * t * (to[0] - c2[0]);
  const y = s * s * (c1[1] - from[1]) + 2 * s * t * (c2[1] - c1[1]) + t * t * (to[1] - c2[1]);
  return 3 * Math.hypot(x, y);
}

export function stepLength(step: Step): number {
  const { from, segment } = step;
  if (segment.kind === 'line') return distance(from, segment.to);
  if (segment.kind === 'arc') {
    const { radius, sweep } = arcShape(from, segment);
    return radius * Math.abs(sweep);
  }
  let total = 0;
  const parts = 4;
  for (let k = 0; k < parts; k++) {
    for (const [x, w] of GAUSS) {
      const mid = (k + 0.5) / parts;
      const half = 0.5 / parts;
      total += w * half * (speed(step, mid + x * half) + speed(step, mid - x * half));
    }
  }
  return total;
}

export function pathLength(path: Path): number {
  let total = 0;
  for (const step of steps(path)) total += stepLength(step);
  return total;
}

/** Signed area of a closed path (an open one is closed by its chord): positive counter-clockwise. */
export function signedArea(path: Path): number {
  let twice = 0;
  for (const { from, segment } of steps(path)) {
    const { to } = segment;
    twice += cross(from, to);
    if (segment.kind === 'arc') {
      const { radius, sweep } = arcShape(from, segment);
      twice += radius * radius * (sweep - Math.sin(sweep));
    } else if (segment.kind === 'cubic') {
      // Area between the curve and its chord, from Green's theorem on the Bernstein form.
      const a = sub(segment.c1, from);
      const b = sub(segment.c2, from);
      const c = sub(to, from);
      twice += (6 * cross(a, b) + 3 * cross(a, c) + 3 * cross(b, c)) / 10;
    }
  }
  twice += cross(endOf(path), path.start);
  return twice / 2;
}

/** Counter-clockwise, whatever it was. */
export const counterClockwise = (path: Path): Path => (signedArea(path) < 0 ? reverse(path) : path);
export const clockwise = (path: Path): Path => (signedArea(path) > 0 ? reverse(path) : path);

/** Extreme parameters of a step in x and y, beside its ends. */
function* extremes(step: Step): Generator<Point> {
  const { from, segment } = step;
  yield segment.to;
  if (segment.kind === 'arc') {
    const { centre, radius, startAngle, sweep } = arcShape(from, segment);
    const lo = Math.min(startAngle, startAngle + sweep);
    const hi = Math.max(startAngle, startAngle + sweep);
    for (let k = Math.ceil(lo / (Math.PI / 2)); k * (Math.PI / 2) <= hi; k++) {
      yield polar(radius, k * (Math.PI / 2), centre);
    }
  } else if (segment.kind === 'cubic') {
    for (const axis of [0, 1] as const) {
      const a = segment.c1[axis] - from[axis];
      const b = segment.c2[axis] - segment.c1[axis];
      const c = segment.to[axis] - segment.c2[axis];
      for (const t of quadraticRoots(a - 2 * b + c, 2 * (b - a), a)) {
        if (t > 0 && t < 1) yield pointAt(step, t);
      }
    }
  }
}

/** Real roots of a t² + b t + c, in a form that does not lose digits when a is small. */
function quadraticRoots(a: number, b: number, c: number): number[] {
  const disc = b * b - 4 * a * c;
  if (!(disc >= 0)) return [];
  const q = -0.5 * (b + (b < 0 ? -1 : 1) * Math.sqrt(disc));
  return [q / a, c / q].filter(Number.isFinite);
}

/** Exact bounds of one path or of several together. Throws when there is nothing to bound. */
export function bounds(...paths: readonly Path[]): Bounds {
  let minX = Number.POSITIVE_INFINITY;
  let minY = Number.POSITIVE_INFINITY;
  let maxX = Number.NEGATIVE_INFINITY;
  let maxY = Number.NEGATIVE_INFINITY;
  const see = ([x, y]: Point) => {
    minX = Math.min(minX, x);
    minY = Math.min(minY, y);
    maxX = Math.max(maxX, x);
    maxY = Math.max(maxY, y);
  };
  for (const path of paths) {
    see(path.start);
    for (const step of steps(path)) for (const p of extremes(step)) see(p);
  }
  if (!(minX <= maxX && minY <= maxY)) throw new RangeError('nothing finite to bound');
  return { minX, minY, maxX, maxY };
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
