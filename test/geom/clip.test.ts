import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  circle,
  clipOpenPaths,
  clipShapes,
  clockwise,
  cubic,
  intersectRegions,
  line,
  openPath,
  type Path,
  pathLength,
  pointAt,
  polyline,
  type Region,
  rectangle,
  regionArea,
  regionContains,
  steps,
} from '../../src/geom/index.js';
import { anyShape } from '../support/shapes.js';

const SEED = 20268;
const region = (outer: Path, ...holes: Path[]): Region => ({ outer, holes });
const area = (regions: readonly Region[]) => regions.reduce((sum, r) => sum + regionArea(r), 0);

describe('clipShapes', () => {
  const dots = Array.from({ length: 225 }, (_, i) =>
    region(circle([(i % 15) * 3 - 21, Math.floor(i / 15) * 3 - 21], 1)),
  );
  it('keeps the inner shapes themselves, drops the outer ones, cuts those between', () => {
    const panel = rectangle(-15, -10, 30.5, 20);
    const kept = clipShapes(dots, panel);
    const same = kept.filter(r => dots.includes(r));
    const inside = dots.filter(({ outer: { start } }) => {
      const [x, y] = [start[0] - 1, start[1]];
      return x - 1 > -15 && x + 1 < 15.5 && Math.abs(y) + 1 < 10;
    });
    expect(same).toEqual(inside);
    expect(kept.length).toBeGreaterThan(same.length);
    expect(area(kept)).toBeCloseTo(area(intersectRegions(dots, [region(panel)])), 6);
  });
  it('knows a shape that holds the whole area, and one round a hole of it', () => {
    const panel = region(rectangle(0, 0, 10, 10), clockwise(circle([5, 5], 1)));
    expect(area(clipShapes([region(circle([5, 5], 40))], panel))).toBeCloseTo(100 - Math.PI, 9);
    expect(area(clipShapes([region(circle([5, 5], 2))], panel))).toBeCloseTo(3 * Math.PI, 9);
    expect(clipShapes([region(circle([5, 5], 0.5))], panel)).toEqual([]);
    // A ring around the area holds nothing of it.
    expect(clipShapes([region(circle([5, 5], 40), clockwise(circle([5, 5], 30)))], panel)).toEqual(
      [],
    );
  });
  it('agrees with the intersection, whatever the area', () => {
    fc.assert(
      fc.property(anyShape, shape => {
        const exact = area(intersectRegions(dots, [region(shape)]));
        expect(area(clipShapes(dots, shape))).toBeCloseTo(exact, 4);
      }),
      { seed: SEED, numRuns: 25 },
    );
  });
});

describe('clipOpenPaths', () => {
  const ring = region(rectangle(0, 0, 40, 40), clockwise(circle([20, 20], 10)));
  it('cuts a line at the outline and the hole, exactly, in order', () => {
    const parts = clipOpenPaths(
      [
        polyline([
          [-10, 20],
          [50, 20],
        ]),
      ],
      ring,
    );
    expect(parts.map(p => [p.start[0], p.segments.at(-1)!.to[0]])).toEqual([
      [expect.closeTo(0, 9), expect.closeTo(10, 9)],
      [expect.closeTo(30, 9), expect.closeTo(40, 9)],
    ]);
  });
  it('keeps a path inside as it is, drops one outside', () => {
    const inside = polyline([
      [1, 1],
      [5, 3],
      [39, 1],
    ]);
    expect(clipOpenPaths([inside], ring)).toEqual([inside]);
    expect(
      clipOpenPaths(
        [
          polyline([
            [41, 0],
            [50, 50],
          ]),
        ],
        ring,
      ),
    ).toEqual([]);
    expect(
      clipOpenPaths(
        [
          polyline([
            [18, 18],
            [22, 22],
          ]),
        ],
        ring,
      ),
    ).toEqual([]);
  });
  it('joins the two ends of a closed path that starts inside', () => {
    const loop = rectangle(30, 30, 20, 4);
    const parts = clipOpenPaths([loop], ring);
    expect(parts).toHaveLength(1);
    expect(pathLength(parts[0]!)).toBeCloseTo(10 + 4 + 10, 9);
    expect(clipOpenPaths([circle([35, 35], 2)], ring)).toEqual([circle([35, 35], 2)]);
  });
  it('leaves out what runs along the edge', () => {
    expect(
      clipOpenPaths(
        [
          polyline([
            [5, 0],
            [30, 0],
          ]),
        ],
        ring,
      ),
    ).toEqual([]);
    const along = clipOpenPaths(
      [
        polyline([
          [5, 5],
          [5, 0],
          [30, 0],
          [30, 5],
        ]),
      ],
      ring,
    );
    expect(along).toHaveLength(2);
  });
  it('every part lies inside, and with the rest makes the whole (arcs and cubics too)', () => {
    const path = openPath(
      [-20, -20],
      [
        cubic([40, -30], [-40, 30], [20, 20]),
        { kind: 'arc', to: [0, -20], bulge: -0.7 },
        line([20, -5]),
      ],
    );
    fc.assert(
      fc.property(anyShape, shape => {
        const inside = clipOpenPaths([path], region(shape));
        const outside = clipOpenPaths(
          [path],
          region(rectangle(-90, -90, 180, 180), clockwise(shape)),
        );
        const sum = [...inside, ...outside].reduce((total, p) => total + pathLength(p), 0);
        expect(sum).toBeCloseTo(pathLength(path), 4);
        for (const part of inside) {
          for (const step of steps(part)) {
            expect(regionContains(region(shape), pointAt(step, 0.4))).not.toBe('out');
          }
        }
      }),
      { seed: SEED + 1, numRuns: 150 },
    );
  });
});
