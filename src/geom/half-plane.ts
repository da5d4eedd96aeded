/** Regions cut along one straight line: what most shapes at the edge of a sheet need, and no more. */

import { ON_PATH_MM } from '../units/tolerances.js';
import { arcShape } from './arc.js';
import { bernsteinRoots } from './bernstein.js';
import { line } from './build.js';
import { loopsOf, regionsOf } from './regions.js';
import { partOfStep, pointAt, type Step, steps } from './step.js';
import type { Path, Point, Region, Segment } from './types.js';
import { cross, dot, sub } from './vec.js';

/** A directed line by a point and a unit direction; its left side is kept. */
export interface Side {
  readonly at: Point;
  readonly along: Point;
}

/** How far left of the line a point lies. */
export const leftOf = ({ at, along }: Side, p: Point): number => cross(along, sub(p, at));

/** A stretch of a loop on the left of the line. */
interface Stretch {
  readonly steps: Step[];
  /** Where it comes in and goes out, along the line. */
  readonly enters: number;
  leaves: number;
}

/**
 * The part of a simple region on the left of a line. `undefined` where that is for a closer look: a corner
 * on the line, or an edge that touches it.
 */
export function leftPart(region: Region, side: Side): Region[] | undefined {
  const stretches: Stretch[] = [];
  const whole: Path[] = [];
  for (const loop of loopsOf([region])) {
    const found = stretchesOf(loop, side);
    if (!found) return undefined;
    if (found === 'in') whole.push(loop);
    else if (found !== 'out') stretches.push(...found);
  }
  if (stretches.length === 0) return regionsOf(whole);
  const loops = joined(stretches);
  if (!loops) return undefined;
  const [only] = loops;
  if (whole.length === 0) return loops.map(outer => ({ outer, holes: [] }));
  return loops.length === 1 ? [{ outer: only!, holes: whole }] : regionsOf([...loops, ...whole]);
}

/** The stretches of a loop that are on the left, or where all of it is. */
function stretchesOf(loop: Path, side: Side): Stretch[] | 'in' | 'out' | undefined {
  const pieces: { readonly step: Step; readonly left: boolean }[] = [];
  for (const step of steps(loop)) {
    const [a, b] = [leftOf(side, step.from), leftOf(side, step.segment.to)];
    if (!(Math.abs(a) > ON_PATH_MM && Math.abs(b) > ON_PATH_MM)) return undefined;
    const cuts = cutsOf(step, side, a, b);
    let left = a > 0;
    const ends = [0, ...cuts, 1];
    for (let i = 1; i < ends.length; i++) {
      if (!(ends[i]! - ends[i - 1]! > 1e-9)) return undefined;
      const part = cuts.length === 0 ? step : partOfStep(step, ends[i - 1]!, ends[i]!);
      const middle = leftOf(side, pointAt(part, 0.5));
      if (!(Math.abs(middle) > ON_PATH_MM && middle > 0 === left)) return undefined;
      pieces.push({ step: part, left });
      left = !left;
    }
    // After an odd number of crossings the step ends on the other side.
    if (left === b > 0) return undefined;
  }
  if (pieces.every(p => p.left)) return 'in';
  if (pieces.every(p => !p.left)) return 'out';
  const n = pieces.length;
  const stretches: Stretch[] = [];
  const first = pieces.findIndex((p, i) => p.left && !pieces[(i + n - 1) % n]!.left);
  for (let k = 0; k < n; k++) {
    const { step, left } = pieces[(first + k) % n]!;
    if (!left) continue;
    const before = pieces[(first + k + n - 1) % n]!;
    const leaves = dot(side.along, sub(step.segment.to, side.at));
    if (before.left) {
      const last = stretches.at(-1)!;
      last.steps.push(step);
      last.leaves = leaves;
    } else {
      stretches.push({ steps: [step], enters: dot(side.along, sub(step.from, side.at)), leaves });
    }
  }
  return stretches;
}

/** Where a step crosses the line, by its parameter in order. */
function cutsOf(step: Step, side: Side, a: number, b: number): number[] {
  const { from, segment } = step;
  if (segment.kind === 'line') return a > 0 === b > 0 ? [] : [a / (a - b)];
  if (segment.kind === 'cubic') {
    const heights = [a, leftOf(side, segment.c1), leftOf(side, segment.c2), b];
    if (heights.every(h => h > 0) || heights.every(h => h < 0)) return [];
    return bernsteinRoots(heights)
      .filter(t => t > 0 && t < 1)
      .sort((s, t) => s - t);
  }
  const { centre, radius, sweep } = arcShape(from, segment);
  const high = -leftOf(side, centre) / radius;
  if (!(Math.abs(high) < 1)) return [];
  // Angles at which the circle meets the line, from the arc's own start.
  const base = Math.atan2(side.along[1], side.along[0]);
  const start = Math.atan2(from[1] - centre[1], from[0] - centre[0]);
  const turn = Math.sign(sweep);
  return [Math.asin(high), Math.PI - Math.asin(high)]
    .map(angle => {
      const past = ((base + angle - start) * turn) % (2 * Math.PI);
      return (past < 0 ? past + 2 * Math.PI : past) / Math.abs(sweep);
    })
    .filter(t => t > 0 && t < 1)
    .sort((s, t) => s - t);
}

/** Stretches closed along the line. The line is inside between its first and second crossing, its third
 *  and fourth, and so on; the outline of what is left runs along it there. */
function joined(stretches: readonly Stretch[]): Path[] | undefined {
  const crossings = stretches
    .flatMap(s => [
      { at: s.enters, enters: s, leaves: undefined },
      { at: s.leaves, enters: undefined, leaves: s },
    ])
    .sort((p, q) => p.at - q.at);
  const next = new Map<Stretch, Stretch>();
  for (let i = 0; i < crossings.length; i += 2) {
    const [from, to] = [crossings[i]!, crossings[i + 1]!];
    if (!(from.leaves && to?.enters && to.at - from.at > ON_PATH_MM)) return undefined;
    next.set(from.leaves, to.enters);
  }
  const left = new Set(stretches);
  const loops: Path[] = [];
  for (const first of stretches) {
    if (!left.has(first)) continue;
    const segments: Segment[] = [];
    const start = first.steps[0]!.from;
    for (let s = first; left.delete(s); s = next.get(s)!) {
      segments.push(...s.steps.map(step => step.segment), line(next.get(s)!.steps[0]!.from));
    }
    loops.push({ start, segments, closed: true });
  }
  return loops;
}
