/** Maps from one plane to another, as a camera makes them. */
import { solve } from '../geom/index.js';
import type { Point } from '../model.js';

/** p ↦ ((m0 x + m1 y + m2) / w, (m3 x + m4 y + m5) / w) with w = m6 x + m7 y + 1. */
export type Plane = readonly [number, number, number, number, number, number, number, number];

export const onto = (m: Plane, [x, y]: Point): Point => {
  const w = m[6] * x + m[7] * y + 1;
  return [(m[0] * x + m[1] * y + m[2]) / w, (m[3] * x + m[4] * y + m[5]) / w];
};

/** What small steps at a point become: [a, b, c, d] with dx' = a dx + b dy, dy' = c dx + d dy. */
export type Slopes = readonly [a: number, b: number, c: number, d: number];
export function slopesAt(m: Plane, p: Point): Slopes {
  const w = m[6] * p[0] + m[7] * p[1] + 1;
  const [u, v] = onto(m, p);
  return [
    (m[0] - m[6] * u) / w,
    (m[1] - m[7] * u) / w,
    (m[3] - m[6] * v) / w,
    (m[4] - m[7] * v) / w,
  ];
}

export interface Pair {
  readonly from: Point;
  readonly to: Point;
}

/** Two numbers (turn and size), four (affine) or six for what is not linear in them. */
export type PlaneKind = 'similarity' | 'affine' | 'projective';

const spreadOf = (points: readonly Point[]) => {
  const n = points.length;
  const x = points.reduce((s, p) => s + p[0], 0) / n;
  const y = points.reduce((s, p) => s + p[1], 0) / n;
  const size = Math.sqrt(points.reduce((s, p) => s + (p[0] - x) ** 2 + (p[1] - y) ** 2, 0) / n);
  return { x, y, size: size || 1 };
};

/**
 * Least squares (projective: of w-weighted distances, about the points' middle and in units of their
 * spread, after R. Hartley, "In defense of the eight-point algorithm", IEEE PAMI 19 (1997) 580–593).
 * `undefined` where the points do not determine it.
 */
export function fitPlane(kind: PlaneKind, pairs: readonly Pair[]): Plane | undefined {
  const a = spreadOf(pairs.map(p => p.from));
  const b = spreadOf(pairs.map(p => p.to));
  const unknowns = { similarity: 4, affine: 6, projective: 8 }[kind];
  if (2 * pairs.length < unknowns) return undefined;
  const normal = Array.from({ length: unknowns }, () => new Array<number>(unknowns).fill(0));
  const right = new Array<number>(unknowns).fill(0);
  const put = (row: readonly number[], value: number) => {
    for (let i = 0; i < unknowns; i++) {
      right[i]! += row[i]! * value;
      for (let j = 0; j < unknowns; j++) normal[i]![j]! += row[i]! * row[j]!;
    }
  };
  for (const { from, to } of pairs) {
    const [x, y] = [(from[0] - a.x) / a.size, (from[1] - a.y) / a.size];
    const [u, v] = [(to[0] - b.x) / b.size, (to[1] - b.y) / b.size];
    if (kind === 'similarity') {
      // Sheets have y up and pictures y down: the map turns one over.
      put([x, y, 1, 0], u);
      put([-y, x, 0, 1], v);
    } else {
      put([x, y, 1, 0, 0, 0, -x * u, -y * u], u);
      put([0, 0, 0, x, y, 1, -x * v, -y * v], v);
    }
  }
  const found = solve(normal, right);
  if (!found) return undefined;
  const m =
    kind === 'similarity'
      ? [found[0]!, found[1]!, found[2]!, found[1]!, -found[0]!, found[3]!, 0, 0]
      : [...found, ...(kind === 'affine' ? [0, 0] : [])];
  return unscaled(m as unknown as Plane, a, b);
}

type Spread = ReturnType<typeof spreadOf>;

