import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  arcsToCubics,
  circle,
  clockwise,
  contains,
  coversAlong,
  cubic,
  cutPathAt,
  distance,
  isOnPath,
  line,
  openPath,
  type Path,
  type Point,
  pathLength,
  pointAt,
  polar,
  polygon,
  rectangle,
  regionArea,
  regionContains,
  reverse,
  rotation,
  roundedPolygon,
  steps,
  transform,
  windingOf,
} from '../../src/geom/index.js';
import { ON_PATH_MM } from '../../src/units/tolerances.js';
import { deviation } from '../support/deviation.js';

const SEED = 20263;
const star = polygon([0, 1, 2, 3, 4].map(k => polar(10, Math.PI / 2 + (k * 4 * Math.PI) / 5)));
const corners: Point[] = [
  [0, 0],
  [30, 0],
  [30, 20],
  [0, 20],
];

describe('contains', () => {
  it.each<[string, Path, Point, string]>([
    ['middle of a rectangle', rectangle(0, 0, 30, 20), [15, 10], 'in'],
    ['level with its corners, left of it', rectangle(0, 0, 30, 20), [-5, 20], 'out'],
    ['level with its foot, left of it', rectangle(0, 0, 30, 20), [-5, 0], 'out'],
    ['its corner', rectangle(0, 0, 30, 20), [30, 20], 'on'],
    ['its edge', rectangle(0, 0, 30, 20), [30, 7], 'on'],
    [
      'within a micrometre’s thousandth of its edge',
      rectangle(0, 0, 30, 20),
      [30.0000009, 7],
      'on',
    ],
    ['a hair outside', rectangle(0, 0, 30, 20), [30.00001, 7], 'out'],
    ['level with a circle’s top', circle([0, 0], 5), [-5, 5], 'out'],
    ['a circle’s top', circle([0, 0], 5), [0, 5], 'on'],
    ['just inside a circle’s top', circle([0, 0], 5), [0, 4.99], 'in'],
    ['level with a circle’s middle, left', circle([0, 0], 5), [-6, 0], 'out'],
    ['the rounded-off corner', roundedPolygon(corners, 5), [0.5, 0.5], 'out'],
    ['inside the rounded corner', roundedPolygon(corners, 5), [2, 2], 'in'],
    ['middle of a star that crosses itself', star, [0, 0], 'in'],
    ['a notch of the star', star, polar(6, -Math.PI / 2), 'out'],
    ['nowhere', rectangle(0, 0, 30, 20), [Number.NaN, 3], 'out'],
  ])('%s is %3$s', (_, path, p, where) => {
    expect(contains(path, p)).toBe(where);
    expect(contains(reverse(path), p)).toBe(where);
    expect(contains(arcsToCubics(path), p)).toBe(where);
  });

  it('asks for a closed path', () => {
    expect(() => contains(openPath([0, 0], [line([1, 1])]), [0, 0])).toThrow(RangeError);
  });

  it('counts the turns: twice round the middle of a star', () => {
    expect(windingOf(star)([0, 0])).toBe(2);
    expect(windingOf(reverse(star))([0, 0])).toBe(-2);
    expect(windingOf(star, circle([0, 0], 1))([0, 0])).toBe(3);
    expect(windingOf(star)(polar(8, Math.PI / 2))).toBe(1);
  });

  it('agrees with the circle’s own equation, and follows a turn', () => {
    const number = fc.double({ min: -8, max: 8, noNaN: true });
    fc.assert(
      fc.property(number, number, fc.double({ min: 0, max: 7, noNaN: true }), (x, y, angle) => {
        const gap = distance([x, y], [1, 2]) - 5;
        fc.pre(Math.abs(gap) > 1e-5);
        const p: Point = [x, y];
        const ring = circle([1, 2], 5);
        expect(contains(ring, p)).toBe(gap < 0 ? 'in' : 'out');
        const m = rotation(angle);
        const turned: Point = [m[0] * x + m[2] * y + m[4], m[1] * x + m[3] * y + m[5]];
        expect(contains(transform(ring, m), turned)).toBe(gap < 0 ? 'in' : 'out');
      }),
      { seed: SEED, numRuns: 300 },
    );
  });

  it('of a region: holes are out, their lines on; its area is less by them', () => {
    const region = { outer: rectangle(0, 0, 30, 20), holes: [clockwise(circle([10, 10], 4))] };
    expect(regionContains(region, [10, 10])).toBe('out');
    expect(regionContains(region, [14, 10])).toBe('on');
    expect(regionContains(region, [20, 10])).toBe('in');
    expect(regionContains(region, [31, 10])).toBe('out');
    expect(regionArea(region)).toBeCloseTo(600 - Math.PI * 16, 9);
  });
});

const wavy: Path = openPath(
  [0, 0],
  [line([10, 0]), { kind: 'arc', to: [20, 0], bulge: -1 }, cubic([25, 5], [30, -5], [40, 0])],
);

