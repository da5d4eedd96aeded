/** Where lines and circles meet: the carriers of segments, and the segments themselves. */
import { SAME_POINT_MM } from '../units/tolerances.js';
import { type ArcShape, arcShape } from './arc.js';
import type { Step } from './path.js';
import type { Point } from './types.js';
import { add, angleOf, cross, distance, dot, perp, scale, sub, unit } from './vec.js';

/** The endless line or the whole circle that a segment lies on. */
export type Carrier =
  | { readonly kind: 'line'; readonly at: Point; readonly along: Point }
  | { readonly kind: 'circle'; readonly shape: ArcShape };

/** Throws for a cubic, and for a segment without length. */
export function carrierOf({ from, segment }: Step): Carrier {
  if (segment.kind === 'line') {
    return { kind: 'line', at: from, along: unit(sub(segment.to, from)) };
  }
  if (segment.kind === 'arc') return { kind: 'circle', shape: arcShape(from, segment) };
  throw new RangeError('a cubic lies on no line and no circle');
}

/** Every point that two carriers share: none, one or two; a touch within `SAME_POINT_MM` is one
 *  point; carriers that coincide or run parallel share none. */
export function carriersMeet(a: Carrier, b: Carrier): Point[] {
  if (a.kind === 'line' && b.kind === 'line') {
    const sine = cross(a.along, b.along);
    // 1e-12: parallel to a micrometre in a thousand kilometres.
    if (!(Math.abs(sine) > 1e-12)) return [];
    return [add(a.at, scale(a.along, cross(sub(b.at, a.at), b.along) / sine))];
  }
  if (a.kind === 'line' && b.kind === 'circle') {
    const { centre, radius } = b.shape;
    const foot = add(a.at, scale(a.along, dot(sub(centre, a.at), a.along)));
    return aside(foot, a.along, radius, distance(foot, centre));
  }
  if (a.kind === 'circle' && b.kind === 'line') return carriersMeet(b, a);
  if (a.kind === 'circle' && b.kind === 'circle') {
    const [p, q] = [a.shape, b.shape];
    const apart = distance(p.centre, q.centre);
    if (!(apart > SAME_POINT_MM)) return [];
    const toQ = scale(sub(q.centre, p.centre), 1 / apart);
    const h = (apart * apart + p.radius * p.radius - q.radius * q.radius) / (2 * apart);
    return aside(add(p.centre, scale(toQ, h)), perp(toQ), p.radius, Math.abs(h));
  }
  return [];
}

/** Points of a circle on the line through `foot`, which lies `off` from its middle. */
function aside(foot: Point, along: Point, radius: number, off: number): Point[] {
  if (!(off <= radius + SAME_POINT_MM)) return [];
  const half = Math.sqrt(Math.max(0, (radius - off) * (radius + off)));
  if (half === 0) return [foot];
  return [add(foot, scale(along, -half)), add(foot, scale(along, half))];
}

/** Whether a point of a segment's carrier is on the segment itself, ends included. */
export function isOnStep(p: Point, { from, segment }: Step): boolean {
  if (distance(p, from) <= SAME_POINT_MM || distance(p, segment.to) <= SAME_POINT_MM) return true;
  if (segment.kind === 'line') return dot(sub(p, from), sub(p, segment.to)) < 0;
  if (segment.kind !== 'arc') throw new RangeError('not for cubics');
  const { centre, startAngle, sweep } = arcShape(from, segment);
  return turnOn(startAngle, angleOf(sub(p, centre)), sweep) <= Math.abs(sweep);
}

/** The turn from one angle to another in the direction of `sweep`, in [0, 2π). */
export function turnOn(from: number, to: number, sweep: number): number {
  const whole = 2 * Math.PI;
  const turn = sweep < 0 ? from - to : to - from;
  return turn - whole * Math.floor(turn / whole);
}
