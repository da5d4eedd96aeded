/** In, on or out: of a closed path, and of a region. */
import { SAME_POINT_MM } from '../units/tolerances.js';
import { distanceToPath, distanceToStep } from './distance.js';
import { signedArea } from './measure.js';
import { crossingAt, endsBox, monotoneParts } from './monotone.js';
import { type Step, steps } from './step.js';
import type { Path, Point, Region } from './types.js';

/** A part of a path that rises or falls all the way, seen by a ray to the right. */
interface Rise {
  readonly part: Step;
  readonly sign: 1 | -1;
  readonly lo: number;
  readonly hi: number;
  readonly left: number;
  readonly right: number;
}

function* risesOf(path: Path): Generator<Rise> {
  for (const step of steps(path)) {
    for (const part of monotoneParts(step)) {
      const { minX, minY, maxX, maxY } = endsBox(part);
      if (minY === maxY) continue;
      const sign = part.segment.to[1] > part.from[1] ? 1 : -1;
      yield { part, sign, lo: minY, hi: maxY, left: minX, right: maxX };
    }
  }
}

/** Prepares closed paths for many questions: how often they run round a point in all, counter-clockwise
 *  positive. On the path itself the answer is that of one of its sides. */
export function windingOf(...paths: readonly Path[]): (p: Point) => number {
  const rises = paths.flatMap(path => [...risesOf(path)]);
  return ([x, y]) => {
    let count = 0;
    for (const { part, sign, lo, hi, left, right } of rises) {
      // Half open, so that a ray through a corner counts it once.
      if (!(lo <= y && y < hi && x <= right)) continue;
      if (x < left || x < crossingAt(part, 1, y)) count += sign;
    }
    return count;
  };
}

/**
 * Where a point lies to a closed path: `on` within `SAME_POINT_MM` of its line, else `in` when the path
 * runs round it (any number of times but zero, either way), else `out`. NaN is out.
 */
export function contains(path: Path, p: Point): 'in' | 'on' | 'out' {
  if (!path.closed) throw new RangeError('only a closed path contains anything');
  if (distanceToPath(p, path) <= SAME_POINT_MM) return 'on';
  return windingOf(path)(p) !== 0 ? 'in' : 'out';
}

/** As `contains`, with the holes out; their lines are `on`. */
export function regionContains({ outer, holes }: Region, p: Point): 'in' | 'on' | 'out' {
  const where = contains(outer, p);
  if (where !== 'in') return where;
  for (const hole of holes) {
    const inHole = contains(hole, p);
    if (inHole !== 'out') return inHole === 'on' ? 'on' : 'out';
  }
  return 'in';
}

/** `regionContains` prepared for many points of one region, whose loops do not meet. */
export function placesIn({ outer, holes }: Region): (p: Point) => 'in' | 'on' | 'out' {
  const [turns, inHoles] = [windingOf(outer), windingOf(...holes)];
  const edge = [outer, ...holes].flatMap(path =>
    [...steps(path)].flatMap(monotoneParts).map(step => ({ step, box: endsBox(step) })),
  );
  const near = SAME_POINT_MM;
  return p => {
    const [x, y] = p;
    for (const { step, box } of edge) {
      if (x < box.minX - near || x > box.maxX + near) continue;
      if (y < box.minY - near || y > box.maxY + near) continue;
      if (distanceToStep(p, step) <= near) return 'on';
    }
    return turns(p) !== 0 && inHoles(p) === 0 ? 'in' : 'out';
  };
}

/** Area of a region, mm²: its outline less its holes, whichever way they run. */
export const regionArea = ({ outer, holes }: Region): number =>
  holes.reduce((sum, hole) => sum - Math.abs(signedArea(hole)), Math.abs(signedArea(outer)));