describe('cutPathAt', () => {
  it('makes corners of the points, to the bit, and moves nothing', () => {
    const points: Point[] = [[3, 0], [7.5, 0], polar(5, 2, [15, 0])];
    points.push(pointAt([...steps(wavy)][2]!, 0.3));
    const cut = cutPathAt(wavy, points);
    expect(cut.segments).toHaveLength(7);
    for (const p of points) expect(cut.segments.some(s => s.to === p)).toBe(true);
    expect(deviation(cut, wavy)).toBeLessThan(1e-9);
    expect(pathLength(cut)).toBeCloseTo(pathLength(wavy), 9);
  });
  it('needs no cut at a corner that is there', () => {
    expect(
      cutPathAt(wavy, [
        [10, 0],
        [0, 0],
        [40, 0],
        [20.0000001, 0],
      ]),
    ).toBe(wavy);
  });
  it('cuts once where the same point is given twice', () => {
    expect(
      cutPathAt(wavy, [
        [5, 0],
        [5, 0],
      ]).segments,
    ).toHaveLength(4);
  });
  it('cuts both passes where the path crosses itself', () => {
    const middle = star.segments.length;
    const [a, b] = [...steps(star)];
    const x = a!.from;
    expect(x).toBe(star.start);
    // The star's first edge crosses its third and fourth; the inner pentagon has radius 10 (3 − √5)/2.
    const inner = (10 * (3 - Math.sqrt(5))) / 2;
    const p = polar(inner, Math.PI / 2 + Math.PI / 5);
    expect(cutPathAt(star, [p]).segments).toHaveLength(middle + 2);
    expect(b).toBeDefined();
  });
  it('throws for a point that is off the path, and says how far', () => {
    expect(() => cutPathAt(wavy, [[5, 0.5]])).toThrow(/0\.5 mm off/);
    expect(() => cutPathAt(wavy, [[Number.NaN, 0]])).toThrow(RangeError);
  });
  it('keeps a closed path closed, its area and length (any points of a rounded polygon)', () => {
    const ring = roundedPolygon(corners, 4);
    const all = [...steps(ring)];
    const place = fc.tuple(fc.nat(all.length - 1), fc.double({ min: 0, max: 1, noNaN: true }));
    fc.assert(
      fc.property(fc.array(place, { maxLength: 8 }), places => {
        const points = places.map(([i, t]) => pointAt(all[i]!, t));
        const cut = cutPathAt(ring, points);
        expect(pathLength(cut)).toBeCloseTo(pathLength(ring), 6);
        expect(cut.segments.at(-1)!.to).toEqual(cut.start);
        for (const p of points) {
          const ends = cut.segments.map(s => distance(s.to, p));
          expect(Math.min(...ends)).toBeLessThanOrEqual(1e-6);
        }
      }),
      { seed: SEED, numRuns: 100 },
    );
  });
});

describe('coversAlong', () => {
  const ring = roundedPolygon(corners, 4);
  it('finds an edge on the path, either way round, and over corners', () => {
    expect(coversAlong(openPath([10, 0], [line([20, 0])]), ring)).toBe(true);
    expect(coversAlong(openPath([20, 0], [line([10, 0])]), ring)).toBe(true);
    const over = openPath(
      [20, 0],
      [line([26, 0]), { kind: 'arc', to: [30, 4], bulge: Math.tan(Math.PI / 8) }],
    );
    expect(coversAlong(over, ring)).toBe(true);
    expect(coversAlong(reverse(over), ring)).toBe(true);
  });
  it('does not take an edge that leaves the path, is longer, or is beside it', () => {
    expect(coversAlong(openPath([10, 0], [line([29, 0])]), ring)).toBe(false);
    expect(coversAlong(openPath([20, 0], [line([26, 0]), line([30, 4])]), ring)).toBe(false);
    expect(coversAlong(openPath([10, 2 * ON_PATH_MM], [line([20, 2 * ON_PATH_MM])]), ring)).toBe(
      false,
    );
    expect(coversAlong(openPath([10, ON_PATH_MM / 2], [line([20, 0])]), ring)).toBe(true);
  });
  it('sees a notch however narrow', () => {
    const notched = polygon([
      ...corners.slice(0, 1),
      [15, 0],
      [15.01, 3],
      [15.02, 0],
      ...corners.slice(1),
    ]);
    expect(coversAlong(openPath([5, 0], [line([25, 0])]), notched)).toBe(false);
    expect(coversAlong(openPath([16, 0], [line([25, 0])]), notched)).toBe(true);
  });
  it('follows cubics', () => {
    const soft = arcsToCubics(circle([0, 0], 10));
    const part = openPath(soft.start, soft.segments.slice(0, 3));
    expect(coversAlong(part, soft)).toBe(true);
    expect(coversAlong(part, circle([0, 0], 10))).toBe(false);
    expect(isOnPath([10, 0], soft)).toBe(true);
    expect(isOnPath([10.001, 0], soft)).toBe(false);
  });
});
