/** The first cut of all, which turns the blade: where it lies. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  bounds,
  distance,
  endOf,
  type Path,
  type Point,
  pathLength,
  rectangle,
  steps,
  tangentAt,
} from '../../src/geom/index.js';
import { planSheet } from '../../src/tool/plan.js';
import { wakeUpCut } from '../../src/tool/wake-up.js';

const SHEET = { width: 300, height: 300 };
const MARGIN = 6;
const woken = (strokes: readonly Path[], to: Point, from: Point = [0, 0]) =>
  wakeUpCut({ strokes, sheet: SHEET, margin: MARGIN, offset: 0.25, from, to });

const pieces = fc.array(
  fc
    .tuple(
      fc.integer({ min: 8, max: 250 }),
      fc.integer({ min: 8, max: 250 }),
      fc.integer({ min: 3, max: 120 }),
      fc.integer({ min: 3, max: 120 }),
    )
    .map(([x, y, w, h]) => rectangle(x, y, Math.min(w, 292 - x), Math.min(h, 292 - y))),
  { minLength: 1, maxLength: 30 },
);

describe('the cut that wakes the blade', () => {
  it('never comes near a piece, nor leaves what the tools reach, however the sheet is filled', () => {
    let found = 0;
    fc.assert(
      fc.property(pieces, fc.nat(), (all, k) => {
        const cut = woken(all, all[k % all.length]!.start);
        if (!cut) return;
        found++;
        // Twenty offsets: the tractrix's tan(α/2) falls by e for each, so a blade turned by up to 179.999°
        // is within 0.03° of the cut (check-values, 5).
        expect(pathLength(cut)).toBeCloseTo(20 * 0.25, 9);
        const [c, ...boxes] = [cut, ...all].map(p => bounds(p));
        expect(Math.min(c!.minX, c!.minY, 300 - c!.maxX, 300 - c!.maxY)).toBeGreaterThan(MARGIN);
        for (const b of boxes) {
          const [dx, dy] = [
            Math.max(b.minX - c!.maxX, c!.minX - b.maxX),
            Math.max(b.minY - c!.maxY, c!.minY - b.maxY),
          ];
          expect(Math.max(dx, dy)).toBeGreaterThan(1.999);
        }
      }),
      { seed: 19, numRuns: 200 },
    );
    expect(found).toBeGreaterThan(150);
  });

  it('lies beside the first piece where there is waste, not at the border', () => {
    const far = [rectangle(140, 140, 20, 20), rectangle(250, 20, 20, 20)];
    for (const to of [
      [150, 140],
      [140, 150],
      [150, 160],
      [160, 150],
    ] as const) {
      const cut = woken(far, to)!;
      // Two millimetres off the piece; its end no farther from the work than half its length more.
      expect(distance(endOf(cut), to)).toBeLessThan(2 + 2.5);
    }
  });

  it('lies on the way: its near end is where the tool comes from', () => {
    const piece = [rectangle(140, 140, 20, 20)];
    const left = woken(piece, [150, 140], [20, 138])!;
    expect(left.start[0]).toBeLessThan(endOf(left)[0]);
    const right = woken(piece, [150, 140], [290, 138])!;
    expect(right.start[0]).toBeGreaterThan(endOf(right)[0]);
  });

  it('is at the border where pieces lie too near each other, and nowhere on a full sheet', () => {
    const grid = Array.from({ length: 81 }, (_, i) =>
      rectangle(14 + 30.4 * (i % 9), 14 + 30.4 * Math.floor(i / 9), 29, 29),
    );
    const { minX, minY, maxX, maxY } = bounds(woken(grid, [150, 140])!);
    expect(Math.min(minX, minY, 300 - maxX, 300 - maxY)).toBeCloseTo(MARGIN + 2, 1);
    expect(woken([rectangle(7, 7, 286, 286)], [7, 7])).toBeUndefined();
  });

  it('of a sheet goes before all else that the blade does, near it, and leaves the rest as it lies', () => {
    const strokes = [rectangle(200, 180, 30, 30), rectangle(40, 240, 9, 9)].map(path => ({
      operation: 'cut' as const,
      path,
    }));
    const speed = { draw: 1, score: 1, perforate: 1, cut: 1, register: 1, travel: 1 };
    const blade = { offset: 0.25, overcut: 0.5, compensatedBy: 'file' as const };
    const mat = { id: 'm', summary: '', width: 300, height: 300, margin: MARGIN, blade, speed };
    const { passes, report } = planSheet(strokes, mat, { sheet: SHEET });
    const [wake, ...work] = passes[0]!.drawn;
    expect(report.heading).toBe('wake-up cut');
    expect(wake!.closed).toBe(false);
    expect(work.map(p => bounds(p).minX)).toEqual([40, 200]);
    expect(distance(endOf(wake!), work[0]!.start)).toBeLessThan(6);
    // Driven ahead by the offset in its own direction: the same assumption as any first cut.
    const [step] = steps(wake!);
    const [u, v] = tangentAt(step!, 0);
    const [x, y] = wake!.start;
    expect(distance(passes[0]!.driven[0]!.start, [x + 0.25 * u, y + 0.25 * v])).toBeLessThan(1e-9);
  });
});
