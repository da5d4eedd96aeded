import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  arcsToCubics,
  circle,
  closedPath,
  contains,
  cubic,
  distance,
  distanceToPath,
  intersections,
  isSimple,
  line,
  openPath,
  type Path,
  type Point,
  pathsOverlap,
  polar,
  polygon,
  polyline,
  rectangle,
  reverse,
  roundedPolygon,
  selfMeeting,
} from '../../src/geom/index.js';
import { anyShape } from '../support/shapes.js';

const SEED = 20267;
const seg = (...p: Point[]): Path => polyline(p);
const sorted = (points: readonly Point[]) =>
  points
    .map(p => p.map(v => Number(v.toFixed(6)) + 0))
    .sort((a, b) => a[0]! - b[0]! || a[1]! - b[1]!);

describe('intersections', () => {
  it.each<[string, Path, Path, Point[]]>([
    ['two lines that cross', seg([0, 0], [10, 10]), seg([0, 10], [10, 0]), [[5, 5]]],
    ['lines that would cross further on', seg([0, 0], [4, 4]), seg([0, 10], [10, 0]), []],
    ['an end on a line: touching counts', seg([0, 0], [5, 5]), seg([0, 10], [10, 0]), [[5, 5]]],
    ['ends that meet', seg([0, 0], [5, 5]), seg([5, 5], [9, 0]), [[5, 5]]],
    ['parallel lines', seg([0, 0], [10, 0]), seg([0, 1], [10, 1]), []],
    [
      'lines along each other: the ends of what they share',
      seg([0, 0], [10, 0]),
      seg([4, 0], [14, 0]),
      [
        [4, 0],
        [10, 0],
      ],
    ],
    [
      'one line inside another',
      seg([0, 0], [10, 0]),
      seg([4, 0], [6, 0]),
      [
        [4, 0],
        [6, 0],
      ],
    ],
    [
      'a line through a circle',
      seg([-9, 3], [9, 3]),
      circle([0, 0], 5),
      [
        [-4, 3],
        [4, 3],
      ],
    ],
    ['a tangent', seg([-9, 5], [9, 5]), circle([0, 0], 5), [[0, 5]]],
    ['a line beside a circle', seg([-9, 5.001], [9, 5.001]), circle([0, 0], 5), []],
    [
      'two circles (3-4-5)',
      circle([-3, 0], 5),
      circle([3, 0], 5),
      [
        [0, -4],
        [0, 4],
      ],
    ],
    ['circles that touch outside', circle([0, 0], 5), circle([8, 6], 5), [[4, 3]]],
    ['circles that touch inside', circle([0, 0], 5), circle([2, 0], 3), [[5, 0]]],
    ['one circle in another', circle([0, 0], 5), circle([0, 0], 3), []],
    [
      'a line that shares a circle’s end points',
      seg([-9, 0], [9, 0]),
      circle([0, 0], 5),
      [
        [-5, 0],
        [5, 0],
      ],
    ],
    [
      'two rectangles with a common edge',
      rectangle(0, 0, 4, 4),
      rectangle(4, 1, 4, 2),
      [
        [4, 1],
        [4, 3],
      ],
    ],
  ])('%s', (_, a, b, points) => {
    expect(sorted(intersections(a, b))).toEqual(sorted(points));
    expect(sorted(intersections(b, a))).toEqual(sorted(points));
    expect(sorted(intersections(reverse(a), b))).toEqual(sorted(points));
  });

  it('arcs of one circle share the ends of the common stretch', () => {
    const a = openPath([5, 0], [{ kind: 'arc', to: [-5, 0], bulge: 1 }]);
    const b = openPath([0, 5], [{ kind: 'arc', to: [0, -5], bulge: 1 }]);
    expect(sorted(intersections(a, b))).toEqual([
      [-5, 0],
      [0, 5],
    ]);
  });

  it('a cubic and a line: the S crosses three times', () => {
    // (0,0) (10,30) (20,−30) (30,0) is odd about (15, 0): y = 90 t (1−t) (1−2t), zero at 0, ½, 1.
    const s = openPath([0, 0], [cubic([10, 30], [20, -30], [30, 0])]);
    expect(sorted(intersections(s, seg([-5, 0], [35, 0])))).toEqual([
      [0, 0],
      [15, 0],
      [30, 0],
    ]);
    // y is largest where 1 − 6t + 6t² = 0: 90 · √3/18 = 5√3.
    expect(
      intersections(s, seg([-5, 5 * Math.sqrt(3) + 1e-4], [35, 5 * Math.sqrt(3) + 1e-4])),
    ).toEqual([]);
    expect(intersections(s, seg([-5, 8.6], [35, 8.6]))).toHaveLength(2);
  });

  it('two cubics meet nine times: y = T₃(x) and x = T₃(y) where x = T₉(x)', () => {
    // Chebyshev's cosines: x = cos(kπ/4) and cos(kπ/5). T₃ on [−1, 1] has Bernstein form −1, 5, −5, 1.
    const p: Point[] = [
      [-10, -10],
      [-10 / 3, 50],
      [10 / 3, -50],
      [10, 10],
    ];
    const [a, b, c, d] = p as [Point, Point, Point, Point];
    const flip = ([x, y]: Point): Point => [y, x];
    const graph = openPath(a, [cubic(b, c, d)]);
    const turned = openPath(flip(a), [cubic(flip(b), flip(c), flip(d))]);
    const xs = [0, 1, 2, 3, 4].map(k => 10 * Math.cos((k * Math.PI) / 4));
    xs.push(...[1, 2, 3, 4].map(k => 10 * Math.cos((k * Math.PI) / 5)));
    const found = intersections(graph, turned)
      .map(q => q[0])
      .sort((x, y) => x - y);
    expect(found).toEqual(xs.sort((x, y) => x - y).map(x => expect.closeTo(x, 6)));
  });

  it('a cubic and a circle: every point on both', () => {
    const s = openPath([-20, -20], [cubic([40, -30], [-40, 30], [20, 20])]);
    const points = intersections(s, circle([0, 0], 12));
    expect(points.length).toBeGreaterThanOrEqual(2);
    for (const p of points) {
      expect(distance(p, [0, 0])).toBeCloseTo(12, 6);
      expect(distanceToPath(p, s)).toBeLessThan(1e-6);
    }
  });

  it('an arc that is nearly a line meets like one', () => {
    const bow = openPath([0, 0], [{ kind: 'arc', to: [100, 0], bulge: 1e-9 }]);
    expect(sorted(intersections(bow, seg([30, -5], [30, 5])))).toEqual([[30, 0]]);
    const flat = openPath([0, 0], [{ kind: 'arc', to: [100, 0], bulge: 0 }]);
    expect(sorted(intersections(flat, seg([30, -5], [30, 5])))).toEqual([[30, 0]]);
  });

  it('lie on both, and two closed shapes that cross do so an even number of times', () => {
    fc.assert(
      fc.property(anyShape, anyShape, (a, b) => {
        const points = intersections(a, b);
        for (const p of points) {
          expect(distanceToPath(p, a)).toBeLessThanOrEqual(1e-6);
          expect(distanceToPath(p, b)).toBeLessThanOrEqual(1e-6);
        }
        const soft = intersections(arcsToCubics(a), b);
        if (points.length === 0) {
          const where = b.segments.map(s => contains(a, s.to));
          expect(new Set(where).size).toBe(1);
        } else expect(soft.length).toBeGreaterThan(0);
      }),
      { seed: SEED, numRuns: 200 },
    );
  });
});

