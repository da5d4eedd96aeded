/** Curved sides: graphs of functions as cubics. */
import { arcTo, closedPath, cubic, endOf, line, openPath, samePoint } from '../geom/index.js';
import type { Path, Point, Segment } from '../model.js';
import { FIT_MM } from '../units/tolerances.js';
import type { Shape } from './shapes.js';

/** A smooth function with its slope. */
export interface Graph {
  at(x: number): number;
  slope(x: number): number;
  /** A bound of its fourth derivative, 1/mm³. */
  readonly fourth: number;
}

/** More pieces than this is a slip of the size, not a curve. */
const MOST_PIECES = 256;

/**
 * The graph from `from` to `to` (either way) as cubics that share its slope at their ends: out by
 * at most h⁴/384 of the fourth derivative (Hermite interpolation), which is kept under `FIT_MM`.
 * An even number of pieces, so that a symmetric curve has its middle at a joint.
 */
export function graphPath(graph: Graph, from: number, to: number): Path {
  const longest = ((384 * FIT_MM) / graph.fourth) ** 0.25;
  const n = 2 * Math.ceil(Math.abs(to - from) / (2 * longest));
  if (!(n <= MOST_PIECES)) throw new RangeError(`a curve of ${n} pieces from ${from} to ${to} mm`);
  const point = (x: number): Point => [x, graph.at(x)];
  const segments: Segment[] = [];
  for (let i = 0; i < n; i++) {
    const a = from + ((to - from) * i) / n;
    const b = from + ((to - from) * (i + 1)) / n;
    const third = (b - a) / 3;
    const c1: Point = [a + third, graph.at(a) + graph.slope(a) * third];
    const c2: Point = [b - third, graph.at(b) - graph.slope(b) * third];
    segments.push(cubic(c1, c2, point(b)));
  }
  return openPath(point(from), segments);
}

/** Open paths that run on from one another, closed with straight lines where they do not. */
export function loopOf(...paths: readonly Path[]): Path {
  const [first] = paths;
  if (!first) throw new RangeError('a loop of no paths');
  const segments: Segment[] = [];
  let at = first.start;
  const lineTo = (p: Point) => {
    if (!samePoint(p, at)) segments.push(line(p));
  };
  for (const path of paths) {
    lineTo(path.start);
    segments.push(...path.segments);
    at = endOf(path);
  }
  return closedPath(first.start, segments);
}

/** A straight side. */
export const straight = (from: Point, to: Point): Path => openPath(from, [line(to)]);

/** How far an arc that turns by `sweep` radians stands over its chord. */
export const arcRise = (chord: number, sweep: number): number => (chord / 2) * Math.tan(sweep / 4);
/** The turn of an arc that stands `rise` mm over its chord. */
export const arcSweep = (chord: number, rise: number): number => 4 * Math.atan((2 * rise) / chord);

/** A wall whose head is a row of equal arcs that bulge out of it, each turning by `sweep` radians;
 *  they begin and end at `height`. */
export function arcHead(width: number, height: number, count: number, sweep: number): Shape {
  const arcs = Array.from({ length: count }, (_, i) =>
    arcTo([(width * (count - 1 - i)) / count, height], sweep),
  );
  const foot = straight([0, 0], [width, 0]);
  const right = straight([width, 0], [width, height]);
  const head = openPath([width, height], arcs);
  const left = straight([0, height], [0, 0]);
  return { outline: loopOf(foot, right, head, left), sides: { foot, right, head, left } };
}
