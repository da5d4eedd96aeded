import { describe, expect, it } from 'vitest';
import {
  circle,
  closedPath,
  cubic,
  openPath,
  type Path,
  polyline,
  rectangle,
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
    expect(report).toMatchObject({ width: 100, height: 80, good: true, findings: [] });
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
    expect(report.findings.find(f => f.kind === 'crossing')!.at![0]![0]).toBeCloseTo(10, 9);
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
    expect(kinds(drawing({ cut: [circle([20, 20], 0.02)] }))).toEqual(['too-short']);
  });
  it('lines beyond the sheet and beyond the reach of the cutter', () => {
    expect(kinds(drawing({ cut: [rectangle(50, 10, 60, 20)] }))).toEqual(['outside-sheet']);
    const area = { width: 305, height: 305, margin: 12 };
    expect(kinds(drawing({ cut: [rectangle(10, 20, 40, 20)] }), { area })).toEqual([
      'outside-area',
    ]);
    const small = { width: 90, height: 305, margin: 0 };
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
