/** Laws of compensation: what the simulated tip does with a compensated path is the drawn path. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  arcTo,
  circle,
  closedPath,
  cubic,
  line,
  openPath,
  type Path,
  type Point,
  polar,
  polygon,
  polyline,
  rectangle,
  roundedPolygon,
  type Segment,
  transform,
} from '../../src/geom/index.js';
import { compensatePaths } from '../../src/tool/compensate.js';
import { dragTip } from '../../src/tool/simulate.js';
import { tipError } from '../../src/tool/tip-error.js';
import { FILE_STEP_MM, TIP_MM } from '../../src/units/tolerances.js';

const RUNS = { seed: 20240917, numRuns: 200 };

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const offset = number(0.1, 1);
const heading = number(-Math.PI, Math.PI);

/** Corners round a centre at random radii: simple, convex or not, some very sharp. */
const starPoints = (size: number) =>
  fc
    .array(fc.record({ r: number(0.15, 1), a: number(0.2, 1) }), { minLength: 3, maxLength: 12 })
    .map(rays => {
      const whole = rays.reduce((sum, ray) => sum + ray.a, 0);
      let angle = 0;
      return rays.map((ray): Point => {
        angle += (ray.a / whole) * 2 * Math.PI;
        return polar(size * ray.r, angle);
      });
    });

const heart = (s: number): Path =>
  closedPath(
    [0, -s],
    [
      cubic([-1.2 * s, -0.3 * s], [-1.2 * s, 0.9 * s], [-0.5 * s, 0.9 * s]),
      cubic([-0.2 * s, 0.9 * s], [0, 0.7 * s], [0, 0.5 * s]),
      cubic([0, 0.7 * s], [0.2 * s, 0.9 * s], [0.5 * s, 0.9 * s]),
      cubic([1.2 * s, 0.9 * s], [1.2 * s, -0.3 * s], [0, -s]),
    ],
  );

/** Half circles of growing radius, joined smoothly. */
function spiral(turns: number, step: number): Path {
  const segments: Segment[] = [];
  let x = 0;
  for (let k = 1; k <= turns; k++) {
    x += (k % 2 ? 2 : -2) * step * k;
    segments.push(arcTo([x, 0], k % 2 ? -Math.PI : -Math.PI));
  }
  return openPath([0, 0], segments);
}

const anyPath: fc.Arbitrary<Path> = fc.oneof(
  number(1, 60).chain(size => starPoints(size).map(polygon)),
  number(1, 60).chain(size => starPoints(size).map(points => polyline(points))),
  fc.record({ w: number(3, 80), h: number(3, 80), r: number(0.02, 1.4) }).map(({ w, h, r }) =>
    roundedPolygon(
      [
        [0, 0],
        [w, 0],
        [w, h],
        [0, h],
      ],
      r,
    ),
  ),
  number(0.05, 60).map(r => circle([3, 4], r)),
  fc
    .record({ turns: fc.integer({ min: 1, max: 9 }), step: number(0.02, 4) })
    .map(({ turns, step }) => spiral(turns, step)),
  number(0.4, 40).map(heart),
  // Curves flattened to many short lines.
  fc
    .record({ n: fc.integer({ min: 8, max: 400 }), r: number(0.5, 30) })
    .map(({ n, r }) =>
      polygon(Array.from({ length: n }, (_, i) => polar(r, (i / n) * 2 * Math.PI))),
    ),
);

const rounded = (path: Path): Path => {
  const r = (p: Point): Point => [
    Math.round(p[0] / FILE_STEP_MM) * FILE_STEP_MM,
    Math.round(p[1] / FILE_STEP_MM) * FILE_STEP_MM,
  ];
  return {
    ...path,
    start: r(path.start),
    segments: path.segments.map(s => ({ ...s, to: r(s.to) }) as Segment),
  };
};

/** Moved off the origin and turned, so that nothing is axis-parallel by luck. */
const moved = (path: Path, a: number): Path =>
  transform(path, [Math.cos(a), Math.sin(a), -Math.sin(a), Math.cos(a), 120, 90]);

