/** What falls from paper on paper and on the table, as loops on the picture plane, y up. */
import type { Point } from '../model.js';
import { VIEW_PLANE_MM } from '../units/tolerances.js';
import type { Facet } from './facets.js';
import { dot3, type Point3, scale3, sub3 } from './space.js';
import { project, type ViewPoint } from './view.js';

/** Loops that turn one way, holes the other: dark is where they wind about a point. One list for each point
 *  of a broad lamp; each takes an equal share of the light. */
export type Shadows = readonly (readonly (readonly Point[])[])[];

/** The lamp, above the eye's left shoulder: a disc. */
const MIDDLE: Point3 = [-0.28, -0.38, 0.88];
const RADIUS = 0.14;
/** Turned so far from one to the next, points cover a disc evenly (Vogel, Mathematical Biosciences 44,
 *  1979). */
const GOLDEN = Math.PI * (3 - Math.sqrt(5));
const lampOf = (points: number): Point3[] =>
  Array.from({ length: points }, (_, i): Point3 => {
    const r = RADIUS * Math.sqrt((i + 0.5) / points);
    return [MIDDLE[0] + r * Math.cos(i * GOLDEN), MIDDLE[1] + r * Math.sin(i * GOLDEN), MIDDLE[2]];
  });
/** From how many points of the lamp shadows are cast: those on the table are long. */
export interface LampPoints {
  readonly table: number;
  readonly face: number;
  /** Curls that cast them are strips and chords this near to them, mm: the shadow's rim is soft. */
  readonly strips: number;
  /** Faces smaller than this take none, mm². */
  readonly least: number;
}
export const FINE_LAMP: LampPoints = { table: 16, face: 10, strips: 0.25, least: 0 };

/** What falls on the table, z = 0. */
export function tableShadows(facets: readonly Facet[], view: ViewPoint, points: number): Shadows {
  return lampOf(points).map(lamp => {
    const fall = (p: Point3): Point3 => sub3(p, scale3(lamp, p[2] / lamp[2]));
    return facets.flatMap(f => loopsOf(f.loops, p => project(fall(p), view)));
  });
}

/**
 * What falls on the seen side of a facet from the other panels; nothing where that side is turned from the
 * light. Paper nearer to its plane than `near` mm is taken to lie in it. On curled paper the light changes
 * more than a shadow does, and its strips would show.
 */
export function faceShadows(
  on: Facet,
  side: 'front' | 'back',
  all: readonly Facet[],
  view: ViewPoint,
  near: number,
  { face: points, least }: LampPoints,
): Shadows {
  if (on.posed.curl) return [];
  const seen = on.loops[0]!.map(p => project(p, view));
  if (Math.abs(area(seen)) / 2 < least) return [];
  const sign = side === 'front' ? 1 : -1;
  const normal = scale3(on.normal, sign);
  const offset = on.offset * sign;
  const over = all.filter(
    f => f.posed.panel !== on.posed.panel && reaches(f, normal, offset + near),
  );
  const box = boxOf(seen);
  const shadows = lampOf(points).map(lamp => {
    const steep = dot3(normal, lamp);
    if (!(steep > VIEW_PLANE_MM)) return [];
    const fall = (p: Point3): Point3 => sub3(p, scale3(lamp, (dot3(normal, p) - offset) / steep));
    return over.flatMap(f => {
      const loops = f.loops.map(l => above(l, normal, offset + near)).filter(l => l.length > 2);
      const fallen = loopsOf(loops, p => project(fall(p), view));
      return fallen[0] && meets(boxOf(fallen[0]), box) ? fallen : [];
    });
  });
  return shadows.some(s => s.length > 0) ? shadows : [];
}

/** Outlines counter-clockwise, holes clockwise, however they are seen. */
function loopsOf(loops: readonly (readonly Point3[])[], see: (p: Point3) => Point): Point[][] {
  return loops.map((loop, i) => {
    const seen = loop.map(see);
    return area(seen) > 0 === (i === 0) ? seen : seen.reverse();
  });
}

const area = (points: readonly Point[]): number =>
  points.reduce((s, [x, y], i) => {
    const [u, v] = points[(i + 1) % points.length]!;
    return s + x * v - u * y;
  }, 0);

const reaches = (f: Facet, normal: Point3, offset: number): boolean =>
  f.loops[0]!.some(p => dot3(normal, p) > offset);

/** The part of a loop on the far side of a plane (Sutherland & Hodgman, CACM 17, 1974). */
function above(loop: readonly Point3[], normal: Point3, offset: number): Point3[] {
  const out: Point3[] = [];
  loop.forEach((p, i) => {
    const q = loop[(i + 1) % loop.length]!;
    const [hp, hq] = [dot3(normal, p) - offset, dot3(normal, q) - offset];
    if (hp >= 0) out.push(p);
    if (hp >= 0 !== hq >= 0) {
      const k = hp / (hp - hq);
      out.push([p[0] + k * (q[0] - p[0]), p[1] + k * (q[1] - p[1]), p[2] + k * (q[2] - p[2])]);
    }
  });
  return out;
}

type Box = readonly [minX: number, minY: number, maxX: number, maxY: number];
function boxOf(points: readonly Point[]): Box {
  let [x0, y0, x1, y1] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const [x, y] of points) {
    if (x < x0) x0 = x;
    if (x > x1) x1 = x;
    if (y < y0) y0 = y;
    if (y > y1) y1 = y;
  }
  return [x0, y0, x1, y1];
}
const meets = (a: Box, b: Box): boolean => a[0] < b[2] && b[0] < a[2] && a[1] < b[3] && b[1] < a[3];
