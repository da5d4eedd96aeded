/** Nothing is cut of a piece that already lies loose: outlines that share edges, with holes in them. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { circle, type Path, type Point, rectangle, steps } from '../../src/geom/index.js';
import type { Cutter } from '../../src/model.js';
import { planSheet } from '../../src/tool/plan.js';

const cutter: Cutter = {
  id: 'test',
  summary: 'a cutter for tests',
  width: 305,
  height: 305,
  margin: 5,
  blade: { offset: 0, overcut: 0, compensatedBy: 'file' },
  speed: { draw: 100, score: 50, perforate: 20, cut: 10, register: 100, travel: 200 },
};
const [WIDE, HIGH] = [30, 20];

/** Whether a place lies on a path of straight lines. */
const liesOn = (path: Path, [x, y]: Point) =>
  [...steps(path)].some(({ from, segment: { to } }) => {
    const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
    const t = ((x - from[0]) * dx + (y - from[1]) * dy) / (dx * dx + dy * dy);
    return t >= 0 && t <= 1 && Math.hypot(x - from[0] - t * dx, y - from[1] - t * dy) < 0.01;
  });

/** Places along the outline of a tag, off its corners. */
const along = (x: number, y: number): Point[] =>
  [0.1, 0.3, 0.5, 0.7, 0.9].flatMap((t): Point[] => [
    [x + t * WIDE, y],
    [x + t * WIDE, y + HIGH],
    [x, y + t * HIGH],
    [x + WIDE, y + t * HIGH],
  ]);

/** Tags edge to edge, and where they stand. */
const grid = fc.record({
  columns: fc.integer({ min: 1, max: 4 }),
  rows: fc.integer({ min: 1, max: 4 }),
  hole: fc.integer({ min: 2, max: 9 }),
  shuffle: fc.array(fc.nat(), { minLength: 32, maxLength: 32 }),
});

describe('tags that share their edges', () => {
  it('have their holes before the last of their outline is cut', () => {
    fc.assert(
      fc.property(grid, ({ columns, rows, hole, shuffle }) => {
        const corners = Array.from(
          { length: columns * rows },
          (_, i): Point => [10 + WIDE * (i % columns), 10 + HIGH * Math.floor(i / columns)],
        );
        const given = corners
          .flatMap(([x, y]) => [
            rectangle(x, y, WIDE, HIGH),
            circle([x + WIDE / 2, y + HIGH / 2], hole),
          ])
          .map((path, i) => ({ path, key: shuffle[i]! }))
          .sort((a, b) => a.key - b.key)
          .map(({ path }) => path);
        const cuts = given.map(path => ({ operation: 'cut' as const, path }));
        const paths = planSheet(cuts, cutter, { simulate: false }).passes[0]!.drawn;
        const straight = paths.map(p => p.segments.every(s => s.kind === 'line'));
        for (const [x, y] of corners) {
          const cut = along(x, y).map(at =>
            paths.findIndex((p, k) => straight[k] && liesOn(p, at)),
          );
          expect(Math.min(...cut)).toBeGreaterThanOrEqual(0);
          const middle: Point = [x + WIDE / 2, y + HIGH / 2];
          const holed = paths.findIndex(
            (p, k) =>
              !straight[k] &&
              Math.abs(Math.hypot(p.start[0] - middle[0], p.start[1] - middle[1]) - hole) < 0.01,
          );
          expect(holed).toBeGreaterThanOrEqual(0);
          expect(holed).toBeLessThan(Math.max(...cut));
        }
      }),
      { seed: 7, numRuns: 300 },
    );
  });
});
