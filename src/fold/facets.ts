/** Panels in space as flat facets: one for a flat panel, strips along the rulings for a curled one. */
import { add, arcPieces, dot, lerp, perp, scale, sub } from '../geom/index.js';
import type { Point } from '../model.js';
import { FOLD_FACET_MM, SAME_POINT_MM } from '../units/tolerances.js';
import { type Face, toRim } from './face.js';
import { type PanelPose, place, reachOf } from './pose.js';
import {
  add3,
  cross3,
  dot3,
  extent,
  length3,
  movedBack,
  type Point3,
  scale3,
  sub3,
} from './space.js';

export interface Facet {
  readonly face: Face;
  readonly posed: PanelPose;
  /** Curvature, 1/mm. */
  readonly curvature: number;
  readonly loops: readonly (readonly Point3[])[];
  /** Unit normal toward the inside, and the plane's distance from the origin along it. */
  readonly normal: Point3;
  readonly offset: number;
  readonly low: Point3;
  readonly high: Point3;
  /** The point of the net that lies at a point of the facet, and the other way round. */
  flat(p: Point3): Point;
  solid(p: Point): Point3;
}

function facet(
  face: Face,
  posed: PanelPose,
  curvature: number,
  normal: Point3,
  flat: (p: Point3) => Point,
  solid: (p: Point) => Point3,
): Facet {
  const loops = face.loops.map(l => l.map(solid));
  const offset = dot3(normal, loops[0]![0]!);
  const [low, high] = extent(loops.flat(), p => p);
  return { face, posed, curvature, loops, normal, offset, low, high, flat, solid };
}

/** On its way a panel stands in the same strips again and again: as many as its curl asks for. */
const stripsOf = new WeakMap<Face, Map<string, Face>>();

/** Facets of a curled panel touch its surface at their joints and are within `tolerance` mm of it. */
export function facetsOf(face: Face, posed: PanelPose, tolerance: number = FOLD_FACET_MM): Facet[] {
  const { curl, frame } = posed;
  if (!curl) {
    const flat = (p: Point3): Point => {
      const [x, y] = movedBack(frame, p);
      return [x, y];
    };
    return [facet(face, posed, 0, frame.z, flat, p => place(posed, p))];
  }
  const { from, across } = curl.bend;
  const ruling = perp(across);
  const [begin, end] = reachOf(curl, face.panel.outline);
  const marks = [begin];
  const strips = stripsOf.get(face) ?? new Map<string, Face>();
  stripsOf.set(face, strips);
  // No strip so narrow that it has no direction.
  const inner = (s: number) => s > begin + SAME_POINT_MM && s < end - SAME_POINT_MM;
  const stops = [...curl.breaks.filter(inner), end];
  for (const stop of stops) {
    const start = marks.at(-1)!;
    const k = Math.abs(curl.curvature((start + stop) / 2));
    const n = k > 0 ? arcPieces(1 / k, k * (stop - start), tolerance) : 1;
    for (let i = 1; i <= n; i++) marks.push(start + ((stop - start) * i) / n);
  }
  const out: Facet[] = [];
  for (let i = 0; i + 1 < marks.length; i++) {
    const [s0, s1] = [marks[i]!, marks[i + 1]!];
    const at = (s: number) => place(posed, add(from, scale(across, s)));
    const foot = at(s0);
    const chord = scale3(sub3(at(s1), foot), 1 / (s1 - s0));
    const r = sub3(place(posed, add(add(from, scale(across, s0)), ruling)), foot);
    const part = strip(s0, s1);
    if (part.loops.length === 0) continue;
    const n = cross3(chord, r);
    const stretch = dot3(chord, chord);
    const flat = (p: Point3): Point => {
      const d = sub3(p, foot);
      return net([s0 + dot3(d, chord) / stretch, dot3(d, r)]);
    };
    const solid = (p: Point): Point3 => {
      const [s, v] = own(p);
      return add3(foot, add3(scale3(chord, s - s0), scale3(r, v)));
    };
    const k = curl.curvature((s0 + s1) / 2);
    out.push(facet(part, posed, k, scale3(n, 1 / length3(n)), flat, solid));
  }
  return out;

  function strip(s0: number, s1: number): Face {
    const key = `${s0} ${s1}`;
    const known = strips.get(key);
    if (known) return known;
    const loops = face.loops
      .map(l => clip(clip(l.map(own), s0, 1), s1, -1).map(net))
      .filter(l => l.length > 2);
    const part = { ...face, loops };
    strips.set(key, part);
    return part;
  }
  /** Along the curl and along the rulings, and back. */
  function own(p: Point): Point {
    const d = sub(p, from);
    return [dot(d, across), dot(d, ruling)];
  }
  function net([s, v]: Point): Point {
    return add(from, add(scale(across, s), scale(ruling, v)));
  }
}

/** Whether a side of a facet only parts it from the next facet of its panel. */
export function isSeam({ face }: Facet, loop: number, side: number): boolean {
  const points = face.loops[loop]!;
  const [a, b] = [points[side]!, points[(side + 1) % points.length]!];
  return toRim(face, lerp(a, b, 0.5)) > SAME_POINT_MM;
}

/** The part of a loop on one side of s = at (Sutherland & Hodgman, CACM 17, 1974). */
function clip(loop: readonly Point[], at: number, sign: 1 | -1): Point[] {
  const out: Point[] = [];
  loop.forEach((p, i) => {
    const q = loop[(i + 1) % loop.length]!;
    const [hp, hq] = [(p[0] - at) * sign, (q[0] - at) * sign];
    if (hp >= 0) out.push(p);
    if (hp >= 0 !== hq >= 0) {
      const k = hp / (hp - hq);
      out.push([at, p[1] + k * (q[1] - p[1])]);
    }
  });
  return out;
}