describe('simulate(compensate(path)) is the path', () => {
  it('for any path, offset, overcut and heading left over', () => {
    fc.assert(
      fc.property(anyPath, offset, number(0, 2), heading, heading, (path, d, overcut, h, a) => {
        const drawn = [moved(path, a)];
        const { driven } = compensatePaths(drawn, { offset: d, overcut }, h);
        const error = tipError(drawn, driven, d, h);
        expect(error.max).toBeLessThanOrEqual(TIP_MM / 2);
        expect(error.uncutMax).toBeLessThanOrEqual(TIP_MM / 2);
        expect(error.p99).toBeLessThanOrEqual(error.max);
        expect(error.uncut99).toBeLessThanOrEqual(error.uncutMax);
      }),
      RUNS,
    );
  });

  it('for several paths in a row, and after rounding to the step of the file', () => {
    fc.assert(
      fc.property(
        fc.array(anyPath, { minLength: 1, maxLength: 4 }),
        offset,
        heading,
        (paths, d, a) => {
          const drawn = paths.map(path => moved(path, a));
          const made = compensatePaths(drawn, { offset: d, overcut: 1 });
          const error = tipError(drawn, made.driven.map(rounded), d, made.headingBefore);
          expect(error.max).toBeLessThanOrEqual(TIP_MM);
          expect(error.uncutMax).toBeLessThanOrEqual(TIP_MM);
        },
      ),
      RUNS,
    );
  });

  it('for tiny features: steps, notches and crumbs far smaller than the offset', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(number(-0.2, 0.2), number(-0.2, 0.2)), { minLength: 2, maxLength: 30 }),
        offset,
        (moves, d) => {
          let at: Point = [0, 0];
          const points = [at, ...moves.map(([x, y]) => (at = [at[0] + x, at[1] + y]))];
          const drawn = [polyline(points)];
          const made = compensatePaths(drawn, { offset: d, overcut: 0 });
          const error = tipError(drawn, made.driven, d, made.headingBefore);
          expect(error.max).toBeLessThanOrEqual(TIP_MM / 2);
          expect(error.uncutMax).toBeLessThanOrEqual(TIP_MM / 2);
        },
      ),
      RUNS,
    );
  });
});

describe('cusps and tight arcs', () => {
  it('a line that runs back on itself is swung round by half a turn', () => {
    const there = polyline([
      [0, 0],
      [10, 0],
      [0, 0],
    ]);
    const { driven } = compensatePaths([there], { offset: 0.5, overcut: 0 });
    expect(driven[0]!.segments.map(s => s.kind)).toEqual(['line', 'arc', 'line']);
    expect(tipError([there], driven, 0.5).max).toBeLessThan(1e-9);
  });

  it.each([0.001, 0.01, 0.1])('an arc of radius %f, offset 1, joined to lines', radius => {
    const path = openPath(
      [-5, 0],
      [line([0, 0]), arcTo([0, 2 * radius], Math.PI), line([-5, 2 * radius])],
    );
    const { driven } = compensatePaths([path], { offset: 1, overcut: 0 });
    expect(driven[0]!.segments.map(s => s.kind)).toEqual(['line', 'arc', 'line']);
    const error = tipError([path], driven, 1);
    expect(error.max).toBeLessThanOrEqual(0.0005);
    expect(error.uncutMax).toBeLessThanOrEqual(0.0005);
  });

  it('two arcs that meet in a cusp', () => {
    const path = openPath([0, 0], [arcTo([4, 2], 1.2), arcTo([7, -1], -2)]);
    const { driven } = compensatePaths([path], { offset: 0.25, overcut: 0 });
    expect(tipError([path], driven, 0.25).max).toBeLessThanOrEqual(0.0005);
  });
});

describe('headings', () => {
  const square = rectangle(0, 0, 20, 20);
  it('are handed on from path to path while the blade is lifted', () => {
    const paths = [square, rectangle(40, 0, 20, 20)];
    const blade = { offset: 0.25, overcut: 1 };
    const both = compensatePaths(paths, blade, 0.7);
    const first = compensatePaths([paths[0]!], blade, 0.7);
    const second = compensatePaths([paths[1]!], blade, first.headingAfter);
    expect(both.driven).toEqual([...first.driven, ...second.driven]);
    expect(both.headingAfter).toBe(second.headingAfter);
  });

  it('left over are turned about the start point before the first cut', () => {
    const h = 2;
    const { driven } = compensatePaths([square], { offset: 0.25, overcut: 0 }, h);
    const [path] = driven;
    expect(path!.start[0]).toBeCloseTo(0.25 * Math.cos(h), 12);
    expect(path!.start[1]).toBeCloseTo(0.25 * Math.sin(h), 12);
    expect(path!.segments[0]).toMatchObject({ kind: 'arc', bulge: Math.tan(-h / 4) });
    // The tip stays on the start point while the blade turns.
    const [turn] = dragTip([{ ...path!, segments: [path!.segments[0]!] }], 0.25, h);
    for (const v of turn!.xy) expect(v).toBeCloseTo(0, 9);
  });

  it('the tip goes on past the start by the overcut, in line with the first cut', () => {
    const { driven, headingAfter } = compensatePaths([square], { offset: 0.25, overcut: 1.5 });
    const [track] = dragTip(driven, 0.25, 0);
    expect(track!.xy.at(-2)).toBeCloseTo(1.5, 9);
    expect(track!.xy.at(-1)).toBeCloseTo(0, 9);
    expect(headingAfter).toBeCloseTo(0, 9);
    expect(track!.headingAfter).toBeCloseTo(headingAfter, 9);
  });

  it('an overcut longer than the contour goes round once more, not for ever', () => {
    const tiny = circle([0, 0], 0.1);
    const { driven } = compensatePaths([tiny], { offset: 0.25, overcut: 50 });
    expect(driven[0]!.segments).toHaveLength(4);
  });
});

