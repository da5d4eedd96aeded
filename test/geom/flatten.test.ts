import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  arcPieces,
  arcsToCubics,
  circle,
  cubic,
  cubicPieces,
  distance,
  distanceToPath,
  flatten,
  isSimilarity,
  line,
  openPath,
  type Path,
  type Point,
  pathLength,
  pointAt,
  polyline,
  rotation,
  signedArea,
  steps,
  transform,
  transformAny,
} from '../../src/geom/index.js';
import type { Cubic } from '../../src/geom/types.js';

const SEED = 20261;

/** How far the chain of chords strays from the path: middles and quarters of each chord. */
function chordError(path: Path, points: readonly Point[]): number {
  let most = 0;
  const ring = path.closed ? [...points, points[0]!] : points;
  for (let i = 1; i < ring.length; i++) {
    for (const t of [0.25, 0.5, 0.75]) {
      const [a, b] = [ring[i - 1]!, ring[i]!];
      const q: Point = [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t];
      most = Math.max(most, distanceToPath(q, path));
    }
  }
  return most;
}

describe('pieces for a tolerance', () => {
  // check-values.md 3.4: Wang's bound (Skia's WangsFormulaTest gives the formula), computed table.
  const curves: [string, [Point, Cubic], number[], number[]][] = [
    [
      'arch',
      [[0, 0], cubic([0, 100], [100, 100], [100, 0]) as Cubic],
      [11, 33, 103],
      [0.6198, 0.0689, 0.00707],
    ],
    [
      'loop',
      [[0, 0], cubic([100, 100], [0, 100], [100, 0]) as Cubic],
      [13, 41, 130],
      [0.4438, 0.0446, 0.00313],
    ],
    [
      'quarter circle of 100',
      [[100, 0], cubic([100, 55.22847498307936], [55.22847498307936, 100], [0, 100]) as Cubic],
      [6, 19, 59],
      [0.9024, 0.0921, 0.00961],
    ],
  ];
  it.each(curves)(
    '%s needs what Wang’s bound says and errs as the table says',
    (_, [from, c], n, err) => {
      for (const [i, tol] of [1, 0.1, 0.01].entries()) {
        expect(cubicPieces(from, c, tol)).toBe(n[i]);
        const path = openPath(from, [c]);
        expect(chordError(path, flatten(path, tol))).toBeLessThanOrEqual(err[i]! * 1.001);
        expect(chordError(path, flatten(path, tol))).toBeGreaterThan(err[i]! * 0.5);
      }
    },
  );

  // check-values.md 3.4: n = ⌈π / acos(1 − tol / r)⌉ for a whole circle.
  it.each<[number, number, number]>([
    [10, 0.1, 23],
    [10, 0.01, 71],
    [50, 0.05, 71],
    [100, 0.025, 141],
  ])('a circle of radius %d within %d needs %d', (r, tol, n) => {
    expect(arcPieces(r, 2 * Math.PI, tol)).toBe(n);
  });

  it('keeps its digits for an arc that is almost a line', () => {
    expect(arcPieces(1e12, 1e-10, 0.01)).toBe(1);
    const shallow = openPath([0, 0], [{ kind: 'arc', to: [100, 0], bulge: 1e-13 }]);
    expect(pathLength(shallow)).toBeCloseTo(100, 9);
    expect(flatten(shallow, 0.01)).toHaveLength(2);
  });

  it('refuses a tolerance of nothing and a path that is not finite', () => {
    expect(() => flatten(circle([0, 0], 5), 0)).toThrow(RangeError);
    expect(() => flatten(circle([0, 0], 5), -1)).toThrow(RangeError);
    expect(() => flatten(circle([0, 0], 5), Number.NaN)).toThrow(RangeError);
    expect(() => flatten(circle([0, 0], Number.NaN), 0.1)).toThrow(RangeError);
  });

  it('stays within its tolerance for any arc, every point on it, the start not repeated', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.1, max: 300, noNaN: true }),
        fc.double({ min: 0.001, max: 1, noNaN: true }),
        (r, tol) => {
          const path = circle([3, -2], r);
          const points = flatten(path, tol);
          expect(chordError(path, points)).toBeLessThanOrEqual(tol * 1.000001);
          for (const p of points) expect(distance(p, [3, -2])).toBeCloseTo(r, 9);
          expect(distance(points[0]!, points.at(-1)!)).toBeGreaterThan(0);
        },
      ),
      { seed: SEED, numRuns: 40 },
    );
  });
});

describe('arcs as cubics', () => {
  // check-values.md 3.3: 4/3 tan(θ/4) and its largest radial error at 45°, 4.2455e-6.
  it('uses four thirds of the tangent of a quarter of at most 45°', () => {
    const path = arcsToCubics(circle([0, 0], 1));
    expect(path.segments).toHaveLength(8);
    const first = path.segments[0] as Cubic;
    expect(distance(path.start, first.c1)).toBeCloseTo(0.2652164898, 9);
    let most = 0;
    for (const step of steps(path)) {
      for (let i = 0; i <= 1000; i++) {
        most = Math.max(most, distance(pointAt(step, i / 1000), [0, 0]) - 1);
      }
    }
    expect(most).toBeCloseTo(4.2455e-6, 9);
  });

  // check-values.md 3.3: area of the circle of four cubics, k = 0.5522847498.
  it('agrees with the published area of a circle of four cubics', () => {
    const k = 0.5522847498307936;
    const four: Path = {
      start: [1, 0],
      closed: true,
      segments: [
        cubic([1, k], [k, 1], [0, 1]),
        cubic([-k, 1], [-1, k], [-1, 0]),
        cubic([-1, -k], [-k, -1], [0, -1]),
        cubic([k, -1], [1, -k], [1, 0]),
      ],
    };
    expect(signedArea(four)).toBeCloseTo(3.142472333, 9);
  });

  it('keeps lines, ends and turning sense', () => {
    const path = openPath([0, 0], [line([5, 0]), { kind: 'arc', to: [5, 10], bulge: -3 }]);
    const soft = arcsToCubics(path);
    expect(soft.segments[0]).toEqual(line([5, 0]));
    expect(soft.segments.at(-1)!.to).toEqual([5, 10]);
    expect(signedArea(soft)).toBeCloseTo(signedArea(path), 2);
    expect(
      arcsToCubics(
        polyline([
          [0, 0],
          [1, 1],
        ]),
      ).segments,
    ).toEqual([line([1, 1])]);
  });

  it('follows a stretch: the circle becomes the ellipse (area π a b)', () => {
    const stretched = transformAny(circle([1, 1], 10), [2, 0, 0, 0.5, 3, 4]);
    expect(signedArea(stretched)).toBeCloseTo(Math.PI * 20 * 5, 2);
    expect(() => transform(circle([0, 0], 1), [2, 0, 0, 1, 0, 0])).toThrow(RangeError);
  });

  it('keeps arcs under a similarity', () => {
    expect(isSimilarity(rotation(0.3))).toBe(true);
    expect(isSimilarity([-1, 0, 0, 1, 0, 0])).toBe(true);
    expect(isSimilarity([1, 0, 0.2, 1, 0, 0])).toBe(false);
    expect(isSimilarity([Number.NaN, 0, 0, 1, 0, 0])).toBe(false);
    expect(transformAny(circle([0, 0], 1), rotation(1)).segments[0]!.kind).toBe('arc');
  });
});
