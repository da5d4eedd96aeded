/** Parts of a path by length along it. */
import { SAME_POINT_MM } from '../units/tolerances.js';
import { stepLength } from './measure.js';
import { partOfStep, pointAt, type Step, steps, tangentAt } from './step.js';
import type { Path, Point, Segment } from './types.js';

/** Halvings in the search for a length along a cubic: to the last bit of the parameter. */
const HALVINGS = 50;

/** Parameter of a step at a length from its start; `whole` is the step's length. */
function paramAt(step: Step, along: number, whole: number): number {
  if (!(along > 0)) return 0;
  if (!(along < whole)) return 1;
  if (step.segment.kind !== 'cubic') return along / whole;
  let lo = 0;
  let hi = 1;
  for (let i = 0; i < HALVINGS; i++) {
    const t = (lo + hi) / 2;
    if (stepLength(partOfStep(step, 0, t)) < along) lo = t;
    else hi = t;
  }
  return (lo + hi) / 2;
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
    const part = partOfStep(step, paramAt(step, a, whole), paramAt(step, b, whole));
    start ??= part.from;
    segments.push(part.segment);
  }
  if (!start) throw new RangeError(`no part of the path from ${begin} to ${end} mm`);
  return { start, segments, closed: false };
}

/** The point and the direction of travel at a length along a path, mm; at a corner the direction is that
 *  of the segment after it. Throws when the path is shorter than that. */
export function pointAlong(path: Path, along: number): { point: Point; tangent: Point } {
  let run = 0;
  let last: { step: Step; whole: number } | undefined;
  for (const step of steps(path)) {
    const whole = stepLength(step);
    if (!(whole > 0)) continue;
    if (along >= 0 && along < run + whole) {
      const t = paramAt(step, along - run, whole);
      return { point: pointAt(step, t), tangent: tangentAt(step, t) };
    }
    run += whole;
    last = { step, whole };
  }
  // The sum of the lengths has its own rounding: the very end is still on the path.
  if (!last || !(along >= 0 && along <= run + SAME_POINT_MM)) {
    throw new RangeError(`no point at ${along} mm of a path of ${run} mm`);
  }
  return { point: last.step.segment.to, tangent: tangentAt(last.step, 1) };
}
