import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  arcsToCubics,
  biarc,
  circle,
  cubic,
  distance,
  distanceToPath,
  fitArcs,
  isFinitePath,
  line,
  openPath,
  type Path,
  type Point,
  pathLength,
  pointAt,
  polar,
  reverse,
  rotation,
  signedArea,
  tangentAt,
  transform,
} from '../../src/geom/index.js';
import { FIT_MM } from '../../src/units/tolerances.js';
import { deviation, sharpest } from '../support/deviation.js';

const SEED = 20262;
const one = (...p: [Point, Point, Point, Point]): Path => openPath(p[0], [cubic(p[1], p[2], p[3])]);

describe('a biarc', () => {
  it('joins on the circle through both ends, with one tangent there', () => {
    // Bolton 1975: with equal handles the joint lies on a circle through both ends. For tangents
    // mirrored in the chord's normal it is the one arc itself.
    const pair = biarc([0, 0], polar(1, 0.3), [10, 0], polar(1, -0.3))!;
    expect(pair).toHaveLength(2);
    const [a, b] = pair.map(s => (s.kind === 'arc' ? s.bulge : 0));
    expect(a).toBeCloseTo(b!, 12);
    expect(pair[0]!.to[0]).toBeCloseTo(5, 12);
    expect(pair[0]!.to[1]).toBeCloseTo(5 * Math.tan(0.15), 12);
    expect(sharpest(openPath([0, 0], pair))).toBeLessThan(1e-12);
  });
  it('is a line when both tangents run along the chord', () => {
    expect(biarc([0, 0], [1, 0], [10, 0], [1, 0])).toEqual([line([10, 0])]);
  });
  it('is not given when it would have to turn too far', () => {
    expect(biarc([0, 0], [-1, 0], [10, 0], [-1, 0])).toBeUndefined();
    expect(biarc([0, 0], [1, 0], [0, 0], [1, 0])).toBeUndefined();
  });
});

