/** What a swivelling blade is told to do: where lines end, which corners it swings at, where it begins. */
import { describe, expect, it } from 'vitest';
import { type Path, type Point, polyline, rectangle } from '../../src/geom/index.js';
import type { Cutter, Folding, Operation, Stroke } from '../../src/model.js';
import { compensatePaths } from '../../src/tool/compensate.js';
import { planSheet } from '../../src/tool/plan.js';
import { dragTip } from '../../src/tool/simulate.js';
import { tipError } from '../../src/tool/tip-error.js';
import { JOIN_MM, TIP_MM } from '../../src/units/tolerances.js';
import { dxf } from '../../src/write/dxf.js';
import { CONVENTION, drawing } from '../support/drawings.js';

const OFFSET = 0.25;
const FOLDS: Folding = { by: 'tool', dash: 2, gap: 1, passes: 1, setback: 0, sides: 'face' };
const cutter = (by: Folding['by']): Cutter => ({
  id: 'test',
  summary: 'a cutter for tests',
  width: 305,
  height: 305,
  margin: 5,
  blade: { offset: OFFSET, overcut: 1, compensatedBy: 'file' },
  folds: { ...FOLDS, by },
  speed: { draw: 100, score: 50, perforate: 20, cut: 10, register: 100, travel: 200 },
});

/** Three open lines, no two in one direction, so that the blade comes to each turned another way. */
const LINES: Readonly<Record<'score' | 'perforate' | 'cut', readonly [Point, Point]>> = {
  score: [
    [30, 30],
    [30, 90],
  ],
  perforate: [
    [60, 30],
    [120, 90],
  ],
  cut: [
    [150, 60],
    [210, 60],
  ],
};
const strokes: Stroke[] = Object.entries(LINES).map(([operation, ends]) => ({
  operation: operation as Operation,
  path: polyline(ends),
}));

/** Where the blade's tip runs, line for line, over all that the blade does of a sheet. */
function tips(by: Folding['by']) {
  const { passes } = planSheet(strokes, cutter(by), {});
  const bladed = passes.filter(p => by !== 'tool' || p.operation !== 'score');
  const drawn = bladed.flatMap(p => p.drawn.map(path => ({ operation: p.operation, path })));
  const driven = bladed.flatMap(p => p.driven);
  const first = drawn[0]!.path;
  const [x, y] = first.segments[0]!.to;
  const heading = Math.atan2(y - first.start[1], x - first.start[0]);
  const tracks = dragTip(driven, OFFSET, heading);
  return drawn.map((line, i) => ({ ...line, xy: [...tracks[i]!.xy] }));
}

/** Of a track the least and the largest place along the line from `a` to `b`, mm from `a`. */
function reach(xy: readonly number[], [a, b]: readonly [Point, Point]) {
  const size = Math.hypot(b[0] - a[0], b[1] - a[1]);
  const along = xy.flatMap((x, k) =>
    k % 2 === 0 ? [((x - a[0]) * (b[0] - a[0]) + (xy[k + 1]! - a[1]) * (b[1] - a[1])) / size] : [],
  );
  return { from: Math.min(...along), to: Math.max(...along), size };
}

describe('an open line is cut from end to end and no farther, whatever the overcut', () => {
  it.each(['perforation', 'light-cut'] as const)('with folds by %s', by => {
    const found = tips(by);
    expect([...new Set(found.map(f => f.operation))]).toEqual(['score', 'perforate', 'cut']);
    for (const { operation, path, xy } of found) {
      const ends = [path.start, path.segments.at(-1)!.to] as const;
      const { from, to, size } = reach(xy, ends);
      expect(Math.abs(from), operation).toBeLessThan(1e-6);
      expect(Math.abs(to - size), operation).toBeLessThan(1e-6);
    }
  });
  it('an overcut is not for them', () => {
    const slit = [polyline(LINES.cut)];
    const driven = (overcut: number) => compensatePaths(slit, { offset: OFFSET, overcut }, 1);
    expect(driven(1)).toEqual(driven(0));
  });
  it('a slit reaches both of its ends', () => {
    const { xy } = tips('tool').find(t => t.operation === 'cut')!;
    const { from, to } = reach(xy, LINES.cut);
    expect(from).toBeCloseTo(0, 6);
    expect(to).toBeCloseTo(60, 6);
  });
  it('dashes begin and end on paper: nothing runs on to the ends of the line', () => {
    const dashes = tips('tool').filter(t => t.operation === 'perforate');
    const all = reach(
      dashes.flatMap(d => d.xy),
      LINES.perforate,
    );
    expect(all.from).toBeGreaterThan(0.5);
    expect(all.to).toBeLessThan(all.size - 0.5);
  });
  it('a fold that a tool scores is driven as drawn', () => {
    const { passes } = planSheet(strokes, cutter('tool'), {});
    const score = passes.find(p => p.operation === 'score')!;
    expect(score.driven).toEqual(score.drawn);
  });
});

