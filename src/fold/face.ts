/** A panel's face as loops of points in the net's frame: inside or outside, and how deep. */
import { convexHull, flatten } from '../geom/index.js';
import type { Panel, Path, Point } from '../model.js';
import { FOLD_FACET_MM } from '../units/tolerances.js';

export interface Side2 {
  readonly a: Point;
  readonly b: Point;
}

export interface Face {
  readonly panel: Panel;
  /** Outline and holes, or the part of them on one facet; even-odd is the paper. */
  readonly loops: readonly (readonly Point[])[];
  /** Every line at which the panel's paper ends: outline, holes and cuts inside. */
  readonly rim: readonly Side2[];
}

const sidesOf = (loop: readonly Point[], closed: boolean): Side2[] =>
  (closed ? loop : loop.slice(0, -1)).map((a, i) => ({ a, b: loop[(i + 1) % loop.length]! }));

/** As fine as the fold check needs it. */
export function faceOf(panel: Panel): Face {
  const known = faces.get(panel) ?? faceWithin(panel, FOLD_FACET_MM);
  faces.set(panel, known);
  return known;
}

/** A panel is asked for at every moment of folding, and stays as it is. */
const faces = new WeakMap<Panel, Face>();

/** Curves stand as chords within `tolerance` mm of them. */
export function faceWithin(panel: Panel, tolerance: number): Face {
  const flat = (p: Path) => flatten(p, tolerance);
  const loops = [panel.outline, ...panel.holes].map(flat);
  const cuts = panel.strokes.filter(s => s.operation === 'cut').map(s => s.path);
  return {
    panel,
    loops,
    rim: [
      ...loops.flatMap(l => sidesOf(l, true)),
      ...cuts.flatMap(c => sidesOf(flat(c), c.closed)),
    ],
  };
}

/** Distance of a point to where the paper ends. */
export function toRim({ rim }: Face, p: Point): number {
  let least = Number.POSITIVE_INFINITY;
  for (const { a, b } of rim) {
    const vx = b[0] - a[0];
    const vy = b[1] - a[1];
    const square = vx * vx + vy * vy;
    const t = square > 0 ? ((p[0] - a[0]) * vx + (p[1] - a[1]) * vy) / square : 0;
    const k = Math.min(1, Math.max(0, t));
    const dx = p[0] - a[0] - k * vx;
    const dy = p[1] - a[1] - k * vy;
    const d = dx * dx + dy * dy;
    if (d < least) least = d;
  }
  return Math.sqrt(least);
}

/** Even-odd; a point on the rim may fall either way: ask `depthIn` where that matters. */
export function isOn({ loops }: Face, p: Point): boolean {
  let inside = false;
  for (const loop of loops) {
    for (let i = 0, j = loop.length - 1; i < loop.length; j = i++) {
      const a = loop[i]!;
      const b = loop[j]!;
      if (a[1] > p[1] === b[1] > p[1]) continue;
      if (p[0] < ((b[0] - a[0]) * (p[1] - a[1])) / (b[1] - a[1]) + a[0]) inside = !inside;
    }
  }
  return inside;
}

/** How deep in the paper a point lies, mm; negative off it. */
export const depthIn = (face: Face, p: Point): number => (isOn(face, p) ? 1 : -1) * toRim(face, p);

/** The stretches of the line a + s·d, s from 0 to 1, that are on the paper. */
export function stretchesOn({ loops }: Face, a: Point, b: Point): [number, number][] {
  const d: Point = [b[0] - a[0], b[1] - a[1]];
  const whole = Math.hypot(d[0], d[1]);
  if (!(whole > 0)) return [];
  const marks: number[] = [];
  for (const loop of loops) {
    for (let i = 0, j = loop.length - 1; i < loop.length; j = i++) {
      const [p, q] = [loop[j]!, loop[i]!];
      const hp = d[0] * (p[1] - a[1]) - d[1] * (p[0] - a[0]);
      const hq = d[0] * (q[1] - a[1]) - d[1] * (q[0] - a[0]);
      if (hp >= 0 === hq >= 0) continue;
      const k = hp / (hp - hq);
      const x = p[0] + k * (q[0] - p[0]) - a[0];
      const y = p[1] + k * (q[1] - p[1]) - a[1];
      marks.push((x * d[0] + y * d[1]) / (whole * whole));
    }
  }
  marks.sort((x, y) => x - y);
  const out: [number, number][] = [];
  for (let i = 0; i + 1 < marks.length; i += 2) {
    const from = Math.max(0, marks[i]!);
    const to = Math.min(1, marks[i + 1]!);
    if (to > from) out.push([from, to]);
  }
  return out;
}

/** Points well inside the paper, on a few lines across it. */
export function innerPoints(face: Face): Point[] {
  const all = face.loops[0]!;
  const xs = all.map(p => p[0]);
  const ys = all.map(p => p[1]);
  const [x0, x1] = [Math.min(...xs), Math.max(...xs)];
  const [y0, y1] = [Math.min(...ys), Math.max(...ys)];
  const out: Point[] = [];
  for (const k of [0.17, 0.5, 0.83]) {
    const y = y0 + (y1 - y0) * k;
    for (const [s, e] of stretchesOn(face, [x0, y], [x1, y])) {
      out.push([x0 + ((s + e) / 2) * (x1 - x0), y]);
    }
  }
  return out;
}

/**
 * How deep two faces lie over each other in one plane, mm: 0 when they only touch. Each face's edge
 * is followed where it is on the other, and points inside each are tried (one may cover the other).
 * `toB` takes a's points to b's frame.
 */
export function overlapDepth(
  a: Face,
  b: Face,
  toB: (p: Point) => Point = p => p,
  toA: (p: Point) => Point = p => p,
): { readonly depth: number; readonly at: Point } {
  let depth = 0;
  let at: Point = [0, 0];
  const see = (d: number, p: Point) => {
    if (d > depth) {
      depth = d;
      at = p;
    }
  };
  for (const [mine, theirs, over, back] of [
    [a, b, toB, (p: Point) => p],
    [b, a, toA, toA],
  ] as const) {
    for (const side of mine.loops.flatMap(l => sidesOf(l, true))) {
      const [p, q] = [over(side.a), over(side.b)];
      for (const [s, e] of stretchesOn(theirs, p, q)) {
        for (const k of [0, 0.25, 0.5, 0.75, 1]) {
          const t = s + (e - s) * k;
          const there: Point = [p[0] + (q[0] - p[0]) * t, p[1] + (q[1] - p[1]) * t];
          const own: Point = [
            side.a[0] + (side.b[0] - side.a[0]) * t,
            side.a[1] + (side.b[1] - side.a[1]) * t,
          ];
          see(toRim(theirs, there), back(own));
        }
      }
    }
    for (const p of innerPoints(mine)) {
      const there = over(p);
      if (isOn(theirs, there)) see(Math.min(toRim(theirs, there), toRim(mine, p)), back(p));
    }
  }
  return { depth, at };
}

/** The face with its notches and holes filled: its convex hull. */
export function hullOf(face: Face): Face {
  const hull = convexHull(face.loops[0]!);
  return { panel: face.panel, loops: [hull], rim: sidesOf(hull, true) };
}
