import { describe, expect, it } from 'vitest';
import {
  circle,
  closedPath,
  cubic,
  openPath,
  type Path,
  polygon,
  polyline,
  rectangle,
  transform,
} from '../../src/geom/index.js';
import type { Cutter, Drawing, Operation } from '../../src/model.js';
import { compensatePaths } from '../../src/tool/compensate.js';
import { inspectDrawing } from '../../src/tool/inspect.js';
import { planSheet } from '../../src/tool/plan.js';

const drawing = (layers: Partial<Record<Operation, readonly Path[]>>): Drawing => ({
  name: 'sheet 1',
  width: 100,
  height: 80,
  layers: Object.entries(layers).map(([operation, paths]) => ({
    operation: operation as Operation,
    paths,
  })),
});
const kinds = (d: Drawing, options = {}) => inspectDrawing(d, options).findings.map(f => f.kind);
const slit = polyline([
  [20, 20],
  [20, 40],
]);

describe('a good drawing', () => {
  const good = drawing({
    score: [slit],
    cut: [circle([30, 30], 5), rectangle(10, 10, 60, 50)],
  });
  it('is good, with its size, operations and lengths', () => {
    const report = inspectDrawing(good);
    expect(report).toMatchObject({ width: 100, height: 80, good: true });
    expect(kinds(good)).toEqual(['loose']);
    expect(report.operations.map(o => [o.operation, o.paths, o.closed])).toEqual([
      ['score', 1, 0],
      ['cut', 2, 2],
    ]);
    expect(report.operations[1]!.length).toBeCloseTo(220 + 10 * Math.PI, 9);
    expect(report.tip).toBeUndefined();
  });
});

describe('faults are found', () => {
  it('open cuts are told; an outline that does not quite close is a fault', () => {
    const report = inspectDrawing(drawing({ cut: [slit] }));
    expect(report.openCuts).toBe(1);
    expect(report.good).toBe(true);
    const gaping = polyline([
      [10, 10],
      [50, 10],
      [50, 50],
      [10, 50],
      [10, 10.2],
    ]);
    const found = inspectDrawing(drawing({ cut: [gaping] }));
    expect(found.good).toBe(false);
    expect(found.findings.find(f => f.kind === 'nearly-closed')!.message).toContain('0.2 mm');
  });
  it('lines cut twice', () => {
    const square = rectangle(10, 10, 20, 20);
    const report = inspectDrawing(drawing({ cut: [square, square] }));
    expect(report.duplicateLength).toBeCloseTo(80, 9);
    expect(report.good).toBe(false);
  });
  it('crossing cuts, with their places; touching is not crossing', () => {
    const across = polyline([
      [5, 30],
      [30, 30],
    ]);
    const report = inspectDrawing(drawing({ cut: [rectangle(10, 10, 20, 40), across] }));
    expect(report.crossings).toBe(1);
    expect(report.findings.find(f => f.kind === 'crossing')!.places[0]!.at[0]).toBeCloseTo(10, 9);
    const touching = polyline([
      [10, 30],
      [20, 30],
    ]);
    expect(kinds(drawing({ cut: [rectangle(10, 10, 20, 40), touching] }))).toEqual(['open-cut']);
    const eight = polyline(
      [
        [10, 10],
        [30, 30],
        [30, 10],
        [10, 30],
      ],
      true,
    );
    expect(kinds(drawing({ cut: [eight] }))).toEqual(['crossing']);
  });
  it('cuts too short', () => {
    expect(kinds(drawing({ cut: [circle([20, 20], 0.02)] }))).toEqual(['too-short', 'small-part']);
  });
  it('lines beyond the sheet and beyond the reach of the cutter', () => {
    expect(kinds(drawing({ cut: [rectangle(50, 10, 60, 20)] }))).toEqual(['outside-sheet']);
    const area = { width: 305, height: 305, margin: 12, placed: true, name: 'a cutter' };
    expect(kinds(drawing({ cut: [rectangle(10, 20, 40, 20)] }), { area })).toEqual([
      'outside-area',
    ]);
    const small = { ...area, width: 90, margin: 0 };
    expect(kinds(drawing({ cut: [rectangle(10, 20, 40, 20)] }), { area: small })).toEqual([
      'outside-area',
    ]);
  });
  it('numbers that are not finite, and an empty drawing', () => {
    const bad = openPath([Number.NaN, 0], [{ kind: 'line', to: [1, 1] }]);
    expect(kinds(drawing({ cut: [bad] }))).toEqual(['not-finite', 'nothing']);
    expect(kinds(drawing({}))).toEqual(['nothing']);
  });
  it('numbers so large that squares overflow do not stop it', () => {
    const huge = rectangle(-1e200, -1e200, 2e200, 2e200);
    expect(kinds(drawing({ cut: [huge] }))).toContain('outside-sheet');
  });
});

