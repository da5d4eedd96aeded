/**
 * Pieces of a treat as solids seen from above and in front: flat facets with their light, farthest
 * piece first. Space has x along the length, y to the back, z up; the picture has y up.
 */
import { convexHull } from '../geom/index.js';
import type { Arrangement, Place, Point, Triple } from '../model.js';
import { ON_PATH_MM } from '../units/tolerances.js';

/** A convex facet on the picture plane. `light` is 0 to 1; `rim` facets end the piece and get a line. */
export interface Facet {
  readonly polygon: readonly Point[];
  readonly light: number;
  readonly rim: boolean;
}
export interface Solid {
  readonly facets: readonly Facet[];
  /** Of a ball in place of facets. */
  readonly ball?: { readonly at: Point; readonly radius: number };
}

/** The eye stands to the left in front, and above: radians. */
const AZIMUTH = (28 * Math.PI) / 180;
const ELEVATION = (36 * Math.PI) / 180;
const [CA, SA] = [Math.cos(AZIMUTH), Math.sin(AZIMUTH)];
const [CE, SE] = [Math.cos(ELEVATION), Math.sin(ELEVATION)];

export const project = ([x, y, z]: Triple): Point => [
  x * CA - y * SA,
  (x * SA + y * CA) * SE + z * CE,
];
/** From a surface to the eye. */
export const EYE: Triple = [-SA * CE, -CA * CE, SE];
const LIGHT: Triple = unit([-0.55, -0.35, 1]);

function unit([x, y, z]: Triple): Triple {
  const l = Math.hypot(x, y, z);
  return [x / l, y / l, z / l];
}
const dot = (a: Triple, b: Triple) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
/** A side away from the light is not black. */
const lightOn = (normal: Triple) => 0.56 + 0.44 * Math.max(0, dot(normal, LIGHT));

/** Rings on a bag. */
const LEVELS = 14;
/** Facets round a quarter of a curved side. */
const QUARTER = 10;

/** Every piece, each painted over those before it. */
export function solidsOf({ treat, places }: Arrangement): Solid[] {
  return paintingOrder(places).map(place => {
    if (treat.shape.kind === 'ball')
      return { facets: [], ball: { at: project(place.at), radius: place.size[0] / 2 } };
    if (place.axis) return { facets: cylinder(place) };
    return { facets: treat.shape.kind === 'pouch' ? cushion(place) : block(place) };
  });
}

const endsOf = ({ at, size }: Place) => ({
  low: at.map((v, k) => v - size[k]! / 2) as unknown as Triple,
  high: at.map((v, k) => v + size[k]! / 2) as unknown as Triple,
});

const AXES: readonly Triple[] = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
];

/** The three sides of an upright block that the eye sees. */
function block(place: Place): Facet[] {
  const { low, high } = endsOf(place);
  return AXES.map((axis, k) => {
    const toward = EYE[k]! > 0 ? 1 : -1;
    const [i, j] = [(k + 1) % 3, (k + 2) % 3];
    const corners = [
      [low[i]!, low[j]!],
      [high[i]!, low[j]!],
      [high[i]!, high[j]!],
      [low[i]!, high[j]!],
    ].map(([a, b]) => {
      const p = [0, 0, 0];
      p[k] = toward > 0 ? high[k]! : low[k]!;
      p[i] = a!;
      p[j] = b!;
      return project(p as unknown as Triple);
    });
    const normal = axis.map(v => v * toward) as unknown as Triple;
    return { polygon: corners, light: lightOn(normal), rim: true };
  });
}

/** A round or a stick: its curved side as narrow facets, then the end that the eye sees. */
function cylinder({ at, size, axis }: Place): Facet[] {
  const k = axis === 'length' ? 0 : axis === 'width' ? 1 : 2;
  const [i, j] = [(k + 1) % 3, (k + 2) % 3];
  const radius = size[i]! / 2;
  const half = size[k]! / 2;
  const point = (turn: number, end: number): Triple => {
    const p = [...at] as [number, number, number];
    p[k] = at[k]! + end * half;
    p[i] = at[i]! + radius * Math.cos(turn);
    p[j] = at[j]! + radius * Math.sin(turn);
    return p;
  };
  const normalAt = (turn: number): Triple => {
    const n = [0, 0, 0];
    n[i] = Math.cos(turn);
    n[j] = Math.sin(turn);
    return n as unknown as Triple;
  };
  const steps = 4 * QUARTER;
  const turns = Array.from({ length: steps }, (_, n) => (2 * Math.PI * n) / steps);
  const width = (2 * Math.PI) / steps;
  const sides = turns.flatMap((turn): Facet[] => {
    const normal = normalAt(turn + width / 2);
    if (dot(normal, EYE) <= 0) return [];
    const polygon = [
      [turn, -1],
      [turn + width, -1],
      [turn + width, 1],
      [turn, 1],
    ].map(([a, end]) => project(point(a!, end!)));
    return [{ polygon, light: lightOn(normal), rim: false }];
  });
  const near = EYE[k]! > 0 ? 1 : -1;
  const outline: Facet = {
    polygon: convexHull(turns.flatMap(turn => [-1, 1].map(end => project(point(turn, end))))),
    light: 0.6,
    rim: true,
  };
  const cap = turns.map(turn => project(point(turn, near)));
  const normal = AXES[k]!.map(v => v * near) as unknown as Triple;
  return [outline, ...sides, { polygon: cap, light: lightOn(normal), rim: true }];
}

