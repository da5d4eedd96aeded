/**
 * Lengths, areas and bounds: exact for lines and arcs; for cubics exact in area and bounds, and by
 * Gauss–Legendre quadrature in length.
 */
import { extremeParams } from './monotone.js';
import { pointAt, type Step, steps, sweepOf, velocityAt } from './step.js';
import type { Bounds, Cubic, Path, Point } from './types.js';
import { cross, distance, length, sub } from './vec.js';

// Gauss–Legendre abscissae and weights, 16 points (positive half), Abramowitz & Stegun table 25.4.
const GAUSS: readonly (readonly [number, number])[] = [
  [0.0950125098376374, 0.1894506104550685],
  [0.2816035507792589, 0.1826034150449236],
  [0.4580167776572274, 0.1691565193950025],
  [0.6178762444026438, 0.1495959888165767],
  [0.755404408355003, 0.1246289712555339],
  [0.8656312023878318, 0.0951585116824928],
  [0.9445750230732326, 0.0622535239386479],
  [0.9894009349916499, 0.0271524594117541],
];

/** Half a sweep over its sine: how much longer an arc is than its chord. */
function arcOverChord(bulge: number): number {
  const half = sweepOf(bulge) / 2;
  return half === 0 ? 1 : half / Math.sin(half);
}

/** Length of a cubic between two parameters, by quadrature in four parts. */
export function cubicLength(from: Point, segment: Cubic, t0 = 0, t1 = 1): number {
  const speed = (t: number) => length(velocityAt(from, segment, t));
  let total = 0;
  const parts = 4;
  const half = (t1 - t0) / parts / 2;
  for (let k = 0; k < parts; k++) {
    const mid = t0 + (2 * k + 1) * half;
    for (const [x, w] of GAUSS) total += w * half * (speed(mid + x * half) + speed(mid - x * half));
  }
  return total;
}

export function stepLength({ from, segment }: Step): number {
  if (segment.kind === 'cubic') return cubicLength(from, segment);
  const chord = distance(from, segment.to);
  return segment.kind === 'line' ? chord : chord * arcOverChord(segment.bulge);
}

export function pathLength(path: Path): number {
  let total = 0;
  for (const step of steps(path)) total += stepLength(step);
  return total;
}

/** Twice the signed area between an arc and its chord: r² (θ − sin θ), in a form that keeps its digits
 *  when the arc is almost a line. */
function bulgeArea(chord: number, bulge: number): number {
  const sweep = sweepOf(bulge);
  const sine = Math.sin(sweep / 2);
  if (Math.abs(sweep) < 1e-3) return (chord * chord * sweep) / 6;
  return ((chord / sine) ** 2 / 4) * (sweep - Math.sin(sweep));
}

/** Signed area of a closed path (an open one is closed by its chord): positive counter-clockwise. */
export function signedArea(path: Path): number {
  let twice = 0;
  for (const { from, segment } of steps(path)) {
    const { to } = segment;
    twice += cross(from, to);
    if (segment.kind === 'arc') {
      twice += bulgeArea(distance(from, to), segment.bulge);
    } else if (segment.kind === 'cubic') {
      // Area between the curve and its chord, from Green's theorem on the Bernstein form.
      const a = sub(segment.c1, from);
      const b = sub(segment.c2, from);
      const c = sub(to, from);
      twice += (3 * cross(a, b) + 3 * cross(a, c) + 6 * cross(b, c)) / 10;
    }
  }
  twice += cross(path.segments.at(-1)?.to ?? path.start, path.start);
  return twice / 2;
}

/** Exact bounds of one path or of several together. Throws when there is nothing to bound. */
export const bounds = (...paths: readonly Path[]): Bounds => boundsOf(paths);

/** The same of any number: a call takes no 200,000 arguments. */
export function boundsOf(paths: readonly Path[]): Bounds {
  let minX = Number.POSITIVE_INFINITY;
  let minY = Number.POSITIVE_INFINITY;
  let maxX = Number.NEGATIVE_INFINITY;
  let maxY = Number.NEGATIVE_INFINITY;
  const see = ([x, y]: Point) => {
    minX = Math.min(minX, x);
    minY = Math.min(minY, y);
    maxX = Math.max(maxX, x);
    maxY = Math.max(maxY, y);
  };
  for (const path of paths) {
    see(path.start);
    for (const step of steps(path)) {
      see(step.segment.to);
      for (const t of extremeParams(step)) see(pointAt(step, t));
    }
  }
  if (!(minX <= maxX && minY <= maxY)) throw new RangeError('nothing finite to bound');
  return { minX, minY, maxX, maxY };
}
