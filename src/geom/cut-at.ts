/** Points and edges that lie on a path: finding them, and cutting the path there. */
import { ON_PATH_MM, SAME_POINT_MM } from '../units/tolerances.js';
import { nearestOnStep } from './distance.js';
import { pathLength, stepLength } from './measure.js';
import { endOf } from './path.js';
import { partOfStep, pointAt, type Step, steps } from './step.js';
import type { Path, Point, Segment } from './types.js';
import { distance, samePoint } from './vec.js';

interface Place {
  readonly index: number;
  readonly t: number;
  readonly distance: number;
}

/** The nearest place on a path. */
function placeOn(all: readonly Step[], p: Point): Place {
  let best: Place = { index: 0, t: 0, distance: Number.POSITIVE_INFINITY };
  for (const [index, step] of all.entries()) {
    const near = nearestOnStep(p, step);
    if (near.distance < best.distance) best = { index, ...near };
  }
  return best;
}

/**
 * The same path with a corner at each of the given points, which become corners to the bit; a point
 * within `SAME_POINT_MM` of a corner needs none. Where the path passes a point twice both passes are
 * cut. Exact for lines, arcs and cubics. Throws when a point is further than `ON_PATH_MM` from it.
 */
export function cutPathAt(path: Path, points: readonly Point[]): Path {
  const all = [...steps(path)];
  const cuts = all.map(() => [] as { t: number; p: Point }[]);
  for (const p of points) {
    let least = Number.POSITIVE_INFINITY;
    for (const [i, step] of all.entries()) {
      const near = nearestOnStep(p, step);
      least = Math.min(least, near.distance);
      if (!(near.distance <= ON_PATH_MM)) continue;
      if (samePoint(p, step.from) || samePoint(p, step.segment.to)) continue;
      if (near.t > 0 && near.t < 1) cuts[i]!.push({ t: near.t, p });
    }
    if (!(least <= ON_PATH_MM)) {
      throw new RangeError(
        `(${p[0]}, ${p[1]}) is ${least} mm off the path that is to be cut there`,
      );
    }
  }
  if (cuts.every(c => c.length === 0)) return path;
  const segments = all.flatMap((step, i): Segment[] => {
    const at = cuts[i]!.sort((a, b) => a.t - b.t);
    const parts: Segment[] = [];
    let t0 = 0;
    let last = step.from;
    for (const { t, p } of at) {
      if (samePoint(p, last)) continue;
      parts.push({ ...partOfStep(step, t0, t).segment, to: p } as Segment);
      [t0, last] = [t, p];
    }
    parts.push(t0 === 0 ? step.segment : partOfStep(step, t0, 1).segment);
    return parts;
  });
  return { ...path, segments };
}

/** Points of each step of an edge that are tried; two curves of degree three that share nine points
 *  are one (Bézout), and these are more. */
const TRIED = 12;

/** Length along a path to a place on it. */
function lengthTo(all: readonly Step[], { index, t }: Place): number {
  let sum = 0;
  for (let i = 0; i < index; i++) sum += stepLength(all[i]!);
  return t > 0 ? sum + stepLength(partOfStep(all[index]!, 0, t)) : sum;
}

/**
 * Whether an open path lies all along another, in either direction: every point of it within `ON_PATH_MM`
 * of the other, and the other as long between its ends, so that no notch is passed over.
 */
export function coversAlong(edge: Path, whole: Path): boolean {
  const all = [...steps(whole)];
  for (const step of steps(edge)) {
    for (let i = 0; i <= TRIED; i++) {
      if (!(placeOn(all, pointAt(step, i / TRIED)).distance <= ON_PATH_MM)) return false;
    }
  }
  const a = lengthTo(all, placeOn(all, edge.start));
  const b = lengthTo(all, placeOn(all, endOf(edge)));
  const along = pathLength(edge);
  const between = Math.abs(b - a);
  const around = whole.closed ? pathLength(whole) - between : between;
  // Both ends may be off by the tolerance, along the path as across it.
  const same = (length: number) => Math.abs(length - along) <= 4 * ON_PATH_MM;
  return same(between) || same(around);
}

/** Whether a point lies on a path, within `ON_PATH_MM`. */
export const isOnPath = (p: Point, path: Path): boolean =>
  distance(p, path.start) <= SAME_POINT_MM || placeOn([...steps(path)], p).distance <= ON_PATH_MM;
