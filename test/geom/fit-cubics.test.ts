/** Cubics fitted to dense points: near them, few, smooth between corners; and polygons grown. */
import { describe, expect, it } from 'vitest';
import {
  bounds,
  distanceToPath,
  fitCubics,
  flatten,
  growPolygons,
  pathLength,
  polygon,
  signedArea,
  steps,
  tangentAt,
} from '../../src/geom/index.js';
import type { Path, Point } from '../../src/model.js';
import { seeded } from '../../src/motifs/random.js';

const round = (n: number, r: (a: number) => number): Point[] =>
  Array.from({ length: n }, (_, i): Point => {
    const a = (2 * Math.PI * i) / n;
    return [50 + r(a) * Math.cos(a), 40 + r(a) * Math.sin(a)];
  });
const off = (points: readonly Point[], path: Path) =>
  Math.max(...points.map(p => distanceToPath(p, path)));
/** The sharpest turn between two segments, radians. */
const sharpest = (path: Path) => {
  const all = [...steps(path)];
  return Math.max(
    ...all.map((s, i) => {
      const [u, v] = [tangentAt(s, 1), tangentAt(all[(i + 1) % all.length]!, 0)];
      return Math.abs(Math.atan2(u[0] * v[1] - u[1] * v[0], u[0] * v[0] + u[1] * v[1]));
    }),
  );
};

describe('cubics through points', () => {
  it('a circle, noisy by 0.03 mm: a dozen smooth curves at most, its area to 0.1 %', () => {
    const random = seeded(5);
    const points = round(900, () => 20 + 0.06 * (random() - 0.5));
    const path = fitCubics(points, true, 0.1);
    expect(off(points, path)).toBeLessThanOrEqual(0.1);
    expect(path.segments.length).toBeLessThanOrEqual(12);
    expect(sharpest(path)).toBeLessThan(1e-6);
    expect(signedArea(path) / (Math.PI * 400)).toBeCloseTo(1, 2.7);
  });
  it('a wavy outline stays within the tolerance, and closes to the bit', () => {
    for (const tolerance of [0.02, 0.05, 0.2]) {
      const points = round(1500, a => 20 + 3 * Math.sin(5 * a) + Math.cos(11 * a));
      const path = fitCubics(points, true, tolerance);
      expect(off(points, path)).toBeLessThanOrEqual(tolerance);
      // And no curve strays between the points.
      const back: Path = polygon(points);
      expect(off(flatten(path, 0.01), back)).toBeLessThan(tolerance * 1.5);
      expect(path.segments.at(-1)!.to).toBe(path.start);
      expect(path.segments.length).toBeLessThan(120);
    }
  });
  it('strays nowhere between rough points far apart, at any tolerance', () => {
    for (let seed = 1; seed <= 60; seed++) {
      const random = seeded(seed);
      const points: Point[] = [];
      for (let a = 0; a < 2 * Math.PI; a += 0.003 + 0.1 * random() ** 3) {
        const r = 20 + 2 * Math.sin(5 * a) + 0.15 * (random() - 0.5);
        points.push([50 + r * Math.cos(a), 40 + r * Math.sin(a)]);
      }
      const tolerance = [0.02, 0.05, 0.1, 0.3][seed % 4]!;
      const path = fitCubics(points, true, tolerance);
      expect(off(points, path), `seed ${seed}`).toBeLessThanOrEqual(tolerance);
      const strays = off(flatten(path, 0.005), polygon(points));
      expect(strays, `seed ${seed}, ${tolerance}`).toBeLessThan(tolerance * 1.5);
    }
  });
  it('keeps the corners of a star and the straightness of its sides', () => {
    const tips = Array.from({ length: 10 }, (_, i): Point => {
      const [a, r] = [(Math.PI * i) / 5, i % 2 ? 8 : 20];
      return [r * Math.cos(a), r * Math.sin(a)];
    });
    const points = tips.flatMap((p, i) => {
      const q = tips[(i + 1) % 10]!;
      return Array.from(
        { length: 80 },
        (_, k): Point => [p[0] + ((q[0] - p[0]) * k) / 80, p[1] + ((q[1] - p[1]) * k) / 80],
      );
    });
    const path = fitCubics(points, true, 0.1);
    expect(path.segments.length).toBe(10);
    expect(path.segments.every(s => s.kind === 'line')).toBe(true);
    expect(off(tips, path)).toBeLessThan(1e-9);
  });
  it('refuses what is no outline', () => {
    expect(() =>
      fitCubics(
        [
          [0, 0],
          [1, 1],
        ],
        true,
        0.1,
      ),
    ).toThrow(/too few/);
    expect(() =>
      fitCubics(
        round(9, () => 3),
        true,
        0,
      ),
    ).toThrow(/within 0/);
  });
});

describe('polygons grown', () => {
  it('a square grows by its border and four quarters of a circle', () => {
    const [grown, ...more] = growPolygons(
      [
        [
          [0, 0],
          [10, 0],
          [10, 10],
          [0, 10],
        ],
      ],
      2,
    );
    expect(more).toEqual([]);
    const path = polygon(grown!);
    // Steiner: A + L d + π d².
    expect(signedArea(path)).toBeCloseTo(100 + 40 * 2 + Math.PI * 4, 1);
    expect(bounds(path).maxX).toBeCloseTo(12, 3);
    expect(pathLength(path)).toBeCloseTo(40 + 2 * Math.PI * 2, 1);
  });
  it('neighbours become one, holes close', () => {
    const square = (x: number, s: number): Point[] => [
      [x, 0],
      [x + s, 0],
      [x + s, s],
      [x, s],
    ];
    expect(growPolygons([square(0, 5), square(7, 5)], 0.9).length).toBe(2);
    expect(growPolygons([square(0, 5), square(7, 5)], 1.1).length).toBe(1);
    const hole = [
      [4, 4],
      [4, 6],
      [6, 6],
      [6, 4],
    ] as Point[];
    expect(growPolygons([square(0, 10), hole], 0.5).length).toBe(2);
    expect(growPolygons([square(0, 10), hole], 1.5).length).toBe(1);
  });
});
