/** Questions about where whole paths meet. */
import { SAME_POINT_MM } from '../units/tolerances.js';
import { boxesMeet, boxOf, stepCrossings } from './crossing.js';
import { monotoneParts } from './monotone.js';
import { type Step, steps } from './step.js';
import type { Bounds, Path, Point } from './types.js';
import { dot, samePoint, sub } from './vec.js';

interface Boxed {
  readonly step: Step;
  readonly box: Bounds;
}
const boxed = (all: Iterable<Step>): Boxed[] => [...all].map(step => ({ step, box: boxOf(step) }));

/**
 * Every point where two paths meet, along `a`; touching counts, and where they run along each other the
 * ends of the common stretch are given. Each point once, however many steps end there.
 */
export function intersections(a: Path, b: Path): Point[] {
  const others = boxed(steps(b));
  const found: Point[] = [];
  for (const { step, box } of boxed(steps(a))) {
    const here = others
      .filter(other => boxesMeet(box, other.box))
      .flatMap(other => stepCrossings(step, other.step))
      .sort((p, q) => p.ta - q.ta);
    for (const { point } of here) {
      if (!found.some(p => samePoint(p, point, 2 * SAME_POINT_MM))) found.push(point);
    }
  }
  return found;
}

/** Neighbours that are tangent are one within the rounding for as far as its root. */
const NEAR_CORNER_MM = Math.sqrt(SAME_POINT_MM);

/**
 * The first place where a path meets itself, or `undefined` when it is simple. Touching counts, so do
 * doubling back and passing through a corner again; neighbours may share only their common corner.
 */
export function selfMeeting(path: Path): Point | undefined {
  // Parts that never turn back cannot meet themselves, so a cubic with a loop is found as well.
  const all = boxed([...steps(path)].flatMap(monotoneParts));
  const n = all.length;
  for (let i = 0; i < n; i++) {
    const a = all[i]!;
    for (let j = i + 1; j < n; j++) {
      const b = all[j]!;
      if (!boxesMeet(a.box, b.box)) continue;
      const shared: Point[] = [];
      if (j === i + 1) shared.push(b.step.from);
      if (path.closed && i === 0 && j === n - 1) shared.push(a.step.from);
      for (const { point } of stepCrossings(a.step, b.step)) {
        if (!shared.some(p => samePoint(p, point, NEAR_CORNER_MM))) return point;
      }
      // Neighbours shorter than the allowance above may still lie on each other.
      if (shared.length > 0 && doublesBack(a.step, b.step, shared)) return shared[0];
    }
  }
  return undefined;
}

function doublesBack(a: Step, b: Step, shared: readonly Point[]): boolean {
  const ends = [a.from, a.segment.to, b.from, b.segment.to];
  return stepCrossings(a, b).some(
    c => ends.some(e => samePoint(e, c.point)) && !shared.some(p => samePoint(p, c.point)),
  );
}

/** Whether a path meets itself nowhere; see `selfMeeting` for where it does. */
export const isSimple = (path: Path): boolean => selfMeeting(path) === undefined;

/** Whether a line through their common corner parts two neighbours, so that they meet nowhere else: square
 *  to the way from one's far end to the other's. A curve lies within its control points. */
function partsAtCorner(a: Step, b: Step, corner: Point): boolean {
  if (a.segment.kind === 'arc' || b.segment.kind === 'arc') return false;
  const far = ({ from, segment }: Step) => (samePoint(from, corner, 0) ? segment.to : from);
  const way = sub(far(b), far(a));
  const side = ({ from, segment }: Step) => {
    const held = segment.kind === 'cubic' ? [segment.c1, segment.c2] : [];
    return [from, ...held, segment.to]
      .filter(p => !samePoint(p, corner, 0))
      .map(p => dot(way, sub(p, corner)));
  };
  return side(a).every(v => v < 0) && side(b).every(v => v > 0);
}

/** A place where one of several paths meets itself or another, as `selfMeeting` does; `undefined` when all
 *  are simple and apart. Looks only at parts whose boxes meet, along x: for thousands of segments. */
export function meetingOf(paths: readonly Path[]): Point | undefined {
  const parts = paths.flatMap(path => {
    const all = boxed([...steps(path)].flatMap(monotoneParts));
    return all.map(({ step, box }, i) => ({ step, box, path, i, last: all.length - 1 }));
  });
  parts.sort((a, b) => a.box.minX - b.box.minX);
  for (const [k, a] of parts.entries()) {
    for (let m = k + 1; m < parts.length; m++) {
      const b = parts[m]!;
      if (b.box.minX > a.box.maxX + SAME_POINT_MM) break;
      if (!boxesMeet(a.box, b.box)) continue;
      const shared: Point[] = [];
      if (a.path === b.path) {
        const [first, second] = a.i < b.i ? [a, b] : [b, a];
        if (second.i === first.i + 1) shared.push(second.step.from);
        if (a.path.closed && first.i === 0 && second.i === a.last) shared.push(first.step.from);
      }
      if (shared.length === 1 && partsAtCorner(a.step, b.step, shared[0]!)) continue;
      for (const { point } of stepCrossings(a.step, b.step)) {
        if (!shared.some(p => samePoint(p, point, NEAR_CORNER_MM))) return point;
      }
      if (shared.length > 0 && doublesBack(a.step, b.step, shared)) return shared[0];
    }
  }
  return undefined;
}
