import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { clipper } from '../../src/geom/heavy.js';
import {
  circle,
  clockwise,
  closedPath,
  counterClockwise,
  cubic,
  distanceToPath,
  fitArcs,
  flatten,
  growRegions,
  isSimple,
  type Join,
  offsetRegions,
  type Path,
  type Point,
  pathLength,
  pointAt,
  polar,
  polygon,
  type Region,
  rectangle,
  regionArea,
  regionContains,
  rotation,
  roundedPolygon,
  signedArea,
  steps,
  subtractRegions,
  transform,
  uniteRegions,
} from '../../src/geom/index.js';
import { windingOffset } from '../../src/geom/offset.js';
import { polygonOffset } from '../../src/geom/polygons.js';
import { FIT_MM } from '../../src/units/tolerances.js';
import { anyShape } from '../support/shapes.js';

const SEED = 20266;
const region = (outer: Path, ...holes: Path[]): Region => ({ outer, holes });
const area = (regions: readonly Region[]) => regions.reduce((sum, r) => sum + regionArea(r), 0);
const all = (regions: readonly Region[]) => regions.flatMap(r => [r.outer, ...r.holes]);
const hexagon = polygon(Array.from({ length: 6 }, (_, i) => polar(20, (i * Math.PI) / 3)));
const heart = closedPath(
  [0, -17],
  [cubic([30, 5], [15, 25], [0, 8]), cubic([-15, 25], [-30, 5], [0, -17])],
);

