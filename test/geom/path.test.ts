import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  apply,
  arcShape,
  arcThrough,
  arcTo,
  bounds,
  circle,
  clockwise,
  closedPath,
  compose,
  counterClockwise,
  cubic,
  distance,
  endOf,
  endTangent,
  invert,
  isFinitePath,
  line,
  openPath,
  type Path,
  type Point,
  partOf,
  pathLength,
  pointAlong,
  pointAt,
  polar,
  polygon,
  polyline,
  rectangle,
  reverse,
  rotation,
  roundedPolygon,
  scaling,
  signedArea,
  splitStep,
  startingAt,
  startTangent,
  stepLength,
  steps,
  tangentAt,
  transform,
  translation,
  vertices,
  wrapAngle,
} from '../../src/geom/index.js';
import { deviation } from '../support/deviation.js';
import { anyShape, blob } from '../support/shapes.js';

const SEED = 20271;
const rad = (degrees: number) => (degrees * Math.PI) / 180;
const regular = (n: number, R: number): Path =>
  polygon(Array.from({ length: n }, (_, i) => polar(R, (i * 2 * Math.PI) / n)));

describe('arcs by their bulge', () => {
  // check-values.md 4 (help.autodesk.com GetBulge; ezdxf lwpolyline, tests/test_06_math/test_601_bulge.py).
  it.each<[number, number]>([
    [30, 0.1316524976],
    [45, 0.1989123674],
    [60, 0.2679491924],
    [90, 0.4142135624],
    [120, 0.5773502692],
    [180, 1],
    [270, 2.4142135624],
    [106.26020471, 0.5],
    [56.14497387, 0.25],
  ])('%d° has bulge %d, clockwise its negative', (angle, bulge) => {
    const up = arcTo([1, 0], rad(angle));
    expect(up.kind === 'arc' && up.bulge).toBeCloseTo(bulge, 8);
    const down = arcTo([1, 0], -rad(angle));
    expect(down.kind === 'arc' && down.bulge).toBeCloseTo(-bulge, 8);
  });
  it.each<[Point, Point, number, number, Point, Point, number, number]>([
    [[0, 0], [10, 0], 0.5, 6.25, [5, 3.75], [5, -2.5], 106.260205, 11.59119],
    [[0, 0], [10, 0], -0.5, 6.25, [5, -3.75], [5, 2.5], -106.260205, 11.59119],
    [[0, 0], [10, 0], 1, 5, [5, 0], [5, -5], 180, 15.707963],
    [[10, 0], [0, 10], Math.tan(Math.PI / 8), 10, [0, 0], [7.071068, 7.071068], 90, 15.707963],
    [[0, 0], [100, 0], 0.1, 252.5, [50, 247.5], [50, -5], 22.842373, 100.665339],
  ])('%j to %j by %d', (from, to, bulge, radius, centre, middle, angle, length) => {
    const segment = { kind: 'arc', to, bulge } as const;
    const shape = arcShape(from, segment);
    expect(shape.radius).toBeCloseTo(radius, 9);
    expect(distance(shape.centre, centre)).toBeLessThan(1e-9);
    expect(distance(pointAt({ from, segment }, 0.5), middle)).toBeLessThan(1e-6);
    expect((shape.sweep * 180) / Math.PI).toBeCloseTo(angle, 6);
    expect(stepLength({ from, segment })).toBeCloseTo(length, 6);
    expect(pointAt({ from, segment }, 0)).toEqual(from);
    expect(distance(pointAt({ from, segment }, 1), to)).toBeLessThan(1e-12);
  });
  it('an arc through three points: (0,0)-(1,0) by (0.5,−0.5) has bulge 1 (ezdxf)', () => {
    expect(arcThrough([0, 0], [0.5, -0.5], [1, 0])!.bulge).toBeCloseTo(1, 12);
    expect(arcThrough([0, 0], [0.5, 0], [1, 0])).toBeUndefined();
    fc.assert(
      fc.property(
        fc.double({ min: -6, max: 6, noNaN: true }).filter(s => Math.abs(s) > 0.01),
        fc.double({ min: 0.05, max: 0.95, noNaN: true }),
        fc.double({ min: 0, max: 6, noNaN: true }),
        (sweep, t, start) => {
          const from = polar(7, start, [2, 3]);
          const arc = arcTo(polar(7, start + sweep, [2, 3]), sweep);
          const found = arcThrough(from, pointAt({ from, segment: arc }, t), arc.to)!;
          expect(found.bulge / (arc.kind === 'arc' ? arc.bulge : 0)).toBeCloseTo(1, 5);
        },
      ),
      { seed: SEED },
    );
  });
  it('has no shape without chord or bulge', () => {
    expect(() => arcShape([0, 0], { kind: 'arc', to: [0, 0], bulge: 1 })).toThrow(RangeError);
    expect(() => arcShape([0, 0], { kind: 'arc', to: [1, 0], bulge: 0 })).toThrow(RangeError);
    expect(() => arcShape([0, 0], { kind: 'arc', to: [1, 0], bulge: Number.NaN })).toThrow(
      RangeError,
    );
  });
});

