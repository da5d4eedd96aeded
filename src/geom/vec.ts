import { SAME_POINT_MM } from '../units/tolerances.js';
import type { Affine, Point } from './types.js';

export const pt = (x: number, y: number): Point => [x, y];
export const add = (a: Point, b: Point): Point => [a[0] + b[0], a[1] + b[1]];
export const sub = (a: Point, b: Point): Point => [a[0] - b[0], a[1] - b[1]];
export const scale = (a: Point, k: number): Point => [a[0] * k, a[1] * k];
export const dot = (a: Point, b: Point): number => a[0] * b[0] + a[1] * b[1];
/** z of the cross product: positive when b lies counter-clockwise of a. */
export const cross = (a: Point, b: Point): number => a[0] * b[1] - a[1] * b[0];
/** `Math.hypot` guards against overflow, which no sheet can bring, at ten times the price. */
export const length = (a: Point): number => Math.sqrt(a[0] * a[0] + a[1] * a[1]);
export function distance(a: Point, b: Point): number {
  const x = a[0] - b[0];
  const y = a[1] - b[1];
  return Math.sqrt(x * x + y * y);
}
export const lerp = (a: Point, b: Point, t: number): Point => [
  a[0] + (b[0] - a[0]) * t,
  a[1] + (b[1] - a[1]) * t,
];
/** A quarter turn counter-clockwise. */
export const perp = (a: Point): Point => [-a[1], a[0]];
export const polar = (radius: number, angle: number, centre: Point = [0, 0]): Point => [
  centre[0] + radius * Math.cos(angle),
  centre[1] + radius * Math.sin(angle),
];
export const angleOf = (a: Point): number => Math.atan2(a[1], a[0]);

/** The direction of `a` with length 1. Throws on a zero or non-finite vector. */
export function unit(a: Point): Point {
  const l = length(a);
  if (!(l > 0 && l < Number.POSITIVE_INFINITY)) throw new RangeError(`no direction: (${a})`);
  return [a[0] / l, a[1] / l];
}

/** Same point within `tolerance`; NaN is never the same as anything. */
export const samePoint = (a: Point, b: Point, tolerance = SAME_POINT_MM): boolean =>
  distance(a, b) <= tolerance;

/** The angle brought into (−π, π]. */
export function wrapAngle(angle: number): number {
  const turn = 2 * Math.PI;
  const a = angle - turn * Math.floor((angle + Math.PI) / turn);
  return a <= -Math.PI ? a + turn : a;
}

export const IDENTITY: Affine = [1, 0, 0, 1, 0, 0];
export const translation = (x: number, y: number): Affine => [1, 0, 0, 1, x, y];
export function rotation(angle: number, about: Point = [0, 0]): Affine {
  const c = Math.cos(angle);
  const s = Math.sin(angle);
  const [x, y] = about;
  return [c, s, -s, c, x - c * x + s * y, y - s * x - c * y];
}
export const scaling = (kx: number, ky = kx): Affine => [kx, 0, 0, ky, 0, 0];

/** First `inner`, then `outer`. */
export function compose(outer: Affine, inner: Affine): Affine {
  const [a, b, c, d, e, f] = outer;
  const [A, B, C, D, E, F] = inner;
  return [
    a * A + c * B,
    b * A + d * B,
    a * C + c * D,
    b * C + d * D,
    a * E + c * F + e,
    b * E + d * F + f,
  ];
}

export const apply = (m: Affine, p: Point): Point => [
  m[0] * p[0] + m[2] * p[1] + m[4],
  m[1] * p[0] + m[3] * p[1] + m[5],
];

/** The map that undoes `m`. Throws when `m` flattens the plane. */
export function invert(m: Affine): Affine {
  const [a, b, c, d, e, f] = m;
  const det = a * d - b * c;
  if (!(Math.abs(det) > 0)) throw new RangeError(`no inverse: matrix(${m.join(' ')})`);
  return [d / det, -b / det, -c / det, a / det, (c * f - d * e) / det, (b * e - a * f) / det];
}