describe('offsets', () => {
  // check-values.md 8, Steiner: area A + L d + π d², perimeter L + 2π d.
  it.each<[string, Path, number, number, number]>([
    ['a square of 40 by 5', rectangle(0, 0, 40, 40), 5, 2478.539816, 191.415927],
    ['a hexagon of 20 by 3', hexagon, 3, 1427.504818, 138.849556],
    [
      'a 3-4-5 triangle by 1',
      polygon([
        [0, 0],
        [4, 0],
        [0, 3],
      ]),
      1,
      21.141592654,
      18.283185307,
    ],
  ])('%s: Steiner’s area and perimeter', (_, path, d, A, L) => {
    const grown = offsetRegions([region(path)], d, 'round');
    expect(grown).toHaveLength(1);
    expect(area(grown)).toBeCloseTo(A, 6);
    expect(pathLength(grown[0]!.outer)).toBeCloseTo(L, 6);
  });
  // check-values.md 8: mitred offsets of the square.
  it('mitres: the square of 40 less 5 has 900, plus 5 has 2500', () => {
    expect(area(offsetRegions([region(rectangle(0, 0, 40, 40))], -5, 'mitre'))).toBeCloseTo(900, 9);
    expect(area(offsetRegions([region(rectangle(0, 0, 40, 40))], 5, 'mitre'))).toBeCloseTo(2500, 9);
  });
  it('shrinks away to nothing, without a remnant', () => {
    for (const d of [-20, -20.5, -25, -100]) {
      expect(offsetRegions([region(rectangle(0, 0, 40, 60))], d, 'round')).toEqual([]);
      expect(offsetRegions([region(circle([1, 1], 20))], d, 'round')).toEqual([]);
    }
  });
  it('an overlay’s rounded corners follow the panel’s: radius 6 becomes 4, and 8 leaves corners', () => {
    const panel = roundedPolygon(
      [
        [0, 0],
        [60, 0],
        [60, 40],
        [0, 40],
      ],
      6,
    );
    const [smaller] = offsetRegions([region(panel)], -2, 'mitre');
    expect(
      smaller!.outer.segments
        .map(s => s.kind)
        .sort()
        .join(),
    ).toBe('arc,arc,arc,arc,line,line,line,line');
    expect(regionArea(smaller!)).toBeCloseTo(56 * 36 - (4 - Math.PI) * 16, 9);
    const [sharp] = offsetRegions([region(panel)], -8, 'mitre');
    expect(sharp!.outer.segments).toHaveLength(4);
    expect(regionArea(sharp!)).toBeCloseTo(44 * 24, 9);
  });
  it('grows holes smaller and closes them', () => {
    const ring = region(circle([0, 0], 10), clockwise(circle([0, 0], 5)));
    expect(area(offsetRegions([ring], 1, 'round'))).toBeCloseTo(Math.PI * (121 - 16), 9);
    expect(offsetRegions([ring], 6, 'round')[0]!.holes).toEqual([]);
    expect(offsetRegions([ring], -2.6, 'round')).toEqual([]);
  });
  it('joins what grows together and parts what thins out', () => {
    const two = [region(rectangle(0, 0, 10, 10)), region(rectangle(12, 0, 10, 10))];
    expect(offsetRegions(two, 0.5, 'round')).toHaveLength(2);
    expect(offsetRegions(two, 2, 'round')).toHaveLength(1);
    const waist = polygon([
      [0, 0],
      [20, 0],
      [20, 8],
      [30, 8],
      [30, 0],
      [50, 0],
      [50, 20],
      [30, 20],
      [30, 12],
      [20, 12],
      [20, 20],
      [0, 20],
    ]);
    expect(offsetRegions([region(waist)], -1.9, 'round')).toHaveLength(1);
    expect(offsetRegions([region(waist)], -2.1, 'round')).toHaveLength(2);
  });
  it('a spike is rounded where its mitre would be longer than three offsets', () => {
    const spike = polygon([
      [0, 0],
      [100, -2],
      [100, 2],
    ]);
    const reach = Math.min(
      ...offsetRegions([region(spike)], 2, 'mitre').flatMap(r =>
        flatten(r.outer, 0.01).map(p => p[0]),
      ),
    );
    expect(reach).toBeCloseTo(-2, 6);
  });
  it('refuses a distance that is not finite, and of nothing makes nothing', () => {
    expect(() => offsetRegions([region(hexagon)], Number.NaN, 'round')).toThrow(RangeError);
    expect(offsetRegions([], 3, 'round')).toEqual([]);
    expect(area(offsetRegions([region(hexagon)], 0, 'round'))).toBeCloseTo(signedArea(hexagon), 9);
  });
  it('a heart of cubics keeps its distance all round, tip and cleft included', () => {
    for (const d of [0.5, 2, 6, -0.5, -2, -6]) {
      const moved = offsetRegions([region(heart)], d, 'round');
      for (const path of all(moved)) {
        for (const step of steps(path)) {
          for (let i = 0; i < 8; i++) {
            const gap = distanceToPath(pointAt(step, i / 8), heart);
            expect(Math.abs(gap - Math.abs(d))).toBeLessThanOrEqual(FIT_MM);
          }
        }
      }
    }
  });

  const distances = fc.constantFrom(0.5, 2, 5, -0.5, -2, -5);
  it('rounded, every point is at the distance, and the result is simple (any shape)', () => {
    fc.assert(
      fc.property(anyShape, distances, (shape, d) => {
        for (const path of all(offsetRegions([region(shape)], d, 'round'))) {
          expect(isSimple(path)).toBe(true);
          for (const step of steps(path)) {
            const gap = distanceToPath(pointAt(step, 0.37), shape);
            expect(Math.abs(gap - Math.abs(d))).toBeLessThanOrEqual(FIT_MM + 1e-5);
          }
        }
      }),
      { seed: SEED, numRuns: 200 },
    );
  });
  it('no point is left out: what is nearer than the distance is in, what is further is not', () => {
    const at = fc.double({ min: -25, max: 25, noNaN: true });
    fc.assert(
      fc.property(anyShape, distances, at, at, (shape, d, x, y) => {
        const p: Point = [x, y];
        const gap = distanceToPath(p, shape);
        fc.pre(Math.abs(gap - Math.abs(d)) > 2 * FIT_MM);
        const inShape = regionContains(region(shape), p) === 'in';
        const wanted = d > 0 ? inShape || gap < d : inShape && gap > -d;
        const moved = offsetRegions([region(shape)], d, 'round');
        expect(moved.some(r => regionContains(r, p) === 'in')).toBe(wanted);
      }),
      { seed: SEED + 1, numRuns: 400 },
    );
  });
  it('agrees with clipper2 in area, holes included, and with its own second way', () => {
    const { inflatePathsD, areaPathsD, JoinType, EndType } = clipper();
    fc.assert(
      fc.property(anyShape, anyShape, distances, (a, b, d) => {
        const from = subtractRegions([region(a)], [region(b)]);
        const flat = all(from).map(p => flatten(p, 2e-4).map(([x, y]) => ({ x, y })));
        const theirs = areaPathsD(
          inflatePathsD(flat, d, JoinType.Round, EndType.Polygon, 2, 5, 2e-4),
        );
        const ours = offsetRegions(from, d, 'round');
        const length = all(ours).reduce((sum, p) => sum + pathLength(p), 10);
        expect(Math.abs(area(ours) - theirs)).toBeLessThan(length * FIT_MM);
        expect(Math.abs(area(polygonOffset(all(from), d, 'round')) - theirs)).toBeLessThan(
          length * FIT_MM,
        );
      }),
      { seed: SEED + 2, numRuns: 150 },
    );
  });
  it('mitred, a convex polygon grows by the sum of tan(turn / 2) d² beside L d', () => {
    // check-values.md 8; a mitre over three offsets is an arc, turn / 2 · d².
    const angles = fc.uniqueArray(fc.integer({ min: 0, max: 359 }), { minLength: 3, maxLength: 9 });
    fc.assert(
      fc.property(angles, fc.constantFrom(0.5, 2, 7), (list, d) => {
        const corners = [...list].sort((a, b) => a - b).map(a => polar(12, (a * Math.PI) / 180));
        const shape = polygon(corners);
        fc.pre(signedArea(shape) > 1);
        let extra = 0;
        for (let i = 0; i < corners.length; i++) {
          const [p, q, r] = [corners.at(i - 1)!, corners[i]!, corners[(i + 1) % corners.length]!];
          const [u, v] = [
            Math.atan2(q[1] - p[1], q[0] - p[0]),
            Math.atan2(r[1] - q[1], r[0] - q[0]),
          ];
          const turn = (v - u + 4 * Math.PI) % (2 * Math.PI);
          extra +=
            (1 / Math.cos(turn / 2) <= 3 && turn < Math.PI ? Math.tan(turn / 2) : turn / 2) * d * d;
        }
        const grown = area(offsetRegions([region(shape)], d, 'mitre'));
        expect(grown).toBeCloseTo(signedArea(shape) + pathLength(shape) * d + extra, 4);
      }),
      { seed: SEED + 5, numRuns: 100 },
    );
  });
  it('never needs its second way for sound shapes, however tight their arcs', () => {
    fc.assert(
      fc.property(
        anyShape,
        anyShape,
        distances,
        fc.constantFrom<Join>('round', 'mitre'),
        (a, b, d, join) => {
          const loops = all(subtractRegions([region(a)], [region(b)])).map(p => fitArcs(p));
          expect(windingOffset([{ loops, delta: d }], join)).toBeDefined();
        },
      ),
      { seed: SEED + 4, numRuns: 200 },
    );
  });
  it('closes a round hole, and loses a disc, that is smaller than the distance', () => {
    const ring = [circle([0, 0], 10), clockwise(circle([0, 0], 3))];
    expect(windingOffset([{ loops: ring, delta: 4 }], 'round')).toEqual([
      expect.objectContaining({ holes: [] }),
    ]);
    expect(windingOffset([{ loops: ring, delta: 3 }], 'round')![0]!.holes).toEqual([]);
    expect(windingOffset([{ loops: [circle([0, 0], 3)], delta: -4 }], 'round')).toEqual([]);
    expect(windingOffset([{ loops: [circle([0, 0], 3)], delta: -3 }], 'round')).toEqual([]);
    // A slot with round ends of radius 2: it closes to a line and is gone, never everted.
    const slot = roundedPolygon(
      [
        [-8, -2],
        [8, -2],
        [8, 2],
        [-8, 2],
      ],
      2,
    );
    const plate = [rectangle(-20, -20, 40, 40), clockwise(slot)];
    for (const d of [2, 2.5, 4, 9]) {
      expect(windingOffset([{ loops: plate, delta: d }], 'round')!.map(r => r.holes)).toEqual([[]]);
    }
  });
  it('follows a turn, a mirror and a scale', () => {
    fc.assert(
      fc.property(
        anyShape,
        distances,
        fc.double({ min: 0, max: 6, noNaN: true }),
        (shape, d, angle) => {
          const plain = area(offsetRegions([region(shape)], d, 'mitre'));
          const [p, q] = rotation(angle);
          for (const m of [
            [2 * p, 2 * q, -2 * q, 2 * p, 3, 4],
            [2 * p, 2 * q, 2 * q, -2 * p, 1, 2],
          ] as const) {
            const moved = counterClockwise(transform(shape, m));
            const big = area(offsetRegions([region(moved)], 2 * d, 'mitre'));
            expect(Math.abs(big / 4 - plain)).toBeLessThan(0.3);
          }
        },
      ),
      { seed: SEED + 3, numRuns: 80 },
    );
  });
});

describe('regions grown each by its own amount', () => {
  it('are the union of their offsets', () => {
    const amounts = fc.constantFrom(0, 0.4, 1.7, 5);
    fc.assert(
      fc.property(anyShape, anyShape, amounts, amounts, (a, b, by, more) => {
        const parts = [
          { regions: [region(a)], by },
          { regions: [region(b)], by: more },
        ];
        const apart = parts.flatMap(p => offsetRegions(p.regions, p.by, 'round'));
        const [one, two] = [growRegions(parts), uniteRegions(apart)];
        expect(area(one)).toBeCloseTo(area(two), 2);
        expect(one).toHaveLength(two.length);
      }),
      { seed: SEED + 6, numRuns: 100 },
    );
  });
  it('are never shrunk', () => {
    const disc = [{ outer: circle([0, 0], 3), holes: [] }];
    for (const by of [-1, Number.NaN, Number.POSITIVE_INFINITY]) {
      expect(() => growRegions([{ regions: disc, by }])).toThrow(RangeError);
    }
  });
});
