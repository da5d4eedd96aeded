/** Offsets that keep lines lines and arcs arcs, for outlines simple enough to allow it. */
import { SAME_ANGLE, SAME_POINT_MM } from '../units/tolerances.js';
import { arcShape, arcTo } from './arc.js';
import { carrierOf, carriersMeet, isOnStep, turnOn } from './meet.js';
import { line, type Step, steps, tangentAt } from './path.js';
import type { Path, Point, Segment } from './types.js';
import { add, angleOf, cross, distance, dot, perp, samePoint, scale, sub } from './vec.js';

export type OffsetJoin = 'round' | 'mitre';

/** A mitre longer than this many offsets is rounded instead: a spike of paper bends and tears. */
const LONGEST_MITRE = 3;

interface Joint {
  /** The end of the segment before and the start of the one after, shifted. */
  readonly end: Point;
  readonly start: Point;
  /** What lies between them. */
  readonly between: readonly Segment[];
}

/**
 * The outline moved outward by `delta` mm (inward when negative; a counter-clockwise path's
 * outside is on its right): lines shift, arcs change radius, corners that open are rounded or
 * mitred, corners that close are trimmed where the shifted neighbours meet. `undefined` when that
 * is not the whole answer: a segment vanishes or turns back, the result crosses itself, the
 * path holds a cubic or turns back on itself. Use the general offset then.
 */
export function offsetExactly(path: Path, delta: number, join: OffsetJoin): Path | undefined {
  if (!path.closed || path.segments.some(s => s.kind === 'cubic')) return undefined;
  if (delta === 0) return path;
  const whole = [...steps(path)].filter(s => !samePoint(s.from, s.segment.to));
  const shifted = whole.map(s => shift(s, delta));
  if (whole.some((s, i) => !shifted[i] && !isRoundedCorner(s, whole, i))) return undefined;
  const before = whole.filter((_, i) => shifted[i]);
  const moved = shifted.filter(s => s !== undefined);

  const n = before.length;
  if (n < 2) return undefined;
  const joints: Joint[] = [];
  for (let i = 0; i < n; i++) {
    const j = (i + 1) % n;
    const joint = joinAt([before[i]!, before[j]!], [moved[i]!, moved[j]!], delta, join);
    if (!joint) return undefined;
    joints.push(joint);
  }

  const start = joints[n - 1]!.start;
  const segments: Segment[] = [];
  for (let i = 0; i < n; i++) {
    const cut = between(moved[i]!, joints[(i + n - 1) % n]!.start, joints[i]!.end);
    if (!cut) return undefined;
    segments.push(cut, ...joints[i]!.between);
  }
  segments.push({ ...segments.pop()!, to: start } as Segment);
  const result: Path = { start, segments, closed: true };
  return crossesItself(result) ? undefined : result;
}

function shift({ from, segment }: Step, delta: number): Step | undefined {
  const { to } = segment;
  if (segment.kind === 'line') {
    const along = sub(to, from);
    const out = scale(perp(along), -delta / Math.hypot(along[0], along[1]));
    return { from: add(from, out), segment: line(add(to, out)) };
  }
  if (segment.kind !== 'arc') return undefined;
  const { centre, radius, sweep } = arcShape(from, segment);
  const grown = radius + Math.sign(sweep) * delta;
  if (!(grown > SAME_POINT_MM)) return undefined;
  const out = (p: Point) => add(centre, scale(sub(p, centre), grown / radius));
  return { from: out(from), segment: { ...segment, to: out(to) } };
}

/** Whether a step is an arc that rounds the corner of two lines. Moved inward by its radius or more
 *  it is gone, and the lines meet instead: no point where they do is nearer to the arc than to
 *  them, since the arc lies between them and the corner. */
function isRoundedCorner(step: Step, all: readonly Step[], i: number): boolean {
  const n = all.length;
  const [a, b] = [all[(i + n - 1) % n]!, all[(i + 1) % n]!];
  const isTangent = (s: Step, t: Step) => {
    const [u, v] = [tangentAt(s, 1), tangentAt(t, 0)];
    return Math.abs(Math.atan2(cross(u, v), dot(u, v))) <= SAME_ANGLE;
  };
  return (
    step.segment.kind === 'arc' &&
    Math.abs(step.segment.bulge) < 1 &&
    a.segment.kind === 'line' &&
    b.segment.kind === 'line' &&
    isTangent(a, step) &&
    isTangent(step, b)
  );
}

