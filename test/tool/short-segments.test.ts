import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  circle,
  cubic,
  flatten,
  line,
  openPath,
  type Path,
  polar,
  polygon,
  polyline,
  rectangle,
  type Segment,
} from '../../src/geom/index.js';
import { cleanPaths } from '../../src/tool/clean.js';
import { mergeShort } from '../../src/tool/short-segments.js';
import { JOIN_MM, LEAST_SEGMENT_MM, MERGE_MM } from '../../src/units/tolerances.js';
import { deviation } from '../support/deviation.js';

describe('segments too short for a machine', () => {
  it('a circle traced in steps of a hundredth becomes a few arcs', () => {
    const points = flatten(circle([10, 10], 2), 5e-6);
    const traced = polygon(points);
    expect(Math.hypot(points[1]![0] - points[0]![0], points[1]![1] - points[0]![1])).toBeLessThan(
      LEAST_SEGMENT_MM,
    );
    const { paths, report } = cleanPaths([traced]);
    expect(traced.segments.length).toBeGreaterThan(500);
    expect(paths[0]!.segments.length).toBeLessThanOrEqual(8);
    expect(paths[0]!.closed).toBe(true);
    expect(report.merged + report.joined).toBe(traced.segments.length - paths[0]!.segments.length);
    expect(deviation(paths[0]!, traced)).toBeLessThanOrEqual(MERGE_MM + JOIN_MM);
  });

  it('a sliver at the end of a side goes into the side', () => {
    const square = polygon([
      [0, 0],
      [30, 0],
      [30, 20],
      [0.02, 20],
      [0, 19.9995],
    ]);
    const { path, merged } = mergeShort(square);
    expect(merged).toBe(1);
    expect(path.segments).toHaveLength(4);
  });

  it('what is long enough, and what would move too far, stays to the bit', () => {
    const kept = [
      rectangle(0, 0, LEAST_SEGMENT_MM, LEAST_SEGMENT_MM),
      // A step of 0.02 mm square to its neighbours.
      polyline([
        [0, 0],
        [10, 0],
        [10, 0.02],
        [20, 0.02],
      ]),
      openPath([0, 0], [cubic([5, 5], [10, 5], [15, 0]), line([30, 0])]),
    ];
    for (const path of kept) expect(mergeShort(path)).toEqual({ path, merged: 0 });
  });

  it('a slow bend of steps long and short by turns is not straightened little by little', () => {
    const points = Array.from({ length: 200 }, (_, i) =>
      polar(5, (0.05 * (i >> 1) + (i % 2) * 0.026) / 5),
    );
    const bend = polyline(points);
    const { path, merged } = mergeShort(bend);
    expect(merged).toBeGreaterThan(90);
    expect(deviation(bend, path)).toBeLessThanOrEqual(MERGE_MM);
  });

  it('what hardly goes anywhere is no fault', () => {
    for (const [x, y] of [
      [0.01, 0],
      [2e-6, 0],
      [0.001, 0.001],
    ] as const) {
      for (const closed of [true, false]) {
        const there = openPath([0, 0], [line([x, y]), line([x, -y]), line([0, 0])]);
        const { path } = mergeShort({ ...there, closed });
        expect(path.segments.at(-1)!.to).toEqual([0, 0]);
      }
    }
  });

  // Walks of short and long steps that turn by chance, some of their segments bent.
  const step = fc.record({
    size: fc.oneof(
      fc.double({ min: 0.001, max: 0.03, noNaN: true }),
      fc.double({ min: 0.03, max: 3, noNaN: true }),
    ),
    turn: fc.oneof(
      fc.double({ min: -0.1, max: 0.1, noNaN: true }),
      fc.double({ min: -2.5, max: 2.5, noNaN: true }),
    ),
    bulge: fc.constantFrom(0, 0, 0, 0.2, -0.6),
  });
  // Bows: a bend that grows evenly, short steps only or a longer one now and then.
  const bow = fc
    .record({
      size: fc.double({ min: 0.004, max: 0.024, noNaN: true }),
      bend: fc.double({ min: -0.03, max: 0.03, noNaN: true }),
      more: fc.double({ min: -0.004, max: 0.004, noNaN: true }),
      longer: fc.nat({ max: 2 }),
      count: fc.integer({ min: 10, max: 120 }),
    })
    .map(({ size, bend, more, longer, count }) =>
      Array.from({ length: count }, (_, i) => ({
        size: longer > 0 && i % (longer + 1) > 0 ? 0.026 : size,
        turn: bend + i * more,
        bulge: 0,
      })),
    );
  const walk = fc
    .tuple(fc.oneof(fc.array(step, { minLength: 2, maxLength: 60 }), bow), fc.boolean())
    .map(([all, closed]): Path => {
      let [x, y, heading] = [0, 0, 0];
      const segments = all.map(({ size, turn, bulge }): Segment => {
        heading += turn;
        [x, y] = [x + size * Math.cos(heading), y + size * Math.sin(heading)];
        const to = [x, y] as const;
        return bulge === 0 ? line(to) : { kind: 'arc', to, bulge };
      });
      if (closed) segments.push(line([0, 0]));
      return { start: [0, 0], segments, closed };
    });

  it('nothing moves by more than the tolerance, whatever the path', () => {
    let merged = 0;
    fc.assert(
      fc.property(walk, path => {
        const made = mergeShort(path);
        merged += made.merged;
        expect(made.path.closed).toBe(path.closed);
        expect(deviation(path, made.path, 5e-5)).toBeLessThanOrEqual(MERGE_MM + 1e-9);
        const { segments, start, closed } = made.path;
        if (closed) expect(segments.at(-1)!.to).toEqual(start);
        else expect(segments.at(-1)!.to).toEqual(path.segments.at(-1)!.to);
      }),
      { seed: 61, numRuns: 300 },
    );
    expect(merged).toBeGreaterThan(500);
  });
});