describe('lengths and areas', () => {
  // check-values.md 3.2 "closed-form checks": cubics; 8: regular polygons.
  it('cubics of known length', () => {
    expect(pathLength(openPath([0, 0], [cubic([0, 100], [100, 100], [100, 0])]))).toBeCloseTo(
      200,
      4,
    );
    // The quadratic (0,0)(50,100)(100,0) raised to a cubic.
    const quadratic = cubic([100 / 3, 200 / 3], [200 / 3, 200 / 3], [100, 0]);
    expect(pathLength(openPath([0, 0], [quadratic]))).toBeCloseTo(147.894286, 6);
    const k = 55.22847498307936;
    expect(pathLength(openPath([100, 0], [cubic([100, k], [k, 100], [0, 100])]))).toBeCloseTo(
      157.10167,
      5,
    );
  });
  it.each<[number, number]>([
    [3, 1.299038106],
    [4, 2],
    [5, 2.377641291],
    [6, 2.598076211],
    [8, 2.828427125],
    [10, 2.938926261],
    [12, 3],
  ])('a regular polygon of %d corners, R = 1', (n, area) => {
    expect(signedArea(regular(n, 1))).toBeCloseTo(area, 9);
    expect(signedArea(reverse(regular(n, 1)))).toBeCloseTo(-area, 9);
  });
  it('a five-pointed star, inner radius (3 − √5)/2 of the outer: 1.122569941', () => {
    const inner = (3 - Math.sqrt(5)) / 2;
    const star = polygon(
      Array.from({ length: 10 }, (_, i) => polar(i % 2 ? inner : 1, (i * Math.PI) / 5)),
    );
    expect(signedArea(star)).toBeCloseTo(1.122569941, 9);
  });
  it('circles, also of arcs that are nearly lines', () => {
    expect(signedArea(circle([300, -200], 7))).toBeCloseTo(49 * Math.PI, 8);
    const n = 40_000;
    const p = Array.from({ length: n }, (_, i) => polar(50, (i * 2 * Math.PI) / n));
    const fine = closedPath(
      p[0]!,
      p.map((_, i) => arcTo(p[(i + 1) % n]!, (2 * Math.PI) / n)),
    );
    expect(signedArea(fine)).toBeCloseTo(2500 * Math.PI, 6);
    expect(pathLength(fine)).toBeCloseTo(100 * Math.PI, 6);
  });
  it('a cubic’s area is that of its own flattening', () => {
    const shape = blob([5, 5], [10, 7, 12, 6, 9]);
    const points = [...steps(shape)].flatMap(s =>
      Array.from({ length: 2000 }, (_, i) => pointAt(s, i / 2000)),
    );
    expect(signedArea(shape)).toBeCloseTo(signedArea(polygon(points)), 3);
  });
  it('bounds are exact where a curve turns', () => {
    const { minX, minY, maxX, maxY } = bounds(circle([1, 2], 3));
    for (const [i, v] of [minX, minY, maxX, maxY].entries())
      expect(v).toBeCloseTo([-2, -1, 4, 5][i]!, 12);
    const arch = bounds(openPath([0, 0], [cubic([0, 100], [100, 100], [100, 0])]));
    expect(arch.maxY).toBeCloseTo(75, 12);
    expect(() => bounds()).toThrow(RangeError);
    expect(() => bounds(openPath([Number.NaN, 0], []))).toThrow(RangeError);
  });
});

