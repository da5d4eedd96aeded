/**
 * From where marks should be to where they were found: the move of least squares, by model. Rigid and
 * similar moves after S. Umeyama, "Least-squares estimation of transformation parameters between two
 * point patterns", IEEE PAMI 13 (1991) 376–380, in the plane, where the turn is an angle; a mirrored
 * sheet is never fitted, but told by `handedness`.
 */
import { solve } from '../geom/index.js';
import type { Point } from '../model.js';
import { MEASURE_MM } from '../units/tolerances.js';

/** A mark of the sheet and where it was found, mm, both y up. */
export interface Sighting {
  readonly name: string;
  readonly at: Point;
  readonly seen: Point;
}

/** From the stiffest to the softest; each holds all before it. */
export const MODELS = ['rigid', 'similarity', 'affine', 'projective'] as const;
export type Model = (typeof MODELS)[number];
/** Numbers that each model has to be told; every mark tells two. */
export const UNKNOWNS: Readonly<Record<Model, number>> = {
  rigid: 3,
  similarity: 4,
  affine: 6,
  projective: 8,
};
export const fewestMarks = (model: Model): number => Math.ceil(UNKNOWNS[model] / 2);

/**
 * A move of the plane: p ↦ ((a x + c y + e) / w, (b x + d y + f) / w) with w = g x + h y + 1; `g` and
 * `h`, in 1/mm, are 0 but for the projective one.
 */
export interface Move {
  readonly model: Model;
  readonly a: number;
  readonly b: number;
  readonly c: number;
  readonly d: number;
  readonly e: number;
  readonly f: number;
  readonly g: number;
  readonly h: number;
}

export function moved({ a, b, c, d, e, f, g, h }: Move, [x, y]: Point): Point {
  const w = g * x + h * y + 1;
  return [(a * x + c * y + e) / w, (b * x + d * y + f) / w];
}

/** Where each mark was found, less where the move puts it, mm. */
export const misses = (move: Move, sightings: readonly Sighting[]): Point[] =>
  sightings.map(({ at, seen }) => {
    const [x, y] = moved(move, at);
    return [seen[0] - x, seen[1] - y];
  });

export const squares = (move: Move, sightings: readonly Sighting[]): number =>
  misses(move, sightings).reduce((sum, [x, y]) => sum + x * x + y * y, 0);

/** Throws `RangeError` for fewer marks than the model needs, and where they do not determine it. */
export function fitMove(model: Model, sightings: readonly Sighting[]): Move {
  if (sightings.length < fewestMarks(model)) {
    throw new RangeError(`${model} wants ${fewestMarks(model)} marks, not ${sightings.length}`);
  }
  switch (model) {
    case 'rigid':
    case 'similarity':
      return turned(model, sightings);
    case 'affine':
      return sheared(sightings);
    case 'projective':
      return tilted(sightings);
  }
}

const mean = (points: readonly Point[]): Point => [
  points.reduce((s, p) => s + p[0], 0) / points.length,
  points.reduce((s, p) => s + p[1], 0) / points.length,
];

/** Sums over the marks about both means: x·x, and with u = found: x·u, x × u. */
function turned(model: 'rigid' | 'similarity', sightings: readonly Sighting[]): Move {
  const [mx, my] = mean(sightings.map(s => s.at));
  const [mu, mv] = mean(sightings.map(s => s.seen));
  let [spread, along, across] = [0, 0, 0];
  for (const { at, seen } of sightings) {
    const [x, y] = [at[0] - mx, at[1] - my];
    const [u, v] = [seen[0] - mu, seen[1] - mv];
    spread += x * x + y * y;
    along += x * u + y * v;
    across += x * v - y * u;
  }
  const size = Math.hypot(along, across);
  if (!(spread > 0 && size > 0)) throw new RangeError('marks in one place tell no turn');
  const scale = model === 'rigid' ? 1 : size / spread;
  const [a, b] = [(scale * along) / size, (scale * across) / size];
  const [e, f] = [mu - a * mx + b * my, mv - b * mx - a * my];
  return { model, a, b, c: -b, d: a, e, f, g: 0, h: 0 };
}

