import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  apply,
  closedSpline,
  compose,
  corner,
  heading,
  type Knot,
  openSpline,
  polar,
  reverse,
  rotation,
  scaling,
  signedArea,
  steps,
  tangentAt,
  transform,
  translation,
} from '../../src/geom/index.js';
import type { Path, Point } from '../../src/model.js';

const gap = (a: Point, b: Point) => Math.hypot(a[0] - b[0], a[1] - b[1]);
const handles = (path: Path) =>
  path.segments.flatMap(s => (s.kind === 'cubic' ? [s.c1, s.c2, s.to] : [s.to]));

/** Knots round the origin, never two at one place, never turning back. */
const rings = fc
  .array(fc.integer({ min: 60, max: 140 }), { minLength: 4, maxLength: 12 })
  .map(radii => radii.map((r, i) => polar(r / 10, (i * 2 * Math.PI) / radii.length)));

describe('smooth cubics through points', () => {
  it.each([3, 4, 6, 8])('the corners of a regular %i-gon give the usual circle of cubics', n => {
    // Handle of a circular arc of angle a: (4/3) tan(a/4) radii (SVG 2, B.2 and every CAD text).
    const path = closedSpline(Array.from({ length: n }, (_, i) => polar(1, (2 * Math.PI * i) / n)));
    const handle = (4 / 3) * Math.tan(Math.PI / n / 2);
    for (const { from, segment } of steps(path)) {
      if (segment.kind !== 'cubic') throw new Error('cubics only');
      expect(gap(from, segment.c1)).toBeCloseTo(handle, 9);
      expect(gap(segment.to, segment.c2)).toBeCloseTo(handle, 9);
      expect(from[0] * (segment.c1[0] - from[0]) + from[1] * (segment.c1[1] - from[1])).toBeCloseTo(
        0,
        9,
      );
    }
  });

  it('a quarter of a circle from its ends and their directions: the handle 0.5523 of the radius', () => {
    const { segments } = openSpline([heading([1, 0], [0, 1]), heading([0, 1], [-1, 0])]);
    const [s] = segments;
    if (s?.kind !== 'cubic') throw new Error('a cubic');
    expect(s.c1[0]).toBeCloseTo(1, 12);
    expect(s.c1[1]).toBeCloseTo(0.5522847498, 9);
    expect(s.c2[0]).toBeCloseTo(0.5522847498, 9);
  });

  it('passes every knot, with one tangent on both sides', () => {
    fc.assert(
      fc.property(rings, points => {
        const path = closedSpline(points);
        const all = [...steps(path)];
        all.forEach((step, i) => {
          expect(step.from).toEqual(points[i]);
          const [t0, t1] = [tangentAt(all.at(i - 1)!, 1), tangentAt(step, 0)];
          expect(gap(t0, t1)).toBeLessThan(1e-9);
        });
        expect(signedArea(path)).toBeGreaterThan(0);
      }),
      { seed: 7, numRuns: 80 },
    );
  });

  it('follows when its knots are turned, scaled, moved, or taken backwards', () => {
    fc.assert(
      fc.property(rings, fc.integer({ min: -30, max: 30 }), (points, turn) => {
        const m = compose(translation(3, -turn), compose(rotation(turn / 10), scaling(2.5)));
        const moved = handles(closedSpline(points.map(p => apply(m, p))));
        handles(transform(closedSpline(points), m)).forEach((p, i) => {
          expect(gap(p, moved[i]!)).toBeLessThan(1e-9);
        });
        const there = openSpline(points);
        const back = handles(openSpline([...points].reverse()));
        handles(reverse(there)).forEach((p, i) => {
          expect(gap(p, back[i]!)).toBeLessThan(1e-9);
        });
      }),
      { seed: 8, numRuns: 80 },
    );
  });

  it('keeps corners and given directions, and is a line between two free ends', () => {
    const knots: Knot[] = [
      corner([0, 0]),
      corner([10, 0], 'free', [0, 1]),
      heading([5, 8], [-1, 0]),
    ];
    const path = closedSpline(knots);
    expect(path.segments[0]).toEqual({ kind: 'line', to: [10, 0] });
    const all = [...steps(path)];
    expect(gap(tangentAt(all[1]!, 0), [0, 1])).toBeLessThan(1e-12);
    expect(gap(tangentAt(all[1]!, 1), [-1, 0])).toBeLessThan(1e-12);
    expect(gap(tangentAt(all[2]!, 0), [-1, 0])).toBeLessThan(1e-12);
    expect(path.segments.at(-1)!.to).toEqual([0, 0]);
  });

  it('refuses two knots at one point, and a single one', () => {
    expect(() => closedSpline([[0, 0]])).toThrow(RangeError);
    expect(() =>
      openSpline([
        [0, 0],
        [0, 0],
        [1, 1],
      ]),
    ).toThrow(/one point/);
  });
});
