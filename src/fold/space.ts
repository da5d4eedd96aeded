/** Points and rigid moves in space. Right-handed; z is toward the viewer of the flat net. */
import type { Point } from '../model.js';

export type Point3 = readonly [x: number, y: number, z: number];

export const add3 = (a: Point3, b: Point3): Point3 => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
export const sub3 = (a: Point3, b: Point3): Point3 => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
export const scale3 = (a: Point3, k: number): Point3 => [a[0] * k, a[1] * k, a[2] * k];
export const dot3 = (a: Point3, b: Point3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
export const cross3 = (a: Point3, b: Point3): Point3 => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
export const length3 = (a: Point3): number => Math.sqrt(dot3(a, a));
/** The least and greatest of each coordinate over things, each given by its own extent's corners. */
export function extent<T>(
  things: readonly T[],
  lowOf: (thing: T) => Point3,
  highOf: (thing: T) => Point3 = lowOf,
): readonly [low: Point3, high: Point3] {
  const low: [number, number, number] = [...FAR];
  const high: [number, number, number] = [-FAR[0], -FAR[1], -FAR[2]];
  for (const thing of things) {
    const [l, h] = [lowOf(thing), highOf(thing)];
    for (const i of [0, 1, 2] as const) {
      // Written so that NaN goes through, as Math.min would have it.
      if (!(l[i] >= low[i])) low[i] = l[i];
      if (!(h[i] <= high[i])) high[i] = h[i];
    }
  }
  return [low, high];
}
const FAR: Point3 = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];

export const distance3 = (a: Point3, b: Point3): number => length3(sub3(a, b));

/**
 * A turn and a shift, by where they send the axes and the origin: p ↦ x·p₀ + y·p₁ + z·p₂ + at.
 * `x`, `y`, `z` are unit vectors square to each other.
 */
export interface Rigid {
  readonly x: Point3;
  readonly y: Point3;
  readonly z: Point3;
  readonly at: Point3;
}

export const STILL: Rigid = { x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1], at: [0, 0, 0] };

/** Turns a direction without shifting it. */
export const turned = (m: Rigid, d: Point3): Point3 => [
  m.x[0] * d[0] + m.y[0] * d[1] + m.z[0] * d[2],
  m.x[1] * d[0] + m.y[1] * d[1] + m.z[1] * d[2],
  m.x[2] * d[0] + m.y[2] * d[1] + m.z[2] * d[2],
];
export const moved = (m: Rigid, p: Point3): Point3 => add3(turned(m, p), m.at);

/** First `inner`, then `outer`. */
export const after = (outer: Rigid, inner: Rigid): Rigid => ({
  x: turned(outer, inner.x),
  y: turned(outer, inner.y),
  z: turned(outer, inner.z),
  at: moved(outer, inner.at),
});

/** The move that undoes `m`, applied to a point. */
export function movedBack(m: Rigid, p: Point3): Point3 {
  const d = sub3(p, m.at);
  return [dot3(m.x, d), dot3(m.y, d), dot3(m.z, d)];
}
export function undone(m: Rigid): Rigid {
  const row = (i: 0 | 1 | 2): Point3 => [m.x[i], m.y[i], m.z[i]];
  return { x: row(0), y: row(1), z: row(2), at: movedBack(m, [0, 0, 0]) };
}

/** A turn about the line through `through` (in the plane z = 0) along the unit vector `axis`. */
export function turnAbout(through: Point, axis: Point, angle: number): Rigid {
  const [u, v] = axis;
  const c = Math.cos(angle);
  const s = Math.sin(angle);
  const k = 1 - c;
  const turn: Rigid = {
    x: [c + k * u * u, k * u * v, -s * v],
    y: [k * u * v, c + k * v * v, s * u],
    z: [s * v, -s * u, c],
    at: [0, 0, 0],
  };
  const here: Point3 = [through[0], through[1], 0];
  return { ...turn, at: sub3(here, turned(turn, here)) };
}
