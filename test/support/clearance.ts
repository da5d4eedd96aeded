/**
 * How far two closed outlines are apart, measured on their true shapes and not on their boxes: the
 * check of arrangements, written without any of the code that arranges.
 */
import { bounds, pointAt, steps } from '../../src/geom/index.js';
import type { Path, Point } from '../../src/geom/types.js';

const PARTS = 24;

/** Points on the path, the ends of its segments exactly and 24 parts of every curve. */
export function sampled(path: Path): Point[] {
  const points: Point[] = [path.start];
  for (const step of steps(path)) {
    const parts = step.segment.kind === 'line' ? 1 : PARTS;
    for (let k = 1; k < parts; k++) points.push(pointAt(step, k / parts));
    points.push(step.segment.to);
  }
  return points;
}

/** Even-odd rule on the sampled outline. */
export function contains(outline: readonly Point[], [x, y]: Point): boolean {
  let odd = false;
  for (let i = 0; i < outline.length - 1; i++) {
    const [x0, y0] = outline[i]!;
    const [x1, y1] = outline[i + 1]!;
    if (y0 > y !== y1 > y && x < x0 + ((y - y0) / (y1 - y0)) * (x1 - x0)) odd = !odd;
  }
  return odd;
}

/** Least distance between two closed outlines, mm; −1 when they cross or one lies in the other.
 *  Outlines further apart than `enough` are told as `enough`, to be quick. */
export function clearance(a: Path, b: Path, enough = Number.POSITIVE_INFINITY): number {
  const p = bounds(a);
  const q = bounds(b);
  const apart = Math.max(q.minX - p.maxX, p.minX - q.maxX, q.minY - p.maxY, p.minY - q.maxY);
  if (apart >= enough) return enough;
  const as = sampled(a);
  const bs = sampled(b);
  if (contains(as, bs[0]!) || contains(bs, as[0]!)) return -1;
  let least = enough;
  for (let i = 0; i < as.length - 1; i++) {
    for (let j = 0; j < bs.length - 1; j++) {
      const d = segmentsApart(as[i]!, as[i + 1]!, bs[j]!, bs[j + 1]!);
      if (d < 0) return -1;
      least = Math.min(least, d);
    }
  }
  return least;
}

/** Least distance between two paths' lines, mm, whichever lies in the other; −1 when they cross. */
export function linesApart(a: Path, b: Path): number {
  const as = sampled(a);
  const bs = sampled(b);
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < as.length - 1; i++) {
    for (let j = 0; j < bs.length - 1; j++) {
      const d = segmentsApart(as[i]!, as[i + 1]!, bs[j]!, bs[j + 1]!);
      if (d < 0) return -1;
      least = Math.min(least, d);
    }
  }
  return least;
}

function segmentsApart(a: Point, b: Point, c: Point, d: Point): number {
  const side = (p: Point, q: Point, r: Point) =>
    (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0]);
  const crossing = side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0;
  if (crossing) return -1;
  return Math.min(toSegment(a, c, d), toSegment(b, c, d), toSegment(c, a, b), toSegment(d, a, b));
}

function toSegment(p: Point, a: Point, b: Point): number {
  const dx = b[0] - a[0];
  const dy = b[1] - a[1];
  const l2 = dx * dx + dy * dy;
  const t = l2 > 0 ? ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / l2 : 0;
  const k = Math.min(1, Math.max(0, t));
  return Math.hypot(p[0] - a[0] - k * dx, p[1] - a[1] - k * dy);
}
