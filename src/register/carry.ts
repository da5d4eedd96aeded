/** Paths taken along by a move. */
import {
  add,
  apply,
  arcShape,
  cubic,
  endTangent,
  line,
  partOfStep,
  type Step,
  scale,
  startTangent,
  steps,
  sweepOf,
  transform,
  velocityAt,
} from '../geom/index.js';
import type { Path, Point, Segment } from '../model.js';
import { type Move, moved } from './fit.js';

/** Arcs are cut into pieces of no more than this, radians: a cubic is then within 1e-6 of its radius. */
const MOST_SWEEP = Math.PI / 8;
/** Under a tilt a cubic becomes a quotient; in so many pieces no cubic can be told from it. */
const PIECES = 8;

/** Lines stay lines. Arcs stay arcs under rigid and similar moves, and are cubics after any other. */
export function carry(path: Path, move: Move): Path {
  const { model, a, b, c, d, e, f } = move;
  if (model === 'rigid' || model === 'similarity') return transform(path, [a, b, c, d, e, f]);
  const segments = [...steps(path)].flatMap(step => carryStep(step, move));
  return { start: moved(move, path.start), segments, closed: path.closed };
}

function carryStep(step: Step, move: Move): Segment[] {
  const { segment } = step;
  if (segment.kind === 'line') return [line(moved(move, segment.to))];
  if (segment.kind === 'cubic' && move.model === 'affine') {
    const to = (p: Point) => moved(move, p);
    return [cubic(to(segment.c1), to(segment.c2), to(segment.to))];
  }
  const n =
    segment.kind === 'arc' ? Math.ceil(Math.abs(sweepOf(segment.bulge)) / MOST_SWEEP) : PIECES;
  return Array.from({ length: n }, (_, i) => {
    const piece = partOfStep(step, i / n, (i + 1) / n);
    // The last piece ends where the step does, to the bit.
    const to = i === n - 1 ? segment.to : piece.segment.to;
    const [out, back] = handles(piece);
    const c1 = add(moved(move, piece.from), slope(move, piece.from, out));
    const c2 = add(moved(move, to), slope(move, to, back));
    return cubic(c1, c2, moved(move, to));
  });
}

/** From the ends of a piece to the control points of its cubic. */
function handles({ from, segment }: Step): [Point, Point] {
  if (segment.kind === 'cubic') {
    const ends = [velocityAt(from, segment, 0), scale(velocityAt(from, segment, 1), -1)];
    return ends.map(v => scale(v, 1 / 3)) as [Point, Point];
  }
  const path: Path = { start: from, segments: [segment], closed: false };
  if (segment.kind === 'line') throw new RangeError('a line has no handles');
  const { radius, sweep } = arcShape(from, segment);
  const long = (4 / 3) * Math.tan(Math.abs(sweep) / 4) * radius;
  return [scale(startTangent(path), long), scale(endTangent(path), -long)];
}

/** Where a small step from a point goes. */
function slope(move: Move, at: Point, by: Point): Point {
  const { a, b, c, d, g, h } = move;
  const [u, v] = moved(move, at);
  const w = g * at[0] + h * at[1] + 1;
  return apply([(a - g * u) / w, (b - g * v) / w, (c - h * u) / w, (d - h * v) / w, 0, 0], by);
}
