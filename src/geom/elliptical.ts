/**
 * Elliptical arcs given by their ends, as in SVG path data: to centre form and to our segments (SVG 2,
 * appendix B.2 "Elliptical arc implementation notes"). Angles grow from x towards y, whichever way
 * y points, so the result is right in the frame of its input.
 */
import { arcTo } from './arc.js';
import { cubic, line } from './build.js';
import type { Point, Segment } from './types.js';
import { samePoint } from './vec.js';

export interface EllipseShape {
  readonly centre: Point;
  /** As used: made positive, and enlarged alike where they could not reach (B.2.5). */
  readonly rx: number;
  readonly ry: number;
  /** Angles in radians, on the ellipse's own circle before it is stretched. */
  readonly startAngle: number;
  readonly sweep: number;
  /** Λ of B.2.5: above 1 the radii had to be enlarged by its root. */
  readonly shortfall: number;
}

const angleBetween = (u: Point, v: Point): number =>
  Math.atan2(u[0] * v[1] - u[1] * v[0], u[0] * v[0] + u[1] * v[1]);

/** Centre form of an arc given by its ends. `undefined` where there is no ellipse: a radius of zero (a
 *  straight line) or ends that are one point (nothing). Throws when a number is not finite. */
export function ellipseShape(
  from: Point,
  rx: number,
  ry: number,
  rotationDeg: number,
  large: boolean,
  sweep: boolean,
  to: Point,
): EllipseShape | undefined {
  if (![...from, rx, ry, rotationDeg, ...to].every(Number.isFinite)) {
    throw new RangeError('an elliptical arc needs finite numbers');
  }
  if (rx === 0 || ry === 0 || (from[0] === to[0] && from[1] === to[1])) return undefined;
  const phi = ((rotationDeg % 360) * Math.PI) / 180;
  const [cos, sin] = [Math.cos(phi), Math.sin(phi)];
  const [dx, dy] = [(from[0] - to[0]) / 2, (from[1] - to[1]) / 2];
  const x1 = cos * dx + sin * dy;
  const y1 = -sin * dx + cos * dy;
  const shortfall = (x1 / rx) ** 2 + (y1 / ry) ** 2;
  const grow = Math.sqrt(Math.max(1, shortfall));
  const a = Math.abs(rx) * grow;
  const b = Math.abs(ry) * grow;
  // (a²b² − a²y₁² − b²x₁²) / (a²y₁² + b²x₁²), which is 1/Λ − 1; never below zero but for rounding.
  const root = Math.sqrt(Math.max(0, 1 / shortfall - 1)) * (large === sweep ? -1 : 1);
  const cx1 = (root * a * y1) / b;
  const cy1 = (-root * b * x1) / a;
  const centre: Point = [
    cos * cx1 - sin * cy1 + (from[0] + to[0]) / 2,
    sin * cx1 + cos * cy1 + (from[1] + to[1]) / 2,
  ];
  const u: Point = [(x1 - cx1) / a, (y1 - cy1) / b];
  const v: Point = [(-x1 - cx1) / a, (-y1 - cy1) / b];
  let turn = angleBetween(u, v);
  if (!sweep && turn > 0) turn -= 2 * Math.PI;
  if (sweep && turn < 0) turn += 2 * Math.PI;
  return { centre, rx: a, ry: b, startAngle: angleBetween([1, 0], u), sweep: turn, shortfall };
}

/** Radii nearer than this to each other (relatively) make a circle: rounding of a written radius. */
const ROUND = 1e-9;

/**
 * An elliptical arc as segments after `from`: arcs of at most 180° where both radii are one, otherwise cubics
 * of at most 45° (out by 4.2e-6 of the larger radius); a line where a radius is zero; nothing where
 * the ends are one point. Throws when a number is not finite.
 */
export function ellipticalArc(
  from: Point,
  rx: number,
  ry: number,
  rotationDeg: number,
  large: boolean,
  sweep: boolean,
  to: Point,
): Segment[] {
  const shape = ellipseShape(from, rx, ry, rotationDeg, large, sweep, to);
  if (!shape) return samePoint(from, to, 0) ? [] : [line(to)];
  const { centre, rx: a, ry: b, startAngle, sweep: turn } = shape;
  const phi = ((rotationDeg % 360) * Math.PI) / 180;
  const [cos, sin] = [Math.cos(phi), Math.sin(phi)];
  const at = (x: number, y: number): Point => [
    centre[0] + cos * a * x - sin * b * y,
    centre[1] + sin * a * x + cos * b * y,
  ];
  const circular = Math.abs(a - b) <= ROUND * a;
  const most = circular ? Math.PI : Math.PI / 4;
  const n = Math.max(1, Math.ceil(Math.abs(turn) / most - 1e-9));
  const step = turn / n;
  const k = (4 / 3) * Math.tan(step / 4);
  const segments: Segment[] = [];
  for (let i = 1; i <= n; i++) {
    const [p, q] = [startAngle + step * (i - 1), startAngle + step * i];
    const end = i === n ? to : at(Math.cos(q), Math.sin(q));
    if (circular) segments.push(arcTo(end, step));
    else {
      segments.push(
        cubic(
          at(Math.cos(p) - k * Math.sin(p), Math.sin(p) + k * Math.cos(p)),
          at(Math.cos(q) + k * Math.sin(q), Math.sin(q) - k * Math.cos(q)),
          end,
        ),
      );
    }
  }
  return segments;
}