describe('isSimple', () => {
  const bow = polygon([
    [0, 0],
    [10, 10],
    [10, 0],
    [0, 10],
  ]);
  it('holds for outlines, also rounded, soft and open ones', () => {
    const corners: Point[] = [
      [0, 0],
      [30, 0],
      [30, 20],
      [0, 20],
    ];
    for (const path of [
      rectangle(0, 0, 5, 5),
      circle([0, 0], 5),
      arcsToCubics(circle([0, 0], 5)),
      roundedPolygon(corners, 10),
      roundedPolygon(corners, 0.001),
      seg([0, 0], [5, 0], [5, 5]),
    ]) {
      expect(selfMeeting(path)).toBeUndefined();
      expect(isSimple(reverse(path))).toBe(true);
    }
  });
  it('says where a path crosses itself', () => {
    expect(selfMeeting(bow)).toEqual([expect.closeTo(5, 9), expect.closeTo(5, 9)]);
  });
  it.each<[string, Path]>([
    [
      'passes through a corner again',
      polygon([
        [0, 0],
        [4, 0],
        [4, 4],
        [2, 2],
        [0, 4],
        [-2, 2],
        [2, 2],
        [1, 1],
      ]),
    ],
    [
      'touches its own edge',
      polygon([
        [0, 0],
        [10, 0],
        [10, 10],
        [5, 0],
        [0, 10],
      ]),
    ],
    ['doubles back', seg([0, 0], [10, 0], [4, 0])],
    ['doubles back by a hair', seg([0, 0], [10, 0], [9.9995, 0])],
    [
      'runs along itself',
      polygon([
        [0, 0],
        [10, 0],
        [10, 5],
        [5, 5],
        [5, 0],
        [0, 0.5],
      ]),
    ],
    ['a cubic with a loop', openPath([0, 0], [cubic([40, 30], [-30, 30], [10, 0])])],
    [
      'goes round twice',
      closedPath([5, 0], [...circle([0, 0], 5).segments, ...circle([0, 0], 5).segments]),
    ],
    ['a star', polygon([0, 2, 4, 1, 3].map(k => polar(10, (k * 2 * Math.PI) / 5)))],
    [
      'an arc back over its chord',
      openPath([0, 0], [{ kind: 'arc', to: [10, 0], bulge: 1 }, line([0, 0])]),
    ],
  ])('does not hold for one that %s', (_, path) => {
    expect(isSimple(path)).toBe(false);
    expect(isSimple(reverse(path))).toBe(false);
  });
});

describe('pathsOverlap', () => {
  it('measures the shared area against the tolerance; touching is nothing', () => {
    const a = rectangle(0, 0, 10, 10);
    expect(pathsOverlap(a, rectangle(10, 0, 5, 5), 0)).toBe(false);
    expect(pathsOverlap(a, rectangle(9, 9, 5, 5), 0.9)).toBe(true);
    expect(pathsOverlap(a, rectangle(9, 9, 5, 5), 1.1)).toBe(false);
    expect(pathsOverlap(a, circle([5, 5], 2), 12)).toBe(true);
    expect(pathsOverlap(a, circle([50, 5], 2), 0)).toBe(false);
  });
});
