/** Parts of a path by length along it. */
import { arcShape, arcTo } from './arc.js';
import { cubic, line, pointAt, type Step, stepLength, steps } from './path.js';
import type { Path, Point, Segment } from './types.js';
import { lerp } from './vec.js';

/** The part of one cubic between two parameters, by de Casteljau's construction. */
export function cubicPart({ from, segment }: Step, t0: number, t1: number): Step {
  if (segment.kind !== 'cubic') throw new RangeError('not a cubic');
  const { c1, c2, to } = segment;
  // The blossom: three parameters to one control point.
  const at = (a: number, b: number, c: number): Point => {
    const [p, q, r] = [lerp(from, c1, a), lerp(c1, c2, a), lerp(c2, to, a)];
    return lerp(lerp(p, q, b), lerp(q, r, b), c);
  };
  return { from: at(t0, t0, t0), segment: cubic(at(t0, t0, t1), at(t0, t1, t1), at(t1, t1, t1)) };
}

/** Parameter of a cubic at a length from its start: bisection, 50 halvings. */
function cubicParam(step: Step, along: number, whole: number): number {
  if (!(along > 0)) return 0;
  if (!(along < whole)) return 1;
  let lo = 0;
  let hi = 1;
  for (let i = 0; i < 50; i++) {
    const t = (lo + hi) / 2;
    if (stepLength(cubicPart(step, 0, t)) < along) lo = t;
    else hi = t;
  }
  return (lo + hi) / 2;
}

function stepPart(step: Step, a: number, b: number, whole: number): Step {
  const { from, segment } = step;
  if (segment.kind === 'cubic') {
    return cubicPart(step, cubicParam(step, a, whole), cubicParam(step, b, whole));
  }
  const start = a <= 0 ? from : pointAt(step, a / whole);
  const end = b >= whole ? segment.to : pointAt(step, b / whole);
  if (segment.kind === 'line') return { from: start, segment: line(end) };
  const { sweep } = arcShape(from, segment);
  return { from: start, segment: arcTo(end, (sweep * (b - a)) / whole) };
}

/**
 * The open part of a path from one length along it to another, mm; 0 ≤ `begin` < `end` ≤ length.
 * Lines and arcs are cut exactly, cubics where their measured length says. Throws when nothing
 * is left. A closed path is not run past its start.
 */
export function partOf(path: Path, begin: number, end: number): Path {
  let run = 0;
  let start: Point | undefined;
  const segments: Segment[] = [];
  for (const step of steps(path)) {
    const whole = stepLength(step);
    const a = Math.max(begin - run, 0);
    const b = Math.min(end - run, whole);
    run += whole;
    // A remnant of rounding at the end of a segment is no part of its own.
    if (!(b - a > 1e-9 * Math.max(end - begin, 0))) continue;
    const part = stepPart(step, a, b, whole);
    start ??= part.from;
    segments.push(part.segment);
  }
  if (!start) throw new RangeError(`no part of the path from ${begin} to ${end} mm`);
  return { start, segments, closed: false };
}