describe('rounded polygons', () => {
  const corners: Point[] = [
    [0, 0],
    [60, 0],
    [60, 40],
    [0, 40],
  ];
  it('lose (4 − π) r² of their area at right angles, and keep their tangents', () => {
    const path = roundedPolygon(corners, 6);
    expect(signedArea(path)).toBeCloseTo(2400 - (4 - Math.PI) * 36, 9);
    expect(path.segments.map(s => s.kind).join()).toBe('line,arc,line,arc,line,arc,line,arc');
    expect(path.segments.at(-1)!.to).toBe(path.start);
  });
  it('leave corners of radius 0 sharp, and round inner corners inward', () => {
    const path = roundedPolygon(
      [
        [0, 0],
        [30, 0],
        [30, 10],
        [10, 10],
        [10, 30],
        [0, 30],
      ],
      [0, 0, 0, 5, 0, 0],
    );
    expect(path.segments.filter(s => s.kind === 'arc')).toHaveLength(1);
    expect(signedArea(path)).toBeCloseTo(500 + (1 - Math.PI / 4) * 25, 9);
  });
  it('may use up an edge, but no more', () => {
    expect(signedArea(roundedPolygon(corners, 20))).toBeCloseTo(20 * 40 + Math.PI * 400, 9);
    expect(() => roundedPolygon(corners, 20.001)).toThrow(/do not fit an edge of 40 mm/);
    expect(() => roundedPolygon(corners, Number.NaN)).toThrow(RangeError);
  });
});

describe('paths', () => {
  it('close by a line, or by moving an end that is there already', () => {
    expect(closedPath([0, 0], [line([5, 0]), line([5, 5])]).segments).toHaveLength(3);
    const near = closedPath([0, 0], [line([5, 0]), line([5, 5]), line([1e-7, 0])]);
    expect(near.segments).toHaveLength(3);
    expect(near.segments.at(-1)!.to).toEqual([0, 0]);
    expect(() => closedPath([0, 0], [])).toThrow(RangeError);
    expect(() => polyline([[0, 0]])).toThrow(RangeError);
  });
  it('reverse twice is the path itself; once turns its area round', () => {
    fc.assert(
      fc.property(anyShape, shape => {
        expect(reverse(reverse(shape))).toEqual(shape);
        expect(signedArea(reverse(shape))).toBeCloseTo(-signedArea(shape), 9);
        expect(counterClockwise(reverse(shape))).toEqual(shape);
        expect(signedArea(clockwise(shape))).toBeLessThan(0);
      }),
      { seed: SEED, numRuns: 60 },
    );
  });
  it('begin at any corner', () => {
    const path = roundedPolygon(
      [
        [0, 0],
        [60, 0],
        [60, 40],
        [0, 40],
      ],
      6,
    );
    const other = startingAt(path, 3);
    expect(other.start).toBe(path.segments[2]!.to);
    expect(startingAt(other, -3)).toEqual(path);
    expect(vertices(other)).toHaveLength(8);
    expect(signedArea(other)).toBeCloseTo(signedArea(path), 9);
    expect(() => startingAt(openPath([0, 0], [line([1, 1])]), 1)).toThrow(RangeError);
  });
  it('follow turns, shifts, mirrors and scales: length, area, points', () => {
    const number = fc.double({ min: -9, max: 9, noNaN: true });
    fc.assert(
      fc.property(
        anyShape,
        number,
        number,
        number,
        fc.boolean(),
        (shape, angle, x, k, mirrored) => {
          fc.pre(Math.abs(k) > 0.1);
          const m = compose(
            translation(x, -x),
            compose(rotation(angle, [x, 1]), scaling(k, mirrored ? -k : k)),
          );
          const moved = transform(shape, m);
          expect(pathLength(moved)).toBeCloseTo(Math.abs(k) * pathLength(shape), 6);
          expect(signedArea(moved)).toBeCloseTo((mirrored ? -1 : 1) * k * k * signedArea(shape), 5);
          for (const [i, step] of [...steps(moved)].entries()) {
            const was = apply(m, pointAt([...steps(shape)][i]!, 0.3));
            expect(distance(pointAt(step, 0.3), was)).toBeLessThan(1e-9);
          }
          expect(deviation(transform(moved, invert(m)), shape, 0.01)).toBeLessThan(1e-9);
        },
      ),
      { seed: SEED, numRuns: 40 },
    );
    expect(() => invert([1, 2, 2, 4, 0, 0])).toThrow(RangeError);
  });
  it('know what is not finite', () => {
    expect(isFinitePath(rectangle(0, 0, 1, 1))).toBe(true);
    expect(isFinitePath(openPath([0, 0], [line([Number.NaN, 0])]))).toBe(false);
    expect(
      isFinitePath(
        openPath([0, 0], [{ kind: 'arc', to: [1, 0], bulge: Number.POSITIVE_INFINITY }]),
      ),
    ).toBe(false);
    expect(isFinitePath(openPath([0, 0], [cubic([0, Number.NaN], [1, 1], [2, 2])]))).toBe(false);
  });
  it('have directions, also with a zero handle', () => {
    const soft = openPath([0, 0], [cubic([0, 0], [5, 5], [10, 5])]);
    expect(startTangent(soft)).toEqual([
      expect.closeTo(Math.SQRT1_2, 12),
      expect.closeTo(Math.SQRT1_2, 12),
    ]);
    expect(endTangent(openPath([0, 0], [cubic([5, 0], [9, 9], [9, 9])]))[1]).toBeGreaterThan(0.9);
    expect(() => startTangent(openPath([0, 0], []))).toThrow(RangeError);
    expect(() => endTangent(openPath([0, 0], []))).toThrow(RangeError);
  });
  it('angles wrap into (−π, π]', () => {
    expect(wrapAngle(Math.PI)).toBeCloseTo(Math.PI, 12);
    expect(wrapAngle(-Math.PI)).toBeCloseTo(Math.PI, 12);
    expect(wrapAngle(7 * Math.PI)).toBeCloseTo(Math.PI, 9);
    expect(wrapAngle(-0.5 - 4 * Math.PI)).toBeCloseTo(-0.5, 9);
  });
});

