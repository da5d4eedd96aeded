import { describe, expect, it } from 'vitest';
import {
  circle,
  endOf,
  type Path,
  pathLength,
  polyline,
  rectangle,
  roundedPolygon,
  transform,
  translation,
} from '../../src/geom/index.js';
import type { Cutter, Stroke } from '../../src/model.js';
import { dashesOf } from '../../src/tool/perforate.js';
import { planSheet } from '../../src/tool/plan.js';
import { tipError } from '../../src/tool/tip-error.js';
import { TIP_MM } from '../../src/units/tolerances.js';

const cutter = (compensatedBy: 'file' | 'cutter', offset = 0.25): Cutter => ({
  id: 'test',
  summary: 'a cutter for tests',
  width: 305,
  height: 305,
  margin: 5,
  blade: { offset, overcut: 0.5, compensatedBy },
  speed: { draw: 100, score: 50, perforate: 20, cut: 10, register: 100, travel: 200 },
});

const at = (path: Path, x: number, y: number) => transform(path, translation(x, y));
const strokes: Stroke[] = [
  { operation: 'cut', path: rectangle(20, 20, 100, 60) },
  { operation: 'cut', path: circle([40, 40], 8) },
  {
    operation: 'cut',
    path: at(
      roundedPolygon(
        [
          [0, 0],
          [40, 0],
          [40, 25],
          [0, 25],
        ],
        4,
      ),
      150,
      30,
    ),
  },
  {
    operation: 'score',
    path: polyline([
      [60, 20],
      [60, 80],
    ]),
  },
  {
    operation: 'draw',
    path: polyline([
      [25, 70],
      [50, 70],
    ]),
  },
  {
    operation: 'perforate',
    path: polyline([
      [80, 20],
      [80, 80],
    ]),
  },
  { operation: 'register', path: circle([10, 290], 3) },
];
const UNTURNED = { offset: 0, overcut: 0, compensatedBy: 'cutter' as const };
const sheet = { width: 305, height: 305 };

describe('a sheet compensated in the file', () => {
  const { passes, report } = planSheet(strokes, cutter('file'), { sheet });

  it('is worked in order: draw, score, perforate, cut', () => {
    expect(passes.map(p => p.operation)).toEqual(['draw', 'score', 'perforate', 'cut', 'register']);
  });
  it('is compensated for what the blade does and nothing else', () => {
    for (const { operation, drawn, driven } of passes) {
      expect(driven).toHaveLength(drawn.length);
      if (operation === 'cut' || operation === 'perforate') expect(driven).not.toEqual(drawn);
      else expect(driven).toBe(drawn);
    }
  });
  it('cuts the hole before the outline', () => {
    const cuts = passes.find(p => p.operation === 'cut')!.drawn;
    const length = (path: Path) => Math.round(pathLength(path));
    const hole = cuts.findIndex(p => length(p) === 50);
    const outline = cuts.findIndex(p => length(p) === 320);
    expect(hole).toBeGreaterThanOrEqual(0);
    expect(hole).toBeLessThan(outline);
  });
  it('keeps the tip on the drawing, and says what it would be without', () => {
    expect(report.tip!.compensated!.max).toBeLessThanOrEqual(TIP_MM);
    expect(report.tip!.compensated!.uncutMax).toBeLessThanOrEqual(TIP_MM);
    expect(report.tip!.uncompensated!.uncutMax / 0.25).toBeGreaterThan(0.66);
    expect(report.warnings).toEqual([]);
  });
  it('wakes the blade first, clear of everything', () => {
    expect(report.heading).toBe('wake-up cut');
    const first = passes.find(p => p.operation === 'perforate')!;
    expect(pathLength(first.drawn[0]!)).toBeCloseTo(5, 9);
    // From any heading the rest is cut right after it.
    const blade = passes.filter(p => p.operation === 'perforate' || p.operation === 'cut');
    for (const heading of [0, 1, 2, 3.1, -3, -1.5]) {
      const error = tipError(
        blade.flatMap(p => p.drawn).slice(1),
        blade.flatMap(p => p.driven).slice(1),
        0.25,
        // The heading after the wake-up cut: tan(α/2) = tan(α₀/2) e⁻²⁰.
        2 * Math.atan(Math.tan(heading / 2) * Math.exp(-20)),
      );
      expect(error.max).toBeLessThanOrEqual(TIP_MM);
    }
  });
  it('adds up lengths, counts and time', () => {
    expect(report.lengths.score).toBeCloseTo(60, 9);
    expect(report.lengths.draw).toBeCloseTo(25, 9);
    expect(report.counts.cut).toBe(3);
    const cut = passes
      .find(p => p.operation === 'cut')!
      .driven.reduce((s, p) => s + pathLength(p), 0);
    expect(report.seconds).toBeGreaterThan(cut / 10);
    expect(report.travelAfter).toBeGreaterThan(0);
    expect(report.cleaned.cut!.duplicates).toBe(0);
  });
  it('wakes the blade between where the pen stopped and what is cut first', () => {
    // The pen stops at the sheet's upper right, by one of the two pieces.
    const few: Stroke[] = [
      { operation: 'cut', path: rectangle(250, 250, 20, 20) },
      { operation: 'cut', path: rectangle(40, 40, 20, 20) },
      {
        operation: 'draw',
        path: polyline([
          [20, 20],
          [240, 240],
        ]),
      },
    ];
    const [drawn, cut] = planSheet(few, cutter('file'), { sheet }).passes;
    expect(endOf(drawn!.drawn[0]!)).toEqual([240, 240]);
    const [woken, first] = cut!.drawn;
    expect(woken!.closed).toBe(false);
    expect(Math.min(...first!.start)).toBeGreaterThanOrEqual(250);
    expect(Math.min(...woken!.start)).toBeGreaterThan(240);
  });
  it('takes the time of its lines and its travel at their speeds', () => {
    // By hand: a square of 40 mm at 10 mm/s, a fold of 30 mm at 50 mm/s, and 100 mm to the fold, 40 mm
    // from it to the middle of the square's edge, at 200 mm/s.
    const few: Stroke[] = [
      { operation: 'cut', path: rectangle(95, 70, 10, 10) },
      {
        operation: 'score',
        path: polyline([
          [100, 0],
          [100, 30],
        ]),
      },
    ];
    const { report } = planSheet(few, { ...cutter('file'), blade: UNTURNED }, { simulate: false });
    expect(report.travelAfter).toBeCloseTo(140, 9);
    expect(report.seconds).toBeCloseTo(40 / 10 + 30 / 50 + 140 / 200, 9);
  });
  it('is the same every time', () => {
    expect(planSheet(strokes, cutter('file'), { sheet })).toEqual({
      passes,
      report,
    });
  });
});

