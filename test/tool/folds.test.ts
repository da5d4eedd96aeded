/** How folds are made without a scoring tool. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  circle,
  distanceToPath,
  endOf,
  line,
  openPath,
  type Path,
  type Point,
  pathLength,
  rectangle,
} from '../../src/geom/index.js';
import { BY_TOOL, type Cutter, type Folding, type Stroke } from '../../src/model.js';
import { foldStrokes, workedFolds } from '../../src/tool/folds.js';
import { planSheet } from '../../src/tool/plan.js';
import { TIP_MM } from '../../src/units/tolerances.js';

const straight = (from: Point, to: Point): Path => openPath(from, [line(to)]);
const folding = (more: Partial<Folding>): Folding => ({ ...BY_TOOL, ...more });
const box = rectangle(0, 0, 100, 60);
const fold = straight([30, 0], [30, 60]);

describe('folds with a tool', () => {
  it('stay as they are with nothing said', () => {
    expect(workedFolds([fold], [box], BY_TOOL)).toEqual([fold]);
  });
  it('are worked there and back, so many times', () => {
    const passes = workedFolds([fold], [box], folding({ passes: 3 }));
    expect(passes.map(p => p.start)).toEqual([
      [30, 0],
      [30, 60],
      [30, 0],
    ]);
    expect(passes.map(endOf)).toEqual([
      [30, 60],
      [30, 0],
      [30, 60],
    ]);
  });
  it('are set back from the cuts they end on, and from nothing else', () => {
    const [both] = workedFolds([fold], [box], folding({ setback: 1 }));
    expect([both!.start, endOf(both!)]).toEqual([
      [30, 1],
      [30, 59],
    ]);
    const inside = straight([30, 10], [70, 10]);
    expect(workedFolds([inside], [box], folding({ setback: 1 }))).toEqual([inside]);
    const [one] = workedFolds([straight([30, 0], [30, 40])], [box], folding({ setback: 1 }));
    expect(pathLength(one!)).toBeCloseTo(39, 9);
  });
  it('keep half of a fold that is shorter than its setbacks', () => {
    const tab = rectangle(0, 0, 3, 10);
    const [short] = workedFolds([straight([0, 5], [3, 5])], [tab], folding({ setback: 5 }));
    expect(pathLength(short!)).toBeCloseTo(1.5, 9);
  });
});

describe('folds for the pen', () => {
  it('are on its layer', () => {
    const strokes: Stroke[] = [
      { operation: 'score', path: fold },
      { operation: 'cut', path: box },
    ];
    expect(foldStrokes(strokes, folding({ by: 'pen' })).map(s => s.operation)).toEqual([
      'draw',
      'cut',
    ]);
  });
});

describe('perforated folds', () => {
  const perforated = folding({ by: 'perforation', dash: 2, gap: 1.5 });
  it('begin and end on paper, with three dashes at least, whatever their length', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 3, max: 250, noNaN: true }),
        fc.double({ min: 0.5, max: 4, noNaN: true }),
        fc.double({ min: 0.3, max: 2, noNaN: true }),
        (length, dash, ratio) => {
          const gap = ratio * dash;
          const whole = straight([0, 0], [length, 0]);
          const dashes = workedFolds([whole], [], folding({ by: 'perforation', dash, gap }));
          // Three, where each can be long enough for the blade to enter the paper.
          const fit = length / (3 * dash + 4 * gap);
          expect(dashes.length).toBeGreaterThanOrEqual(fit * dash >= 0.3 ? 3 : 1);
          const ends = dashes.flatMap(d => [d.start[0], endOf(d)[0]]);
          const first = ends[0]!;
          expect(first).toBeGreaterThan(0.1);
          expect(length - ends.at(-1)!).toBeCloseTo(first, 6);
          // Evenly: the ratio of dash to gap is the one asked for.
          const cut = dashes.reduce((sum, d) => sum + pathLength(d), 0);
          const n = dashes.length;
          expect(cut / n / ((length - cut) / (n + 1))).toBeCloseTo(dash / gap, 6);
        },
      ),
      { seed: 8, numRuns: 100 },
    );
  });
  it('leave the crossings of folds whole', () => {
    const across = straight([0, 20], [100, 20]);
    const t = straight([60, 20], [60, 60]);
    const dashes = workedFolds([fold, across, t], [box], perforated);
    for (const crossing of [
      [30, 20],
      [60, 20],
    ] as const) {
      const near = Math.min(...dashes.map(d => distanceToPath(crossing, d)));
      expect(near).toBeGreaterThan(0.4);
    }
    // Without the crossing folds a dash does lie there, so that the check can fail.
    const alone = workedFolds([straight([0, 20], [120, 20])], [], perforated);
    const places = Array.from({ length: 100 }, (_, i): Point => [10 + i, 20]);
    expect(places.some(p => alone.some(d => distanceToPath(p, d) < 1e-9))).toBe(true);
  });
  it('run round a closed fold as well, and leave its crossings whole', () => {
    const ring = circle([50, 30], 15);
    const dashes = workedFolds([ring, straight([0, 30], [100, 30])], [], perforated);
    for (const p of [
      [35, 30],
      [65, 30],
    ] as const) {
      expect(Math.min(...dashes.map(d => distanceToPath(p, d)))).toBeGreaterThan(0.4);
    }
  });
});

describe('a sheet for a machine without a scoring tool', () => {
  const cutter = (by: Folding['by'], kerf?: number): Cutter => ({
    id: 'test',
    summary: 'a cutter for tests',
    width: 305,
    height: 305,
    margin: 5,
    blade: {
      offset: kerf === undefined ? 0.25 : 0,
      overcut: 0.5,
      compensatedBy: 'file',
      ...(kerf !== undefined && { kerf }),
    },
    folds: folding({ by, gap: 2 }),
    speed: { draw: 100, score: 50, perforate: 20, cut: 10, register: 100, travel: 200 },
  });
  const strokes: Stroke[] = [
    { operation: 'cut', path: rectangle(20, 20, 100, 60) },
    { operation: 'score', path: straight([60, 20], [60, 80]) },
  ];
  it('has the folds driven by the blade, tip and all', () => {
    for (const by of ['perforation', 'light-cut'] as const) {
      const { passes, report } = planSheet(strokes, cutter(by));
      expect(passes.map(p => p.operation)).toEqual(['score', 'cut']);
      expect(passes[0]!.driven).not.toEqual(passes[0]!.drawn);
      expect(report.tip!.compensated!.max).toBeLessThanOrEqual(TIP_MM);
      expect(report.tip!.uncompensated.max).toBeGreaterThan(TIP_MM);
    }
    const [score] = planSheet(strokes, cutter('tool')).passes;
    expect(score!.driven).toEqual(score!.drawn);
  });
  it('has the folds drawn where the pen marks them', () => {
    expect(planSheet(strokes, cutter('pen')).passes.map(p => p.operation)).toEqual(['draw', 'cut']);
  });
  it('keeps folds where they are under a beam', () => {
    const { passes, report } = planSheet(strokes, cutter('light-cut', 0.2));
    expect(passes[0]!.driven).toEqual(passes[0]!.drawn);
    expect(passes[1]!.driven).not.toEqual(passes[1]!.drawn);
    expect(report.tip).toBeUndefined();
  });
});
