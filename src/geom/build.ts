/** Making paths: lines, cubics, polygons, circles, rounded corners. */
import { arcTo } from './arc.js';
import type { Path, Point, Segment } from './types.js';
import { cross, distance, samePoint, sub, unit } from './vec.js';

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
