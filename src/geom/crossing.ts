/**
 * Where steps and paths meet. Touching counts. Where two run along each other, the ends of the common
 * stretch are given, not its inside.
 */
import { SAME_POINT_MM } from '../units/tolerances.js';
import { bernsteinRoots } from './bernstein.js';
import { nearestOnStep } from './distance.js';
import { arcAsCubics } from './flatten.js';
import { paper } from './heavy.js';
import { carrierOf, carriersMeet } from './meet.js';
import { pointAt, type Step, velocityAt } from './step.js';
import type { Bounds, Cubic, Point } from './types.js';
import { add, cross, distance, dot, samePoint, scale, sub } from './vec.js';

/** A common point of two steps, with its parameter on each. */
export interface Crossing {
  readonly ta: number;
  readonly tb: number;
  readonly point: Point;
}

/** An arc flatter than this is met as a cubic: its centre is too far off to be exact, and as a cubic
 *  it is out by less than 1e-18 of its radius. */
const SHALLOW_BULGE = 1e-3;

/** A box around a step: around its control points, or around the arc's whole bulge. */
export function boxOf({ from, segment }: Step): Bounds {
  const { to } = segment;
  let [minX, maxX] = from[0] < to[0] ? [from[0], to[0]] : [to[0], from[0]];
  let [minY, maxY] = from[1] < to[1] ? [from[1], to[1]] : [to[1], from[1]];
  if (segment.kind === 'cubic') {
    const { c1, c2 } = segment;
    minX = Math.min(minX, c1[0], c2[0]);
    maxX = Math.max(maxX, c1[0], c2[0]);
    minY = Math.min(minY, c1[1], c2[1]);
    maxY = Math.max(maxY, c1[1], c2[1]);
  } else if (segment.kind === 'arc') {
    // Nothing of the arc is further from the chord's middle than this.
    const reach = (distance(from, to) * Math.max(1, Math.abs(segment.bulge))) / 2;
    const [x, y] = [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2];
    minX = Math.min(minX, x - reach);
    maxX = Math.max(maxX, x + reach);
    minY = Math.min(minY, y - reach);
    maxY = Math.max(maxY, y + reach);
  }
  return { minX, minY, maxX, maxY };
}

export const boxesMeet = (a: Bounds, b: Bounds): boolean =>
  a.minX <= b.maxX + SAME_POINT_MM &&
  b.minX <= a.maxX + SAME_POINT_MM &&
  a.minY <= b.maxY + SAME_POINT_MM &&
  b.minY <= a.maxY + SAME_POINT_MM;

const inBox = ([x, y]: Point, { minX, minY, maxX, maxY }: Bounds): boolean =>
  x >= minX - SAME_POINT_MM &&
  x <= maxX + SAME_POINT_MM &&
  y >= minY - SAME_POINT_MM &&
  y <= maxY + SAME_POINT_MM;

/** Every common point of two steps, touching included, in no order; the ends of a common stretch. */
export function stepCrossings(a: Step, b: Step): Crossing[] {
  const found: Crossing[] = [];
  const [boxA, boxB] = [boxOf(a), boxOf(b)];
  const ends = [
    ...[a.from, a.segment.to].filter(p => inBox(p, boxB)),
    ...[b.from, b.segment.to].filter(p => inBox(p, boxA)),
  ];
  for (const p of [...ends, ...insideMeetings(a, b)]) {
    if (!inBox(p, boxA) || !inBox(p, boxB)) continue;
    const na = nearestOnStep(p, a);
    const nb = nearestOnStep(p, b);
    if (!(na.distance <= SAME_POINT_MM && nb.distance <= SAME_POINT_MM)) continue;
    const crossing = { ta: na.t, tb: nb.t, point: p };
    if (!found.some(other => isOneContact(a, b, other, crossing))) found.push(crossing);
  }
  return found;
}

/** Whether two common points are one, or ends of what is one touch to the rounding. */
function isOneContact(a: Step, b: Step, p: Crossing, q: Crossing): boolean {
  if (samePoint(p.point, q.point, 2 * SAME_POINT_MM)) return true;
  const isEnd = (c: Crossing) => [c.ta, c.tb].some(t => t === 0 || t === 1);
  // Both ends of a common stretch are wanted.
  if (isEnd(p) && isEnd(q)) return false;
  // Not at the half: an S through a line meets it there a third time.
  return [0.31, 0.62].every(k => {
    const between = pointAt(a, p.ta + (q.ta - p.ta) * k);
    return nearestOnStep(between, b).distance <= SAME_POINT_MM;
  });
}