/** From a map between scaled points to one between the points themselves. */
function unscaled(m: Plane, a: Spread, b: Spread): Plane | undefined {
  const [g, h] = [m[6] / a.size, m[7] / a.size];
  const w = 1 - g * a.x - h * a.y;
  if (!(Math.abs(w) > 1e-9)) return undefined;
  const row = (p: number, q: number, r: number, middle: number): [number, number, number] => {
    const [x, y] = [(p * b.size) / a.size + middle * g, (q * b.size) / a.size + middle * h];
    return [x / w, y / w, (r * b.size + middle - x * a.x - y * a.y) / w];
  };
  return [...row(m[0], m[1], m[2], b.x), ...row(m[3], m[4], m[5], b.y), g / w, h / w];
}

/** The way back. Throws for a map that has none. */
export function inverse(m: Plane): Plane {
  const [a, b, c, d, e, f, g, h] = m;
  const adjugate = [
    e - f * h,
    c * h - b,
    b * f - c * e,
    f * g - d,
    a - c * g,
    c * d - a * f,
    d * h - e * g,
    b * g - a * h,
  ];
  const w = a * e - b * d;
  if (!(Math.abs(w) > 0)) throw new RangeError('a plane seen edge-on');
  return adjugate.map(n => n / w) as unknown as Plane;
}

/** First `inner`, then `outer`. */
export function chained(outer: Plane, inner: Plane): Plane {
  const p = [...outer, 1];
  const q = [...inner, 1];
  const cell = (i: number, j: number) =>
    p[3 * i]! * q[j]! + p[3 * i + 1]! * q[3 + j]! + p[3 * i + 2]! * q[6 + j]!;
  const w = cell(2, 2);
  return [0, 1, 2, 3, 4, 5, 6, 7].map(k => cell(Math.floor(k / 3), k % 3) / w) as unknown as Plane;
}

/** Three marks of four are in a line if a triangle of theirs is smaller than this share of the largest. */
const IN_LINE = 0.02;

/**
 * The plane that so many marks determine: projective from five, or from four of which no three are in a
 * line; affine from fewer. `undefined` for fewer than three, and for three in a line.
 */
export function fitLayout(pairs: readonly Pair[]): Plane | undefined {
  if (pairs.length < 3) return undefined;
  const points = pairs.map(p => p.from);
  const areas = points.flatMap((a, i) =>
    points.slice(i + 1).flatMap((b, j) =>
      points.slice(i + j + 2).map(c => {
        return Math.abs((b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]));
      }),
    ),
  );
  const flat = areas.filter(area => area < IN_LINE * Math.max(...areas)).length;
  const all = pairs.length >= 5 || (pairs.length === 4 && flat === 0);
  return fitPlane(all ? 'projective' : 'affine', pairs);
}

/** Focal lengths of cameras, in lengths of the picture: from a phone's widest lens to its longest. */
const FOCAL = [0.5, 2.2] as const;

/**
 * How long the sheet is for its width in a picture of so many pixels, over what it should be, if the
 * camera's pixels are square and its axis meets the middle of the picture (Z. Zhang, "A flexible new
 * technique for camera calibration", IEEE PAMI 22 (2000) 1330–1334, section 3). The focal length is not
 * known: of all usual ones, the ratio that is nearest to 1. A flat scan has one ratio, that of its scales.
 */
export function aspectOf(plane: Plane, width: number, height: number): number {
  const [cx, cy] = [width / 2, height / 2];
  const column = (i: 0 | 1) => {
    const w = plane[(6 + i) as 6 | 7];
    return [
      plane[i] - cx * w,
      plane[(3 + i) as 3 | 4] - cy * w,
      w * Math.max(width, height),
    ] as const;
  };
  const [p, q] = [column(0), column(1)];
  const size = ([x, y, w]: readonly [number, number, number], f: number) => Math.hypot(x, y, f * w);
  const [one, other] = FOCAL.map(f => size(q, f) / size(p, f)) as [number, number];
  return Math.min(Math.max(1, Math.min(one, other)), Math.max(one, other));
}

/** The cosine of the angle between the sheet's sides in a picture that has no depth: 0 for our sheet. What
 *  has depth is told by `aspectOf` alone, since a lean looks like a tilt. */
export function leanOf([a, b, , d, e, , g, h]: Plane): number {
  return g === 0 && h === 0 ? (a * b + d * e) / (Math.hypot(a, d) * Math.hypot(b, e)) : 0;
}