describe('a corner is swung at from a stated turn up', () => {
  const bent = (degrees: number): Path => {
    const a = (degrees * Math.PI) / 180;
    return polyline([
      [0, 0],
      [20, 0],
      [20 + 20 * Math.cos(a), 20 * Math.sin(a)],
    ]);
  };
  const parts = (degrees: number, offset: number) =>
    compensatePaths([bent(degrees)], { offset, overcut: 0 }).driven[0]!.segments.length;
  // JOIN_MM / offset in degrees, as the docstring of compensate.ts and DEVELOPERS.md state it.
  it.each([
    [0.25, 0.114, 0.115],
    [0.5, 0.057, 0.058],
    [1, 0.028, 0.029],
  ])('offset %f mm: none at %f°, one at %f°', (offset, below, above) => {
    expect(parts(below, offset)).toBe(2);
    expect(parts(above, offset)).toBe(3);
    expect(parts(-above, offset)).toBe(3);
  });
  it('as an arc where its height would show, else as a line', () => {
    const kinds = (degrees: number) =>
      compensatePaths([bent(degrees)], { offset: OFFSET, overcut: 0 }).driven[0]!.segments.map(
        s => s.kind,
      );
    // Height of an arc of radius d over δ: d (1 − cos(δ/2)); 0.0005 mm at 7.25°.
    expect(kinds(7.2)).toEqual(['line', 'line', 'line']);
    expect(kinds(7.3)).toEqual(['line', 'arc', 'line']);
  });
  it('a corner that is not swung at costs the drawing less than a twentieth of what is allowed', () => {
    const path = bent(0.114);
    const { driven } = compensatePaths([path], { offset: OFFSET, overcut: 0 });
    const [track] = dragTip(driven, OFFSET, 0);
    const [x, y] = track!.xy.slice(-2);
    const end = path.segments.at(-1)!.to;
    expect(Math.hypot(x! - end[0], y! - end[1])).toBeLessThanOrEqual(JOIN_MM);
    expect(JOIN_MM * 20).toBeLessThanOrEqual(TIP_MM);
  });
});

describe('a closed cut of a sheet', () => {
  const square = planSheet(
    [{ operation: 'cut', path: rectangle(40, 40, 60, 60) }],
    cutter('tool'),
    {},
  );
  const [pass] = square.passes;
  it('begins on a straight part, not at a corner', () => {
    const [x, y] = pass!.drawn[0]!.start;
    const corners: Point[] = [
      [40, 40],
      [100, 40],
      [100, 100],
      [40, 100],
    ];
    for (const c of corners) expect(Math.hypot(x - c[0], y - c[1])).toBeGreaterThan(5);
  });
  it('ends past its start by the overcut, with the heading of the cut that it goes over', () => {
    const path = pass!.drawn[0]!;
    const to = path.segments[0]!.to;
    const size = Math.hypot(to[0] - path.start[0], to[1] - path.start[1]);
    const u = [(to[0] - path.start[0]) / size, (to[1] - path.start[1]) / size] as const;
    const [track] = dragTip(pass!.driven, OFFSET, Math.atan2(u[1], u[0]));
    const [x, y] = track!.xy.slice(-2);
    expect(x).toBeCloseTo(path.start[0] + u[0], 6);
    expect(y).toBeCloseTo(path.start[1] + u[1], 6);
    expect(Math.cos(track!.headingAfter - Math.atan2(u[1], u[0]))).toBeCloseTo(1, 9);
  });
  it('hands on the heading that it ends with where the overcut went round a corner', () => {
    const paths = [rectangle(40, 40, 0.6, 0.6), polyline(LINES.cut)];
    const { driven } = compensatePaths(paths, { offset: OFFSET, overcut: 1 });
    const error = tipError(paths, driven, OFFSET);
    expect(Math.max(error.max, error.uncutMax)).toBeLessThanOrEqual(TIP_MM / 2);
  });
  it('has its swings in the DXF as arcs: four bulges of a quarter turn', () => {
    const text = dxf.write(drawing({ cut: pass!.driven }), CONVENTION);
    const lines = text.split('\n').map(l => l.trim());
    const bulges = lines.flatMap((l, i) =>
      i % 2 === 0 && l === '42' ? [Number(lines[i + 1])] : [],
    );
    const swings = bulges.filter(b => b !== 0);
    expect(swings).toHaveLength(4);
    // check-values.md section 4: the bulge of 90° is tan(90° / 4).
    for (const b of swings) expect(Math.abs(b)).toBeCloseTo(Math.SQRT2 - 1, 4);
  });
});