describe('cubics fitted with arcs', () => {
  const cases: [string, Path, number, number][] = [
    ['an arch', one([0, 0], [0, 100], [100, 100], [100, 0]), 28, 1e-9],
    ['a quarter circle', one([100, 0], [100, 55.228475], [55.228475, 100], [0, 100]), 8, 1e-9],
    ['an inflection', one([0, 0], [50, 0], [50, 100], [100, 100]), 30, 1e-9],
    ['a zero handle', one([0, 0], [0, 0], [50, 100], [100, 100]), 20, 1e-9],
    ['a zero handle at the end', one([0, 0], [50, 0], [100, 100], [100, 100]), 20, 1e-9],
    ['two zero handles', one([0, 0], [0, 0], [100, 100], [100, 100]), 1, 0],
    ['a cusp', one([0, 0], [100, 100], [0, 100], [100, 0]), 34, 4],
    ['a near cusp', one([0, 0], [100, 100], [0.5, 100], [100, 0]), 44, 4],
    ['a loop onto its start', one([0, 0], [50, 80], [-50, 80], [0, 0]), 32, 1e-9],
    ['a line with overshoot', one([0, 0], [150, 0], [-50, 0], [100, 0]), 3, 4],
    ['a speck', one([0, 0], [0.001, 0], [0.002, 0.001], [0.002, 0.002]), 1, 0],
  ];
  it.each(cases)('%s', (_, path, most, kink) => {
    const fit = fitArcs(path);
    expect(fit.segments.every(s => s.kind !== 'cubic')).toBe(true);
    expect(fit.segments.length).toBeLessThanOrEqual(most);
    expect(deviation(path, fit)).toBeLessThanOrEqual(FIT_MM);
    expect(sharpest(fit)).toBeLessThanOrEqual(kink);
    expect(isFinitePath(fit)).toBe(true);
    expect(fit.segments.at(-1)!.to).toEqual(path.segments.at(-1)!.to);
  });

  // Every way to put the ends of biarcs on a grid of parameters, the fewest by dynamic programming.
  function fewestBiarcs(from: Point, segment: ReturnType<typeof cubic>, grid: number): number {
    const step = { from, segment };
    const fits = (i: number, j: number): boolean => {
      const [t, u] = [i / grid, j / grid];
      const [p, q] = [pointAt(step, t), pointAt(step, u)];
      const pair = biarc(p, tangentAt(step, t), q, tangentAt(step, u));
      if (!pair) return false;
      const made = openPath(p, pair);
      return Array.from({ length: 24 }, (_, k) => pointAt(step, t + ((u - t) * k) / 24)).every(
        at => distanceToPath(at, made) <= FIT_MM,
      );
    };
    const need = [0];
    for (let j = 1; j <= grid; j++) {
      need[j] = Number.POSITIVE_INFINITY;
      for (let i = 0; i < j; i++) if (need[i]! + 1 < need[j]! && fits(i, j)) need[j] = need[i]! + 1;
    }
    return need[grid]!;
  }

  it('needs one biarc more at most than the fewest there can be', () => {
    const near = fc.double({ min: -6, max: 6, noNaN: true });
    fc.assert(
      fc.property(near, near, near, near, (a, b, c, d) => {
        // A petal or a wave of 20 mm with handles of 10, such as people draw.
        const to: Point = [20, 0];
        const segment = cubic([7 + a / 2, b], [13 + c / 2, d], to);
        const made = fitArcs(openPath([0, 0], [segment]));
        const fewest = fewestBiarcs([0, 0], segment, 40);
        expect(Math.ceil(made.segments.length / 2)).toBeLessThanOrEqual(fewest + 1);
      }),
      { seed: SEED, numRuns: 30 },
    );
  });

  // A parabola 0.84 mm wide and 0.08 mm high, as on a scalloped edge: its biarc has two arcs.
  const petal = (from: Point, angle: number): ReturnType<typeof cubic> => {
    const at = (x: number, y: number): Point => {
      const [dx, dy] = polar(x, angle);
      const [ex, ey] = polar(y, angle + Math.PI / 2);
      return [from[0] + dx + ex, from[1] + dy + ey];
    };
    return cubic(at(0.28, 0.107), at(0.56, 0.107), at(0.84, 0));
  };
  it('make one arc of a petal between two corners, and keep the corners', () => {
    let at: Point = [0.42, 0];
    const segments = [1, 2, 3, 4, 5, 6].map(k => {
      const segment = petal(at, (k * Math.PI) / 3);
      at = segment.to;
      return segment;
    });
    const path: Path = { start: [0.42, 0], segments, closed: true };
    segments[5] = { ...segments[5]!, to: path.start };
    const fit = fitArcs(path);
    expect(fit.segments.map(s => s.kind)).toEqual(Array(6).fill('arc'));
    expect(deviation(path, fit, 1e-4)).toBeLessThanOrEqual(FIT_MM);
    expect(sharpest(fit)).toBeGreaterThan(1);
    // Its own way along a line that it joins without a corner is kept.
    const [dx, dy] = [-0.28, -0.107];
    const smooth = openPath([dx, dy], [line([0, 0]), petal([0, 0], 0)]);
    const kept = fitArcs(smooth);
    expect(kept.segments.map(s => s.kind)).toEqual(['line', 'arc', 'arc']);
    expect(sharpest(kept)).toBeLessThan(1e-6);
  });

  it('leaves arcs and lines as they are, and a path without cubics itself', () => {
    const ring = circle([0, 0], 5);
    expect(fitArcs(ring)).toBe(ring);
    const mixed = openPath(
      [0, 0],
      [line([5, 0]), { kind: 'arc', to: [9, 0], bulge: 1 }, cubic([9, 9], [0, 9], [0, 5])],
    );
    expect(fitArcs(mixed).segments.slice(0, 2)).toEqual(mixed.segments.slice(0, 2));
  });

  it('keeps a closed path closed to the bit', () => {
    const fit = fitArcs(arcsToCubics(circle([3, 4], 25)));
    expect(fit.closed).toBe(true);
    expect(fit.segments.at(-1)!.to).toEqual(fit.start);
    expect(Math.abs(signedArea(fit) - Math.PI * 625)).toBeLessThan(2 * Math.PI * 25 * FIT_MM);
  });

  it('gives a point for a point and refuses no tolerance', () => {
    expect(pathLength(fitArcs(one([5, 5], [5, 5], [5, 5], [5, 5])))).toBe(0);
    expect(() => fitArcs(one([0, 0], [1, 0], [1, 1], [0, 1]), 0)).toThrow(RangeError);
  });

  const coordinate = fc.integer({ min: -500, max: 500 }).map(n => n / 10);
  const point = fc.tuple(coordinate, coordinate);
  it('stays within its tolerance for any cubic, forwards and backwards, turned and mirrored', () => {
    fc.assert(
      fc.property(
        fc.tuple(point, point, point, point),
        fc.constantFrom(0.001, FIT_MM, 0.1),
        fc.double({ min: 0, max: 6, noNaN: true }),
        (p, tol, angle) => {
          const path = one(...p);
          const fit = fitArcs(path, tol);
          fc.pre(distance(p[0], p[3]) > 0 || fit.segments.length > 0);
          const m = rotation(angle);
          const map = [m[0], m[1], -m[2], -m[3], 3, 4] as const;
          for (const other of [path, reverse(path), transform(path, map)]) {
            expect(deviation(other, fitArcs(other, tol), tol / 4)).toBeLessThanOrEqual(tol);
          }
        },
      ),
      { seed: SEED, numRuns: 60 },
    );
  });
});
