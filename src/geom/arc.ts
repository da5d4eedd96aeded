import type { Arc, Point } from './types.js';
import { add, angleOf, distance, lerp, perp, scale, sub } from './vec.js';

/** A bulge arc in centre form. `sweep` is signed: positive counter-clockwise. Angles in radians. */
export interface ArcShape {
  readonly centre: Point;
  readonly radius: number;
  readonly startAngle: number;
  readonly sweep: number;
}

/**
 * Centre form of an arc. With chord c and bulge b: R = c (1 + b²) / (4 |b|), and the centre lies at
 * the signed distance c (1 − b²) / (4 b) to the left of the chord's middle (ezdxf, math/bulge.py).
 * Throws when the chord or the bulge is zero.
 */
export function arcShape(start: Point, arc: Arc): ArcShape {
  const { to, bulge: b } = arc;
  const c = distance(start, to);
  if (!(c > 0 && Math.abs(b) > 0)) {
    throw new RangeError(`not an arc: chord ${c} mm, bulge ${b}`);
  }
  const radius = (c * (1 + b * b)) / (4 * Math.abs(b));
  const h = (c * (1 - b * b)) / (4 * b);
  const left = scale(perp(sub(to, start)), 1 / c);
  const centre = add(lerp(start, to, 0.5), scale(left, h));
  return { centre, radius, startAngle: angleOf(sub(start, centre)), sweep: 4 * Math.atan(b) };
}

/** The arc that ends at `to` after turning by `sweep` (radians, |sweep| < 2π). */
export const arcTo = (to: Point, sweep: number): Arc => ({
  kind: 'arc',
  to,
  bulge: Math.tan(sweep / 4),
});

/** The arc from `start` through `via` to `to`; `undefined` when the three are in line. */
export function arcThrough(start: Point, via: Point, to: Point): Arc | undefined {
  const u = sub(start, via);
  const v = sub(to, via);
  const crossUV = u[0] * v[1] - u[1] * v[0];
  const dotUV = u[0] * v[0] + u[1] * v[1];
  // The inscribed angle at `via` is half of what the arc leaves of the full circle.
  const sweep = 2 * Math.atan2(crossUV, -dotUV);
  if (!(Math.abs(sweep) > 1e-9)) return undefined;
  return arcTo(to, -sweep);
}

/** The point at fraction `t` of an arc's sweep. */
export function arcPoint(shape: ArcShape, t: number): Point {
  const a = shape.startAngle + shape.sweep * t;
  return [
    shape.centre[0] + shape.radius * Math.cos(a),
    shape.centre[1] + shape.radius * Math.sin(a),
  ];
}