describe('what cannot be', () => {
  it.each([-1, Number.NaN, Number.POSITIVE_INFINITY])('an offset of %f throws', bad => {
    expect(() => compensatePaths([], { offset: bad, overcut: 0 })).toThrow(RangeError);
    expect(() => compensatePaths([], { offset: 0.2, overcut: bad })).toThrow(RangeError);
    expect(() => dragTip([], bad)).toThrow(RangeError);
  });
  it('an offset of 0 drives the drawing itself', () => {
    const path = rectangle(0, 0, 5, 4);
    const { driven } = compensatePaths([path], { offset: 0, overcut: 0 });
    expect(driven[0]!.segments).toEqual(path.segments);
  });
  it('paths without length come back empty, in their place', () => {
    const nothing = openPath([1, 1], []);
    const { driven } = compensatePaths([nothing, rectangle(0, 0, 5, 4)], {
      offset: 0.25,
      overcut: 0,
    });
    expect(driven.map(p => p.segments.length)).toEqual([0, 7]);
  });
});

describe('the measure itself fails where it must', () => {
  const square = rectangle(0, 0, 20, 20);
  const blade = { offset: 0.25, overcut: 1 };
  const { driven, headingBefore } = compensatePaths([square], blade);

  it('with the wrong offset', () => {
    const error = tipError([square], driven, 0.5, headingBefore);
    expect(error.max).toBeGreaterThan(TIP_MM);
  });
  it('with the wrong first heading', () => {
    expect(tipError([square], driven, 0.25, 1).max).toBeGreaterThan(TIP_MM);
  });
  it('with a part left out, which is then uncut', () => {
    const half = { ...driven[0]!, segments: driven[0]!.segments.slice(0, 3) };
    const error = tipError([square], [half], 0.25, headingBefore);
    expect(error.max).toBeLessThanOrEqual(TIP_MM);
    expect(error.uncutMax).toBeGreaterThan(15);
  });
  /** A slit of 200 mm, cut from x = `from` to x = `to`. */
  const slit = (from: number, to: number) =>
    polyline([
      [from, 0],
      [to, 0],
    ]);
  it('by as much of the drawing as is missed: 1 % of its length is let off', () => {
    const missed = (left: number, right: number) =>
      tipError([slit(0, 200)], [slit(left, 200 - right)], 0);
    expect(missed(0, 1.9).max).toBeLessThan(1e-9);
    expect(missed(0, 1.9).uncutMax).toBeCloseTo(1.9, 9);
    expect(missed(0, 1.9).uncut99).toBeLessThanOrEqual(TIP_MM / 10);
    expect(missed(0.9, 0.9).uncutMax).toBeCloseTo(0.9, 9);
    expect(missed(0.9, 0.9).uncut99).toBeLessThanOrEqual(TIP_MM / 10);
    // 10 mm missed, of which the farther 2 mm are let off.
    const { uncut99 } = missed(0, 10);
    expect(uncut99).toBeGreaterThanOrEqual(8);
    expect(uncut99).toBeLessThanOrEqual(8 * 1.03);
  });
  it('by as much of the track as leaves the drawing, likewise', () => {
    const past = (by: number) => tipError([slit(0, 200)], [slit(0, 200 + by)], 0);
    expect(past(1.9).max).toBeCloseTo(1.9, 9);
    expect(past(1.9).p99).toBeLessThanOrEqual(TIP_MM / 10);
    // Of 210 mm of track the last 2.1 are let off.
    expect(past(10).p99).toBeGreaterThanOrEqual(7.9);
    expect(past(10).p99).toBeLessThanOrEqual(7.9 * 1.03);
    expect(past(10).uncutMax).toBeLessThan(1e-9);
    expect(past(10).uncut99).toBeLessThan(1e-9);
  });
  it('with a path missing or one too many, all measured together', () => {
    const other = rectangle(100, 0, 5, 5);
    expect(tipError([square, other], driven, 0.25, headingBefore).uncutMax).toBeGreaterThan(50);
    const two = compensatePaths([square, other], blade).driven;
    expect(tipError([square], two, 0.25, headingBefore).max).toBeGreaterThan(50);
  });
  it('with a number that is not one', () => {
    const bad = { ...driven[0]!, start: [Number.NaN, 0] as Point };
    expect(tipError([square], [bad], 0.25, headingBefore).max).toBe(Number.POSITIVE_INFINITY);
  });
  it('with nothing driven at all', () => {
    expect(tipError([square], [], 0.25).uncutMax).toBe(Number.POSITIVE_INFINITY);
  });
});