describe('a sheet that the cutter compensates', () => {
  const { passes, report } = planSheet(strokes, cutter('cutter'));
  it('is driven as drawn', () => {
    for (const { drawn, driven } of passes) expect(driven).toBe(drawn);
    expect(report.heading).toBeUndefined();
    expect(report.tip!.compensated).toBeUndefined();
  });
  it('still has its perforation in dashes', () => {
    expect(passes.find(p => p.operation === 'perforate')!.drawn.length).toBeGreaterThan(10);
  });
});

describe('odd sheets', () => {
  it('nothing gives nothing', () => {
    const { passes, report } = planSheet([], cutter('file'), { sheet });
    expect(passes).toEqual([]);
    expect(report.seconds).toBe(0);
    expect(report.tip).toBeUndefined();
  });
  it('with no room for a wake-up cut the first heading is assumed, and said so', () => {
    const full: Stroke[] = [{ operation: 'cut', path: rectangle(6, 6, 293, 293) }];
    const { report } = planSheet(full, cutter('file'), { sheet });
    expect(report.heading).toBe('assumed along the first cut');
  });
  it('doubled lines are dropped and told', () => {
    const twice: Stroke[] = [strokes[0]!, strokes[0]!];
    const { passes, report } = planSheet(twice, cutter('file'), { sheet });
    expect(passes[0]!.drawn).toHaveLength(2);
    expect(report.cleaned.cut!.duplicates).toBe(1);
    expect(report.warnings).toEqual(['cut: 1 doubled line dropped']);
  });
});

describe('perforation', () => {
  it.each([
    [3.2, 1],
    [10, 3],
    [60, 20],
    [61.3, 20],
  ])('a line of %f mm begins and ends on paper, with %d dashes', (length, n) => {
    const dashes = dashesOf(
      polyline([
        [0, 0],
        [length, 0],
      ]),
      { dash: 2, gap: 1 },
    );
    expect(dashes).toHaveLength(n);
    const gap = dashes[0]!.start[0];
    expect(gap).toBeGreaterThan(0.5);
    dashes.forEach((dash, i) => {
      expect(pathLength(dash) / gap).toBeCloseTo(2, 9);
      const next = dashes[i + 1]?.start[0] ?? length;
      expect(next - endOf(dash)[0]).toBeCloseTo(gap, 9);
    });
  });
  it('corners stay on paper, on open and closed lines', () => {
    const square = rectangle(0, 0, 20, 30);
    const dashes = dashesOf(square);
    const corners = [square.start, ...square.segments.map(s => s.to)];
    for (const dash of dashes) {
      expect(dash.segments).toHaveLength(1);
      for (const p of [dash.start, endOf(dash)]) {
        for (const c of corners) expect(Math.hypot(p[0] - c[0], p[1] - c[1])).toBeGreaterThan(0.8);
      }
    }
    expect(dashes).toHaveLength(2 * (6 + 10));
  });
  it('runs round a circle without a seam', () => {
    const dashes = dashesOf(circle([0, 0], 10), { dash: 2, gap: 1 });
    expect(dashes).toHaveLength(21);
    const lengths = dashes.map(pathLength);
    expect(Math.max(...lengths) - Math.min(...lengths)).toBeLessThan(1e-6);
    const close = Math.hypot(
      endOf(dashes.at(-1)!)[0] - dashes[0]!.start[0],
      endOf(dashes.at(-1)!)[1] - dashes[0]!.start[1],
    );
    const gap = Math.hypot(
      endOf(dashes[0]!)[0] - dashes[1]!.start[0],
      endOf(dashes[0]!)[1] - dashes[1]!.start[1],
    );
    expect(close).toBeCloseTo(gap, 9);
  });
  it('too short a line is left whole; a dash or gap of nothing throws', () => {
    const crumb = polyline([
      [0, 0],
      [0.4, 0],
    ]);
    expect(dashesOf(crumb)).toEqual([]);
    expect(() => dashesOf(crumb, { dash: 0, gap: 1 })).toThrow(RangeError);
    expect(() => dashesOf(crumb, { dash: 1, gap: Number.NaN })).toThrow(RangeError);
  });
});