function joinAt(
  [a, b]: readonly [Step, Step],
  [a1, b1]: readonly [Step, Step],
  delta: number,
  join: OffsetJoin,
): Joint | undefined {
  const corner = b.from;
  const [t0, t1] = [tangentAt(a, 1), tangentAt(b, 0)];
  const turn = Math.atan2(cross(t0, t1), dot(t0, t1));
  const [end, start] = [a1.segment.to, b1.from];
  if (Math.abs(turn) <= SAME_ANGLE) return { end, start: end, between: [] };
  // A full turn back has no side of its own.
  if (!(Math.abs(turn) < Math.PI - SAME_ANGLE)) return undefined;

  if (!samePoint(a.segment.to, corner)) {
    const [near] = carriersMeet(carrierOf(a1), carrierOf(b1));
    return near && { end: near, start: near, between: [] };
  }
  const stretch = 1 / Math.cos(turn / 2);
  const out = (t: Point) => scale(perp(t), -delta);
  const tip = add(corner, scale(add(out(t0), out(t1)), (stretch * stretch) / 2));
  if (turn * delta > 0) {
    if (join === 'round' || stretch > LONGEST_MITRE) {
      return { end, start, between: [arcTo(start, turn)] };
    }
    const straight = a.segment.kind === 'line' && b.segment.kind === 'line';
    if (straight) return { end: tip, start: tip, between: [] };
    return { end, start, between: [line(tip), line(start)] };
  }
  const meetings = carriersMeet(carrierOf(a1), carrierOf(b1));
  const near = meetings.sort((p, q) => distance(p, tip) - distance(q, tip))[0];
  return near && { end: near, start: near, between: [] };
}

/** A shifted segment between its new ends; `undefined` when it would run backwards. */
function between({ from, segment }: Step, start: Point, end: Point): Segment | undefined {
  if (!(distance(start, end) > SAME_POINT_MM)) return undefined;
  if (segment.kind === 'line') {
    return dot(sub(end, start), sub(segment.to, from)) > 0 ? line(end) : undefined;
  }
  if (segment.kind !== 'arc') return undefined;
  const { centre, sweep } = arcShape(from, segment);
  const turn = turnOn(angleOf(sub(start, centre)), angleOf(sub(end, centre)), sweep);
  // A trimmed arc is shorter than it was; one that ran backwards has become most of a circle.
  if (!(turn <= Math.abs(sweep) + SAME_ANGLE)) return undefined;
  return arcTo(end, Math.sign(sweep) * turn);
}

/** Whether two segments that are not neighbours meet, or neighbours meet beside their corner.
 *  Touching counts. Lines and arcs only; every pair is tried. */
export function crossesItself(path: Path): boolean {
  const all = [...steps(path)];
  const n = all.length;
  for (let i = 0; i < n; i++) {
    for (let j = i + 1; j < n; j++) {
      const [a, b] = [all[i]!, all[j]!];
      const shared = [
        ...(j === i + 1 ? [b.from] : []),
        ...((j + 1) % n === i && path.closed ? [a.from] : []),
      ];
      for (const p of carriersMeet(carrierOf(a), carrierOf(b))) {
        // Neighbours that are tangent meet at their corner only to the root of the rounding.
        if (shared.some(c => samePoint(c, p, Math.sqrt(SAME_POINT_MM)))) continue;
        if (isOnStep(p, a) && isOnStep(p, b)) return true;
      }
    }
  }
  return false;
}

/** Whether two paths of lines and arcs meet or touch anywhere. */
export function pathsMeet(a: Path, b: Path): boolean {
  for (const p of steps(a)) {
    for (const q of steps(b)) {
      const meetings = carriersMeet(carrierOf(p), carrierOf(q));
      if (meetings.some(m => isOnStep(m, p) && isOnStep(m, q))) return true;
    }
  }
  return false;
}
