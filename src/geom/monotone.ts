/** Steps divided where they turn back in x or y, so that each part crosses a level line at most once. */
import { bernsteinRoots } from './bernstein.js';
import { partOfStep, pointAt, type Step, sweepOf } from './step.js';
import type { Bounds, Point } from './types.js';
import { angleOf, samePoint, sub } from './vec.js';

/** Rounds to close a bracket around the level asked for. */
const ROUNDS = 60;

/** Parameters inside (0, 1) where a step runs level or upright. */
export function extremeParams(step: Step): number[] {
  const { from, segment } = step;
  if (segment.kind === 'line') return [];
  const found: number[] = [];
  if (segment.kind === 'arc') {
    const half = sweepOf(segment.bulge) / 2;
    if (half === 0) return [];
    // The direction of travel turns evenly from the chord's less half the sweep.
    const chord = angleOf(sub(segment.to, from));
    const quarter = Math.PI / 2;
    const lo = chord - Math.abs(half);
    const hi = chord + Math.abs(half);
    for (let k = Math.ceil(lo / quarter); k * quarter <= hi; k++) {
      found.push(((k * quarter - chord) / half + 1) / 2);
    }
  } else {
    const { c1, c2, to } = segment;
    for (const axis of [0, 1] as const) {
      found.push(
        ...bernsteinRoots([c1[axis] - from[axis], c2[axis] - c1[axis], to[axis] - c2[axis]]),
      );
    }
  }
  found.sort((a, b) => a - b);
  const cuts: number[] = [];
  let last = from;
  for (const t of found) {
    if (!(t > 0 && t < 1)) continue;
    const p = pointAt(step, t);
    // What is shorter than a point is no part: it is one of the ends, found with the rounding.
    if (samePoint(p, last) || samePoint(p, segment.to)) continue;
    cuts.push(t);
    last = p;
  }
  return cuts;
}

/** The step in parts that never turn back in x or in y. */
export function monotoneParts(step: Step): Step[] {
  const cuts = extremeParams(step);
  if (cuts.length === 0) return [step];
  const ends = [0, ...cuts, 1];
  const parts: Step[] = [];
  for (let i = 1; i < ends.length; i++) {
    const part = partOfStep(step, ends[i - 1]!, ends[i]!);
    // Each part begins on the very end of the last: no gap for a ray to slip through.
    parts.push({ from: parts.at(-1)?.segment.to ?? part.from, segment: part.segment });
  }
  return parts;
}

/** A box around a part that never turns back: its two ends. */
export function endsBox({ from, segment: { to } }: Step): Bounds {
  return {
    minX: Math.min(from[0], to[0]),
    minY: Math.min(from[1], to[1]),
    maxX: Math.max(from[0], to[0]),
    maxY: Math.max(from[1], to[1]),
  };
}

/** Where a part that never turns back crosses a level of one axis: the other coordinate there. */
export function crossingAt(part: Step, axis: 0 | 1, level: number): number {
  const other = axis === 0 ? 1 : 0;
  const { from, segment } = part;
  const { to } = segment;
  const [a, b] = [from[axis], to[axis]];
  if (segment.kind === 'line') {
    return from[other] + ((level - a) / (b - a)) * (to[other] - from[other]);
  }
  let [lo, hi] = [0, 1];
  let [fLo, fHi] = [a - level, b - level];
  let p: Point = from;
  for (let k = 0; k < ROUNDS && hi - lo > 1e-15; k++) {
    const guess = k % 2 === 0 ? lo - (fLo * (hi - lo)) / (fHi - fLo) : (lo + hi) / 2;
    const t = guess > lo && guess < hi ? guess : (lo + hi) / 2;
    p = pointAt(part, t);
    const f = p[axis] - level;
    if (f === 0) break;
    if (f > 0 === fLo > 0) [lo, fLo] = [t, f];
    else [hi, fHi] = [t, f];
  }
  return p[other];
}
