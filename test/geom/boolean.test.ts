import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { clipper } from '../../src/geom/heavy.js';
import {
  arcsToCubics,
  circle,
  clockwise,
  closedPath,
  contains,
  counterClockwise,
  cubic,
  flatten,
  intersectRegions,
  isSimple,
  type Path,
  polygon,
  type Region,
  rectangle,
  regionArea,
  regionContains,
  reverse,
  rotation,
  signedArea,
  subtractRegions,
  transform,
  uniteContours,
  uniteRegions,
} from '../../src/geom/index.js';
import { polygonBoolean } from '../../src/geom/polygons.js';
import { anyShape } from '../support/shapes.js';

const SEED = 20265;
const region = (outer: Path, ...holes: Path[]): Region => ({ outer, holes });
const area = (regions: readonly Region[]) => regions.reduce((sum, r) => sum + regionArea(r), 0);
const square = rectangle(0, 0, 40, 40);
const all = (regions: readonly Region[]) => regions.flatMap(r => [r.outer, ...r.holes]);

describe('booleans of regions', () => {
  it('two circles: the lens has its published area, in arcs', () => {
    // Lens of equal circles, distance d: 2 r² acos(d / 2r) − d/2 √(4r² − d²) (textbook formula).
    const lens = 2 * 100 * Math.acos(0.6) - 6 * Math.sqrt(400 - 144);
    const a = region(circle([0, 0], 10));
    const b = region(circle([12, 0], 10));
    const common = intersectRegions([a], [b]);
    expect(common).toHaveLength(1);
    expect(common[0]!.outer.segments.map(s => s.kind)).toEqual(['arc', 'arc']);
    expect(area(common)).toBeCloseTo(lens, 9);
    expect(area(uniteRegions([a, b]))).toBeCloseTo(200 * Math.PI - lens, 9);
    expect(area(subtractRegions([a], [b]))).toBeCloseTo(100 * Math.PI - lens, 9);
  });

  it('shapes that share an edge become one, with no seam left', () => {
    const [one, ...more] = uniteRegions([
      region(rectangle(0, 0, 10, 10)),
      region(rectangle(10, 0, 10, 10)),
      region(rectangle(0, 10, 20, 10)),
    ]);
    expect(more).toEqual([]);
    expect(one!.outer.segments).toHaveLength(4);
    expect(regionArea(one!)).toBeCloseTo(400, 9);
  });
  it('shapes that touch in a corner stay two', () => {
    const two = uniteRegions([region(rectangle(0, 0, 10, 10)), region(rectangle(10, 10, 5, 5))]);
    expect(two.map(r => regionArea(r))).toEqual([expect.closeTo(100, 9), expect.closeTo(25, 9)]);
  });
  it('circles that touch stay two, and share nothing', () => {
    const [a, b] = [region(circle([0, 0], 5)), region(circle([10, 0], 5))];
    expect(uniteRegions([a, b])).toHaveLength(2);
    expect(intersectRegions([a], [b])).toEqual([]);
  });
  it('the same shape twice is that shape; less itself it is nothing', () => {
    expect(area(uniteRegions([region(square), region(square)]))).toBeCloseTo(1600, 9);
    expect(subtractRegions([region(square)], [region(square)])).toEqual([]);
    expect(area(intersectRegions([region(square)], [region(square)]))).toBeCloseTo(1600, 9);
  });
  it('makes holes, and an island in a hole', () => {
    const ring = subtractRegions([region(square)], [region(circle([20, 20], 10))]);
    expect(ring).toHaveLength(1);
    expect(ring[0]!.holes).toHaveLength(1);
    expect(signedArea(ring[0]!.outer)).toBeGreaterThan(0);
    expect(signedArea(ring[0]!.holes[0]!)).toBeLessThan(0);
    const both = uniteRegions([...ring, region(circle([20, 20], 4))]);
    expect(both).toHaveLength(2);
    expect(area(both)).toBeCloseTo(1600 - Math.PI * (100 - 16), 9);
  });
  it('a hole filled by another region is gone', () => {
    const ring = region(square, clockwise(circle([20, 20], 10)));
    const filled = uniteRegions([ring, region(circle([20, 20], 12))]);
    expect(filled).toHaveLength(1);
    expect(filled[0]!.holes).toEqual([]);
    expect(area(filled)).toBeCloseTo(1600, 9);
  });
  it('reads outlines and holes whichever way they run', () => {
    const ring = region(reverse(square), circle([20, 20], 10));
    expect(area(uniteRegions([ring]))).toBeCloseTo(1600 - 100 * Math.PI, 9);
  });
  it('of nothing is nothing', () => {
    expect(uniteRegions([])).toEqual([]);
    expect(intersectRegions([], [region(square)])).toEqual([]);
    expect(area(subtractRegions([region(square)], []))).toBeCloseTo(1600, 9);
  });
  it('keeps cubics cubics', () => {
    const soft = arcsToCubics(circle([0, 0], 10));
    const cut = intersectRegions([region(soft)], [region(rectangle(0, -20, 20, 40))]);
    expect(cut[0]!.outer.segments.filter(s => s.kind === 'cubic').length).toBeGreaterThanOrEqual(4);
    expect(area(cut)).toBeCloseTo(signedArea(soft) / 2, 6);
  });

  const pair = fc.tuple(anyShape, anyShape);
  const ops = ['unite', 'subtract', 'intersect'] as const;
  const by = {
    unite: (a: Region[], b: Region[]) => uniteRegions([...a, ...b]),
    subtract: subtractRegions,
    intersect: intersectRegions,
  };

  it('agree with clipper2 on flattened outlines, and are simple', () => {
    const { booleanOpD, areaPathsD, ClipType, FillRule } = clipper();
    const type = {
      unite: ClipType.Union,
      subtract: ClipType.Difference,
      intersect: ClipType.Intersection,
    };
    const flat = (p: Path) => [flatten(p, 2e-4).map(([x, y]) => ({ x, y }))];
    fc.assert(
      fc.property(pair, fc.constantFrom(...ops), ([a, b], op) => {
        const ours = by[op]([region(a)], [region(b)]);
        const theirs = areaPathsD(booleanOpD(type[op], flat(a), flat(b), FillRule.NonZero, 5));
        expect(Math.abs(area(ours) - theirs)).toBeLessThan(0.05);
        for (const path of all(ours)) expect(isSimple(path)).toBe(true);
      }),
      { seed: SEED, numRuns: 300 },
    );
  });

  it('area of the union and of what is shared is the sum of both', () => {
    fc.assert(
      fc.property(pair, ([a, b]) => {
        const [x, y] = [[region(a)], [region(b)]];
        const sum = area(uniteRegions([...x, ...y])) + area(intersectRegions(x, y));
        expect(sum).toBeCloseTo(area(x) + area(y), 3);
        expect(area(subtractRegions(x, y)) + area(intersectRegions(x, y))).toBeCloseTo(area(x), 3);
      }),
      { seed: SEED + 1, numRuns: 200 },
    );
  });

  it('follow a turn and a mirror', () => {
    fc.assert(
      fc.property(
        pair,
        fc.constantFrom(...ops),
        fc.double({ min: 0, max: 6, noNaN: true }),
        ([a, b], op, angle) => {
          const [p, q, , , e, f] = rotation(angle);
          const mirror = [p, q, q, -p, e + 7, f - 3] as const;
          const plain = by[op]([region(a)], [region(b)]);
          for (const m of [rotation(angle), mirror]) {
            const move = (path: Path) => counterClockwise(transform(path, m));
            const moved = by[op]([region(move(a))], [region(move(b))]);
            expect(area(moved)).toBeCloseTo(area(plain), 3);
          }
        },
      ),
      { seed: SEED + 2, numRuns: 100 },
    );
  });

  it('answer for each point as their operands do', () => {
    const point = fc.tuple(
      fc.double({ min: -20, max: 20, noNaN: true }),
      fc.double({ min: -20, max: 20, noNaN: true }),
    );
    fc.assert(
      fc.property(pair, point, ([a, b], p) => {
        const [inA, inB] = [contains(a, p), contains(b, p)];
        fc.pre(inA !== 'on' && inB !== 'on');
        const has = (rs: readonly Region[]) => rs.some(r => regionContains(r, p) === 'in');
        expect(has(by.unite([region(a)], [region(b)]))).toBe(inA === 'in' || inB === 'in');
        expect(has(by.intersect([region(a)], [region(b)]))).toBe(inA === 'in' && inB === 'in');
        expect(has(by.subtract([region(a)], [region(b)]))).toBe(inA === 'in' && inB !== 'in');
      }),
      { seed: SEED + 3, numRuns: 200 },
    );
  });

  it('have a second way by polygons that agrees with the first', () => {
    fc.assert(
      fc.property(pair, fc.constantFrom(...ops), ([a, b], op) => {
        const ours = by[op]([region(a)], [region(b)]);
        const fallback = polygonBoolean([a], [b], op);
        expect(Math.abs(area(ours) - area(fallback))).toBeLessThan(0.3);
      }),
      { seed: SEED + 4, numRuns: 60 },
    );
  });
});

describe('contours by the nonzero rule', () => {
  it('the same way round weld, the other way round cut', () => {
    const o = [circle([0, 0], 10), clockwise(circle([0, 0], 6))];
    const bar = rectangle(-2, -12, 4, 24);
    const welded = uniteContours([...o, bar]);
    expect(welded).toHaveLength(1);
    expect(welded[0]!.holes).toHaveLength(2);
  });
  it('a contour that crosses itself is filled where it runs round', () => {
    const bow = polygon([
      [0, 0],
      [10, 10],
      [10, 0],
      [0, 10],
    ]);
    expect(area(uniteContours([bow]))).toBeCloseTo(50, 9);
  });
  it('a cubic with a loop is welded into its outline', () => {
    const loop = closedPath([0, 0], [cubic([40, 30], [-30, 30], [10, 0])]);
    const welded = uniteContours([loop]);
    expect(welded.every(r => isSimple(r.outer))).toBe(true);
    const { unionD, areaPathsD, FillRule } = clipper();
    const flat = [flatten(loop, 1e-4).map(([x, y]) => ({ x, y }))];
    expect(area(welded)).toBeCloseTo(areaPathsD(unionD(flat, [], FillRule.NonZero, 5)), 2);
  });
});