describe('where', () => {
  const find = (d: Drawing, kind: string, options = {}) =>
    inspectDrawing(d, options).findings.find(f => f.kind === kind)!;

  it('doubled lines are told at the middle of each stretch', () => {
    const half = polyline([
      [30, 10],
      [40, 10],
    ]);
    const { places } = find(drawing({ cut: [rectangle(10, 10, 50, 40), half] }), 'duplicate');
    expect(places).toHaveLength(1);
    expect(Math.abs(places[0]!.at[0] - 35)).toBeLessThan(1);
    expect(places[0]!.at[1]).toBeCloseTo(10, 9);
  });
  it('lines beyond the sheet are told where they reach furthest, the worst first', () => {
    const cut = [rectangle(50, 10, 60, 20), rectangle(-3, 50, 20, 10), rectangle(30, 40, 9, 9)];
    const found = find(drawing({ cut }), 'outside-sheet');
    expect(found.places).toEqual([
      { at: [110, 20], size: 10 },
      { at: [-3, 55], size: 3 },
    ]);
    expect(found.message).toContain('2 lines reach up to 10 mm beyond the sheet');
  });
  it('a drawing that may be put anywhere is judged by its size, and may be turned', () => {
    const area = { width: 70, height: 120, margin: 5, placed: false, name: 'a cutter' };
    const atEdge = drawing({ cut: [rectangle(0, 0, 60, 80)] });
    expect(kinds(atEdge, { area })).toEqual([]);
    const wide = find(drawing({ cut: [rectangle(0, 0, 80, 50)] }), 'outside-area', { area });
    expect(wide).toMatchObject({ severity: 'note', message: expect.stringContaining('turn it') });
    const large = find(drawing({ cut: [rectangle(0, 0, 80, 70)] }), 'outside-area', { area });
    expect(large.severity).toBe('warning');
  });
  it('no more than 20 places are listed, and how many there are', () => {
    const slits = Array.from({ length: 30 }, (_, i) => transform(slit, [1, 0, 0, 1, 2 * i, 0]));
    const { places, total } = find(drawing({ cut: slits }), 'open-cut');
    expect([places.length, total]).toEqual([20, 30]);
  });
});

describe('what comes loose', () => {
  it('is told by what it lies in; small parts are a warning', () => {
    const cut = [
      rectangle(10, 10, 60, 60),
      rectangle(20, 20, 30, 30),
      circle([30, 30], 5),
      circle([60, 60], 1),
    ];
    const report = inspectDrawing(drawing({ cut }));
    expect(report.loose).toEqual({ openings: 2, parts: 1, small: 1, least: 3 });
    expect(report.good).toBe(true);
    const [small, loose] = report.findings;
    expect(small).toMatchObject({ kind: 'small-part', severity: 'warning' });
    expect(small!.places).toEqual([{ at: [60, 60], size: 2 }]);
    expect(loose!.message).toContain('2 cut-outs and 1 part in cut-outs');
    expect(inspectDrawing(drawing({ cut }), { smallPart: 1.5 }).loose.small).toBe(0);
  });
});

describe('places too narrow for the blade', () => {
  const slot = polygon([
    [10, 10],
    [50, 10],
    [50, 40],
    [30.2, 40],
    [30.2, 25],
    [29.8, 25],
    [29.8, 40],
    [10, 40],
  ]);
  it('are a warning where twice the offset is wider than they are', () => {
    const found = inspectDrawing(drawing({ cut: [slot] }), { bladeOffset: 0.25 });
    expect(found.narrow).toEqual({ least: 0.5, places: 1 });
    expect(found.findings[0]).toMatchObject({ kind: 'narrow', severity: 'warning' });
    expect(found.findings[0]!.places[0]!.size).toBeCloseTo(0.4, 3);
    expect(kinds(drawing({ cut: [slot] }), { bladeOffset: 0.15 })).not.toContain('narrow');
    expect(kinds(drawing({ cut: [slot] }))).not.toContain('narrow');
    expect(kinds(drawing({ cut: [slot] }), { kerf: 0.45 })).toContain('narrow');
  });
});

describe('time', () => {
  it('is that of each operation at its speed, and of the travel', () => {
    const speed = { draw: 100, score: 50, perforate: 20, cut: 10, register: 100, travel: 200 };
    const d = drawing({ score: [slit], cut: [rectangle(10, 10, 20, 20)] });
    const report = inspectDrawing(d, { speed });
    expect(report.operations.map(o => o.seconds)).toEqual([20 / 50, 80 / 10]);
    expect(report.seconds).toBeCloseTo(0.4 + 8 + report.travel / 200, 12);
    expect(inspectDrawing(d).seconds).toBeUndefined();
  });
});

describe('heaps of lines', () => {
  it('a hundred thousand lines on each other are judged in bounded time', () => {
    const same = polyline([
      [10, 10],
      [90, 70],
    ]);
    const report = inspectDrawing(drawing({ cut: Array.from({ length: 100_000 }, () => same) }));
    expect(report.duplicateLength).toBeCloseTo(99_999 * 100, 3);
  });
  it('and so are lines that nearly are', () => {
    const fan = Array.from({ length: 8000 }, (_, i) =>
      polyline([
        [10 + i * 1e-4, 10],
        [90 - i * 2e-4, 70],
      ]),
    );
    expect(inspectDrawing(drawing({ cut: fan })).good).toBe(false);
  });
});