/** Candidates inside both steps; some may lie on only one of them. */
function insideMeetings(a: Step, b: Step): Point[] {
  const [p, q] = [unbowed(a), unbowed(b)];
  if (samePoint(p.from, p.segment.to, 0) || samePoint(q.from, q.segment.to, 0)) {
    if (p.segment.kind !== 'cubic' && q.segment.kind !== 'cubic') return [];
  }
  if (p.segment.kind === 'cubic') {
    return q.segment.kind === 'cubic' ? cubicsMeet(p, q) : cubicMeets(p, q);
  }
  if (q.segment.kind === 'cubic') return cubicMeets(q, p);
  return carriersMeet(carrierOf(p), carrierOf(q));
}

function unbowed(step: Step): Step {
  const { from, segment } = step;
  if (segment.kind !== 'arc' || Math.abs(segment.bulge) > SHALLOW_BULGE) return step;
  return { from, segment: arcAsCubics(step)[0]! };
}

/** A cubic and a line or an arc: roots of the cubic's distance to the line, or to the circle. */
function cubicMeets(step: Step, other: Step): Point[] {
  const { c1, c2, to } = step.segment as Cubic;
  const controls = [step.from, c1, c2, to];
  if (samePoint(other.from, other.segment.to, 0)) return [];
  const carrier = carrierOf(other);
  let polynomial: number[];
  if (carrier.kind === 'line') {
    polynomial = controls.map(c => cross(carrier.along, sub(c, carrier.at)));
  } else {
    const { centre, radius } = carrier.shape;
    const v = controls.map(c => sub(c, centre));
    const d = (i: number, j: number) => dot(v[i]!, v[j]!);
    // |B − c|² in Bernstein form of degree six, by the products of the cubic's own.
    polynomial = [
      d(0, 0),
      d(0, 1),
      (2 * d(0, 2) + 3 * d(1, 1)) / 5,
      (d(0, 3) + 9 * d(1, 2)) / 10,
      (2 * d(1, 3) + 3 * d(2, 2)) / 5,
      d(2, 3),
      d(3, 3),
    ].map(value => value - radius * radius);
  }
  return bernsteinRoots(polynomial).map(t => pointAt(step, t));
}

/** Rounds of Newton's method on a meeting of two cubics: paper gives it to about 1e-8. */
const POLISH = 3;

/** Two cubics, by paper's fat-line clipping. */
function cubicsMeet(a: Step, b: Step): Point[] {
  const { Curve, Point: P } = paper();
  const curve = ({ from, segment }: Step) => {
    const { c1, c2, to } = segment as Cubic;
    const point = (p: Point) => new P(p[0], p[1]);
    return new Curve(point(from), point(sub(c1, from)), point(sub(c2, to)), point(to));
  };
  return curve(a)
    .getIntersections(curve(b))
    .map(location => polished(a, b, [location.point.x, location.point.y]));
}

function polished(a: Step, b: Step, near: Point): Point {
  let ta = nearestOnStep(near, a).t;
  let tb = nearestOnStep(near, b).t;
  for (let k = 0; k < POLISH; k++) {
    const gap = sub(pointAt(b, tb), pointAt(a, ta));
    const u = velocityAt(a.from, a.segment as Cubic, ta);
    const v = velocityAt(b.from, b.segment as Cubic, tb);
    const det = cross(u, v);
    // Nearly tangent: Newton would run away, and paper's point is as good as any.
    if (!(Math.abs(det) > 1e-6 * Math.hypot(...u) * Math.hypot(...v))) break;
    ta = Math.min(1, Math.max(0, ta + cross(gap, v) / det));
    tb = Math.min(1, Math.max(0, tb + cross(gap, u) / det));
  }
  const [p, q] = [pointAt(a, ta), pointAt(b, tb)];
  return samePoint(p, q) ? scale(add(p, q), 0.5) : near;
}