function sheared(sightings: readonly Sighting[]): Move {
  const [mx, my] = mean(sightings.map(s => s.at));
  const [mu, mv] = mean(sightings.map(s => s.seen));
  let [xx, xy, yy, xu, yu, xv, yv] = [0, 0, 0, 0, 0, 0, 0];
  for (const { at, seen } of sightings) {
    const [x, y] = [at[0] - mx, at[1] - my];
    const [u, v] = [seen[0] - mu, seen[1] - mv];
    xx += x * x;
    xy += x * y;
    yy += y * y;
    xu += x * u;
    yu += y * u;
    xv += x * v;
    yv += y * v;
  }
  const both = xx * yy - xy * xy;
  // Relative: what rounding leaves of marks in one line.
  if (!(both > 1e-12 * (xx + yy) ** 2)) throw new RangeError('marks in one line tell no shear');
  const a = (xu * yy - yu * xy) / both;
  const c = (yu * xx - xu * xy) / both;
  const b = (xv * yy - yv * xy) / both;
  const d = (yv * xx - xv * xy) / both;
  const [e, f] = [mu - a * mx - c * my, mv - b * mx - d * my];
  return { model: 'affine', a, b, c, d, e, f, g: 0, h: 0 };
}

const MOST_ROUNDS = 50;

/** Gauss and Newton's steps from the affine fit, on the distances on the sheet. About the middle of
 *  the marks and in units of their spread, where all eight unknowns are alike in size. */
function tilted(sightings: readonly Sighting[]): Move {
  const middle = mean(sightings.map(s => s.at));
  const reach = Math.sqrt(
    sightings.reduce((s, { at }) => s + (at[0] - middle[0]) ** 2 + (at[1] - middle[1]) ** 2, 0) /
      sightings.length,
  );
  const own = sightings.map(({ name, at, seen }): Sighting => {
    return { name, at: [(at[0] - middle[0]) / reach, (at[1] - middle[1]) / reach], seen };
  });
  const start = sheared(own);
  let now: number[] = [start.a, start.b, start.c, start.d, start.e, start.f, 0, 0];
  const as = (n: readonly number[]): Move => {
    const [a = 1, b = 0, c = 0, d = 1, e = 0, f = 0, g = 0, h = 0] = n;
    return { model: 'projective', a, b, c, d, e, f, g, h };
  };
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const normal = now.map(() => now.map(() => 0));
    const right = now.map(() => 0);
    for (const { at, seen } of own) {
      const [x, y] = at;
      const w = now[6]! * x + now[7]! * y + 1;
      const [u, v] = moved(as(now), at);
      const rows = [
        [[x, 0, y, 0, 1, 0, -x * u, -y * u], seen[0] - u],
        [[0, x, 0, y, 0, 1, -x * v, -y * v], seen[1] - v],
      ] as const;
      for (const [row, miss] of rows) {
        const slope = row.map(n => n / w);
        slope.forEach((p, i) => {
          right[i]! += p * miss;
          slope.forEach((q, j) => {
            normal[i]![j]! += p * q;
          });
        });
      }
    }
    const step = solve(normal, right);
    if (!step) throw new RangeError('these marks tell no tilt: three of four lie in one line');
    now = now.map((n, i) => n + step[i]!);
    if (Math.max(...step.map(Math.abs)) < MEASURE_MM * 1e-6) return wide(as(now), middle, reach);
  }
  throw new RangeError('the tilt of these marks could not be found');
}

/** The move for points of the sheet, from that for points about the middle, in units of the reach. */
function wide(m: Move, [mx, my]: Point, reach: number): Move {
  const [a, b, c, d] = [m.a / reach, m.b / reach, m.c / reach, m.d / reach];
  const [g, h] = [m.g / reach, m.h / reach];
  const w = 1 - g * mx - h * my;
  const e = m.e - a * mx - c * my;
  const f = m.f - b * mx - d * my;
  const { model } = m;
  return { model, a: a / w, b: b / w, c: c / w, d: d / w, e: e / w, f: f / w, g: g / w, h: h / w };
}