describe('the tip', () => {
  const cutter: Cutter = {
    id: 'test',
    summary: 'a cutter for tests',
    width: 100,
    height: 80,
    margin: 5,
    blade: { offset: 0.25, overcut: 0.5, compensatedBy: 'file' },
    speed: { draw: 100, score: 50, perforate: 20, cut: 10, register: 100, travel: 200 },
  };
  const strokes = [
    { operation: 'cut', path: rectangle(20, 20, 50, 40) },
    { operation: 'cut', path: circle([40, 40], 8) },
  ] as const;
  const { passes } = planSheet(strokes, cutter, { sheet: { width: 100, height: 80 } });
  const intended = drawing({ cut: passes.flatMap(p => p.drawn) });
  const driven = drawing({ cut: passes.flatMap(p => p.driven) });

  it('is simulated where offset and drawing are known', () => {
    const report = inspectDrawing(driven, { intended, bladeOffset: 0.25 });
    expect(report.tip!.max).toBeLessThanOrEqual(0.01);
    expect(report.good).toBe(true);
    expect(report.openCuts).toBe(1);
  });
  it('fails with another offset, or where nobody compensated', () => {
    expect(kinds(driven, { intended, bladeOffset: 0.5 })).toContain('tip');
    expect(kinds(intended, { intended, bladeOffset: 0.25 })).toContain('tip');
  });
  it('tells where it leaves the drawing: at the corners, by what it misses', () => {
    const { findings, tip } = inspectDrawing(intended, { intended, bladeOffset: 0.25 });
    const { places } = findings.find(f => f.kind === 'tip')!;
    expect(places[0]!.size).toBeCloseTo(Math.max(tip!.max, tip!.uncutMax), 2);
    // check-values.md section 5: 0.66 of the offset is left uncut at a square corner.
    for (const [x, y] of [
      [70, 20],
      [70, 60],
      [20, 60],
    ] as const) {
      const here = places.filter(p => Math.hypot(p.at[0] - x, p.at[1] - y) < 1);
      expect(here.map(p => p.size)).toEqual([expect.closeTo(0.66 * 0.25, 2)]);
    }
  });
  it('is told for a file that may hold the drawing, if nobody allows for the blade', () => {
    const report = inspectDrawing(drawing({ cut: [rectangle(20, 20, 50, 40)] }), {
      bladeOffset: 0.25,
    });
    // check-values.md section 5: 0.66 of the offset at a square corner; the whole of it where the tip
    // is set down behind the start.
    expect(report.unaided!.max).toBeCloseTo(0.25, 3);
    const sizes = report.findings[0]!.places.map(p => p.size!);
    expect(sizes.some(size => Math.abs(size - 0.66 * 0.25) < 0.005)).toBe(true);
    expect(report.good).toBe(true);
    expect(report.findings[0]).toMatchObject({ kind: 'tip', severity: 'note' });
  });
});

describe('a file that allows for the blade, away from what is known of it', () => {
  /** A small heart: its pivot crosses its own way at the cleft. */
  const heart = (size: number): Path =>
    closedPath(
      [50, 40 - 0.9 * size],
      [
        cubic(
          [50 + 1.6 * size, 40 + 0.2 * size],
          [50 + size, 40 + 1.2 * size],
          [50, 40 + 0.5 * size],
        ),
        cubic(
          [50 - size, 40 + 1.2 * size],
          [50 - 1.6 * size, 40 + 0.2 * size],
          [50, 40 - 0.9 * size],
        ),
      ],
    );
  const offset = 0.25;

  it.each([0.7, 1.5, 4, 12])('a heart of %s: its swings are told, and are no fault', size => {
    const driven = drawing({
      cut: compensatePaths([heart(size)], { offset, overcut: 0.5 }).driven,
    });
    const report = inspectDrawing(driven);
    expect(report.findings.filter(f => f.severity === 'fault')).toEqual([]);
    expect(kinds(driven, { bladeOffset: offset })).not.toContain('narrow');
    const known = inspectDrawing(driven, {
      bladeOffset: offset,
      intended: drawing({ cut: [heart(size)] }),
    });
    expect(known.good).toBe(true);
    expect(known.tip!.max).toBeLessThan(0.01);
  });

  it('a large loop and a line that is cut twice stay faults', () => {
    const loop = polyline([
      [10, 10],
      [50, 10],
      [50, 30],
      [30, 30],
      [30, 5],
    ]);
    expect(kinds(drawing({ cut: [loop] }))).toContain('crossing');
    const twice = polyline([
      [10, 10],
      [50, 10],
      [12, 10],
    ]);
    expect(kinds(drawing({ cut: [twice] }))).toContain('duplicate');
  });
});
