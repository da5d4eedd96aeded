import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  bounds,
  circle,
  distance,
  fitPolyline,
  flatten,
  type Path,
  type Point,
  pathLength,
  polyline,
  rectangle,
  roundedPolygon,
  signedArea,
  steps,
} from '../../src/geom/index.js';
import { FIT_MM } from '../../src/units/tolerances.js';
import { deviation, sharpest } from '../support/deviation.js';
import { anyShape } from '../support/shapes.js';

const SEED = 20269;
/** As the polygon library gives points back: rounded to five decimals. */
const rounded = (points: readonly Point[]): Point[] =>
  points.map(([x, y]) => [Math.round(x * 1e5) / 1e5, Math.round(y * 1e5) / 1e5]);
const again = (path: Path, tolerance = FIT_MM) =>
  fitPolyline(rounded(flatten(path, 5e-4)), path.closed, tolerance);

describe('fitPolyline finds again', () => {
  const corners: Point[] = [
    [0, 0],
    [60, 0],
    [60, 40],
    [0, 40],
  ];
  it.each<[string, Path, number]>([
    ['a circle in two arcs', circle([3, 4], 20), 2],
    ['a rectangle in four lines', rectangle(0, 0, 30, 20), 4],
    ['a rounded rectangle in eight', roundedPolygon(corners, 6), 8],
    ['small radii', roundedPolygon(corners, 0.3), 8],
    ['a stadium, its quarters joined to halves', roundedPolygon(corners, 20), 4],
    [
      'an L with every corner',
      roundedPolygon(
        [
          [0, 0],
          [30, 0],
          [30, 10],
          [10, 10],
          [10, 30],
          [0, 30],
        ],
        [2, 0, 3, 4, 0, 1],
      ),
      10,
    ],
  ])('%s', (_, path, n) => {
    const fit = again(path);
    expect(fit.segments).toHaveLength(n);
    expect(deviation(fit, path)).toBeLessThan(2e-4);
  });
  it('radii and corners of a scalloped edge', () => {
    const points = Array.from({ length: 9 }, (_, i): Point => [10 * i, 0]);
    const path: Path = {
      start: points[0]!,
      segments: points.slice(1).map(to => ({ kind: 'arc', to, bulge: -0.6 })),
      closed: false,
    };
    const fit = again(path);
    expect(fit.segments).toHaveLength(8);
    for (const s of fit.segments) expect(s.kind === 'arc' && s.bulge).toBeCloseTo(-0.6, 3);
  });
  it('real corners, also slight ones', () => {
    const bent = polyline([
      [0, 0],
      [50, 0],
      [100, 3],
    ]);
    const dense = [...Array(51).keys()].map((i): Point => [i, 0]);
    for (let i = 1; i <= 50; i++) dense.push([50 + i, (3 * i) / 50]);
    const fit = fitPolyline(dense, false, FIT_MM);
    expect(deviation(fit, bent)).toBeLessThan(1e-9);
    expect(fit.segments).toHaveLength(2);
  });
});

describe('fitPolyline of other curves', () => {
  // check-values.md 8: areas of sampled curves.
  const sample = (n: number, at: (t: number) => Point) =>
    Array.from({ length: n }, (_, i) => at((i * 2 * Math.PI) / n));
  const heartA = (t: number): Point => [
    16 * Math.sin(t) ** 3,
    13 * Math.cos(t) - 5 * Math.cos(2 * t) - 2 * Math.cos(3 * t) - Math.cos(4 * t),
  ];
  const superellipse =
    (n: number) =>
    (t: number): Point => [
      30 * Math.sign(Math.cos(t)) * Math.abs(Math.cos(t)) ** (2 / n),
      30 * Math.sign(Math.sin(t)) * Math.abs(Math.sin(t)) ** (2 / n),
    ];
  it('a heart: area 180 π, length 102.167552, bounds ±16, −17..11.923252', () => {
    const fit = fitPolyline(sample(3000, heartA), true, FIT_MM);
    expect(Math.abs(Math.abs(signedArea(fit)) - 180 * Math.PI)).toBeLessThan(102 * FIT_MM);
    expect(pathLength(fit)).toBeCloseTo(102.167552, 1);
    const box = bounds(fit);
    expect(box.minY).toBeCloseTo(-17, 2);
    expect(box.maxY).toBeCloseTo(11.923252, 2);
    expect(box.maxX).toBeCloseTo(16, 2);
    expect(fit.segments.length).toBeLessThan(80);
  });
  it.each<[number, number]>([
    [2.5, 3.380935363],
    [4, 3.708149355],
  ])('a superellipse of exponent %d: area %d a²', (n, area) => {
    const fit = fitPolyline(sample(6000, superellipse(n)), true, FIT_MM);
    expect(signedArea(fit) / 900).toBeCloseTo(area, 3);
    expect(fit.segments.length).toBeLessThan(70);
  });
  it('the rose of three petals: area π a² / 4, length 6.682446610 a', () => {
    const rose = Array.from({ length: 4000 }, (_, i): Point => {
      const t = (i * Math.PI) / 4000;
      const r = 20 * Math.cos(3 * t);
      return [r * Math.cos(t), r * Math.sin(t)];
    });
    const fit = fitPolyline(rose, true, FIT_MM);
    expect(Math.abs(signedArea(fit))).toBeCloseTo((Math.PI * 400) / 4, 0);
    expect(pathLength(fit)).toBeCloseTo(6.68244661 * 20, 1);
    expect(fit.segments.length).toBeLessThan(120);
  });
  it('is smooth where the curve is', () => {
    const ellipse = sample(2000, t => [40 * Math.cos(t), 15 * Math.sin(t)]);
    const fit = fitPolyline(ellipse, true, FIT_MM);
    expect(sharpest(fit)).toBeLessThan(0.01);
    expect(fit.segments.length).toBeLessThan(60);
    for (const p of ellipse)
      expect(Math.min(...[...steps(fit)].map(s => distance(s.from, p)))).toBeLessThan(20);
  });

  it('stays within its tolerance of the points and the chords, whatever the shape', () => {
    fc.assert(
      fc.property(anyShape, fc.constantFrom(0.002, FIT_MM, 0.05), (shape, tolerance) => {
        const points = rounded(flatten(shape, tolerance / 8));
        const fit = fitPolyline(points, true, tolerance);
        expect(deviation(fit, polyline(points, true), 1e-3)).toBeLessThanOrEqual(tolerance);
        expect(fit.segments.at(-1)!.to).toEqual(fit.start);
      }),
      { seed: SEED, numRuns: 120 },
    );
  });
  it('refuses what is no polyline', () => {
    expect(() => fitPolyline([[0, 0]], false, 0.01)).toThrow(RangeError);
    expect(() =>
      fitPolyline(
        [
          [0, 0],
          [0, 0],
          [0, 0],
        ],
        false,
        0.01,
      ),
    ).toThrow(RangeError);
    expect(() =>
      fitPolyline(
        [
          [0, 0],
          [1, 0],
        ],
        true,
        0.01,
      ),
    ).toThrow(RangeError);
    expect(() =>
      fitPolyline(
        [
          [0, 0],
          [1, 0],
        ],
        false,
        0,
      ),
    ).toThrow(RangeError);
  });
});