/** A soft bag: rings from its seam, half way up, to the top; the seam shows all round. */
function cushion({ at, size }: Place): Facet[] {
  const thin = size.indexOf(Math.min(...size));
  const [i, j] = [(thin + 1) % 3, (thin + 2) % 3];
  const near = EYE[thin]! > 0 ? 1 : -1;
  const steps = 4 * QUARTER;
  const ring = (level: number): Triple[] => {
    // Level 0 is the seam, a rounded rectangle; 1 the middle of the side that is seen.
    const share = Math.cos((level * Math.PI) / 2) ** 0.6;
    const lift = Math.sin((level * Math.PI) / 2);
    return Array.from({ length: steps }, (_, n) => {
      const turn = (2 * Math.PI * (n + 0.5)) / steps;
      const [c, s] = [Math.cos(turn), Math.sin(turn)];
      const p: number[] = [...at];
      p[i] = at[i]! + share * (size[i]! / 2) * Math.sign(c) * Math.abs(c) ** 0.35;
      p[j] = at[j]! + share * (size[j]! / 2) * Math.sign(s) * Math.abs(s) ** 0.35;
      p[thin] = at[thin]! + near * lift * (size[thin]! / 2);
      return p as unknown as Triple;
    });
  };
  const seam = ring(0).map(project);
  const levels = Array.from({ length: LEVELS }, (_, n) => (n + 0.6) / LEVELS);
  const seen = AXES[thin]!.map(v => v * near) as unknown as Triple;
  const base = lightOn(seen);
  const back: Facet = { polygon: seam, light: 0.55 * base, rim: true };
  return [
    back,
    ...levels.map(
      (level, n): Facet => ({
        polygon: ring(level).map(project),
        light: base * (0.72 + (0.28 * (n + 1)) / levels.length),
        rim: false,
      }),
    ),
  ];
}

/** Farthest first. What lies wholly behind or below another piece is painted before it; of pieces in
 *  each other's grooves the farther middle. */
export function paintingOrder(places: readonly Place[]): Place[] {
  const far = places.map(p => -dot(p.at, EYE));
  const start = places.map((_, i) => i).sort((a, b) => far[b]! - far[a]!);
  const screens = places.map(screenOf);
  const done = new Set<number>();
  const open = new Set<number>();
  const order: Place[] = [];
  const visit = (i: number): void => {
    if (done.has(i) || open.has(i)) return;
    open.add(i);
    for (const j of start) {
      if (j === i || done.has(j) || !overlap(screens[i]!, screens[j]!)) continue;
      const [behind, before] = [beyond(places[j]!, places[i]!), beyond(places[i]!, places[j]!)];
      if (behind === before ? !behind && far[j]! > far[i]! : behind) visit(j);
    }
    open.delete(i);
    done.add(i);
    order.push(places[i]!);
  };
  for (const i of start) visit(i);
  return order;
}

/** Whether a plane square to an axis has `a` on its far side and `b` on the eye's. */
function beyond(a: Place, b: Place): boolean {
  return [0, 1, 2].some(k => {
    const gap = (b.at[k]! - a.at[k]!) * Math.sign(EYE[k]!);
    return gap >= (a.size[k]! + b.size[k]!) / 2 - ON_PATH_MM;
  });
}

type Screen = readonly [left: number, right: number, low: number, high: number];

function screenOf({ at, size }: Place): Screen {
  const [u, v] = project(at);
  const [w, d, h] = size;
  const [across, up] = [w * CA + d * SA, (w * SA + d * CA) * SE + h * CE];
  return [u - across / 2, u + across / 2, v - up / 2, v + up / 2];
}
const overlap = (a: Screen, b: Screen) => a[0] < b[1] && b[0] < a[1] && a[2] < b[3] && b[2] < a[3];
