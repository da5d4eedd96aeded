import fc from 'fast-check';
import { expect, it } from 'vitest';
import { convexHull, polygon, signedArea } from '../../src/geom/index.js';
import type { Point } from '../../src/model.js';

const leftOf = (a: Point, b: Point, p: Point) =>
  (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0]);

it('a convex hull turns left at each of its corners and has every point inside', () => {
  const place = fc.tuple(fc.integer({ min: -50, max: 50 }), fc.integer({ min: -50, max: 50 }));
  fc.assert(
    fc.property(fc.array(place, { minLength: 3, maxLength: 30 }), points => {
      const hull = convexHull(points);
      if (hull.length < 3) return;
      expect(signedArea(polygon(hull))).toBeGreaterThan(0);
      hull.forEach((a, i) => {
        const b = hull[(i + 1) % hull.length]!;
        expect(leftOf(a, b, hull[(i + 2) % hull.length]!)).toBeGreaterThan(0);
        for (const p of points) expect(leftOf(a, b, p)).toBeGreaterThanOrEqual(0);
      });
      for (const corner of hull) expect(points).toContainEqual(corner);
    }),
    { seed: 12, numRuns: 200 },
  );
});

it('leaves out what lies inside or on a side', () => {
  const square: Point[] = [
    [0, 0],
    [4, 0],
    [4, 4],
    [0, 4],
  ];
  const hull = convexHull([...square, [2, 0], [2, 2], [4, 1]]);
  expect(new Set(hull.map(String))).toEqual(new Set(square.map(String)));
});