describe('parts of a path', () => {
  const path = openPath(
    [0, 0],
    [line([10, 0]), { kind: 'arc', to: [20, 0], bulge: -1 }, cubic([25, 5], [30, -5], [40, 0])],
  );
  const t = fc.double({ min: 0.001, max: 0.999, noNaN: true });
  it('a step split anywhere runs through the same points and keeps its ends to the bit', () => {
    fc.assert(
      fc.property(fc.nat(2), t, t, (i, cut, at) => {
        const step = [...steps(path)][i]!;
        const [a, b] = splitStep(step, cut);
        expect(a.from).toBe(step.from);
        expect(b.segment.to).toBe(step.segment.to);
        expect(b.from).toEqual(a.segment.to);
        expect(distance(pointAt(a, at), pointAt(step, cut * at))).toBeLessThan(1e-9);
        expect(distance(pointAt(b, at), pointAt(step, cut + (1 - cut) * at))).toBeLessThan(1e-9);
        expect(stepLength(a) + stepLength(b)).toBeCloseTo(stepLength(step), 6);
        expect(tangentAt(a, 1)[0]).toBeCloseTo(tangentAt(step, cut)[0], 6);
      }),
      { seed: SEED },
    );
    expect(() => splitStep([...steps(path)][0]!, 0)).toThrow(RangeError);
    expect(() => splitStep([...steps(path)][0]!, Number.NaN)).toThrow(RangeError);
  });
  it('by length: as long as asked for, end to end the whole', () => {
    const whole = pathLength(path);
    fc.assert(
      fc.property(t, cut => {
        const at = cut * whole;
        const [a, b] = [partOf(path, 0, at), partOf(path, at, whole)];
        expect(pathLength(a)).toBeCloseTo(at, 6);
        expect(pathLength(b)).toBeCloseTo(whole - at, 6);
        expect(distance(endOf(a), b.start)).toBeLessThan(1e-6);
        expect(distance(pointAlong(path, at).point, b.start)).toBeLessThan(1e-6);
        expect(deviation(a, path) < 1e-6 || pathLength(a) < whole).toBe(true);
      }),
      { seed: SEED, numRuns: 60 },
    );
    expect(() => partOf(path, 5, 5)).toThrow(RangeError);
  });
  it('a point along it, with its direction', () => {
    expect(pointAlong(path, 0)).toEqual({ point: [0, 0], tangent: [1, 0] });
    const top = pointAlong(path, 10 + (5 * Math.PI) / 2);
    expect(distance(top.point, [15, 5])).toBeLessThan(1e-9);
    expect(top.tangent[0]).toBeCloseTo(1, 9);
    // At a corner the direction is that of what follows.
    expect(
      pointAlong(
        polyline([
          [0, 0],
          [10, 0],
          [10, 5],
        ]),
        10,
      ).tangent,
    ).toEqual([0, 1]);
    expect(pointAlong(path, pathLength(path)).point).toEqual([40, 0]);
    expect(() => pointAlong(path, pathLength(path) + 1)).toThrow(RangeError);
    expect(() => pointAlong(path, -1)).toThrow(RangeError);
    expect(() => pointAlong(path, Number.NaN)).toThrow(RangeError);
  });
});
