import { describe, expect, it } from 'vitest';
import { apply, bounds, compose, distance, rotation, translation } from '../../src/geom/index.js';
import type { Affine, Point, RegisterMark } from '../../src/model.js';
import { arrange, cutterReach, markPaths, printable, printLayout } from '../../src/sheet/index.js';
import { cutter, disc, printedPiece, stock } from './shapes.js';

/** Sheets of ISO 216 and ANSI/ASME Y14.1; 12 × 12 in is craft practice, from memory. */
const SHEETS = [
  ['A4', 210, 297],
  ['A3', 297, 420],
  ['letter', 215.9, 279.4],
  ['12 × 12 in', 304.8, 304.8],
  ['square 6 in', 152.4, 152.4],
  ['landscape A4', 297, 210],
] as const;

/** Every isometry that takes the first two marks to any two others: any that maps the set onto
 *  itself is among them. Gives the largest miss of a mark under the best of them, but for the one
 *  that moves nothing. */
function leastMiss(points: readonly Point[]): number {
  const [p, q] = points as [Point, Point];
  let least = Number.POSITIVE_INFINITY;
  for (const a of points) {
    for (const b of points) {
      if (a === b || Math.abs(distance(a, b) - distance(p, q)) > 1e-6) continue;
      for (const mirrored of [false, true]) {
        if (!mirrored && a === p && b === q) continue;
        const map = isometry(p, q, a, b, mirrored);
        const misses = points.map(m => {
          const moved = apply(map, m);
          return Math.min(...points.map(o => distance(o, moved)));
        });
        least = Math.min(least, Math.max(...misses));
      }
    }
  }
  return least;
}

function isometry(p: Point, q: Point, a: Point, b: Point, mirrored: boolean): Affine {
  const angle = (s: Point, t: Point) => Math.atan2(t[1] - s[1], t[0] - s[0]);
  const home = compose(rotation(-angle(p, q)), translation(-p[0], -p[1]));
  const flip: Affine = mirrored ? [1, 0, 0, -1, 0, 0] : [1, 0, 0, 1, 0, 0];
  const away = compose(translation(a[0], a[1]), rotation(angle(a, b)));
  return compose(away, compose(flip, home));
}

describe('the five marks', () => {
  it.each(SHEETS)('on %s no turn, mirror or glide takes them onto themselves', (_, w, h) => {
    const layout = printLayout(stock(w, h), cutter(w, h, 3), 5);
    const points = layout!.marks.map(m => m.at);
    expect(points).toHaveLength(5);
    // Far more than a sheet is ever laid askew.
    expect(leastMiss(points)).toBeGreaterThan(20);
  });
  it('the proof would fail on four corners, and on a fifth mark in the middle of an edge', () => {
    const corners: Point[] = [
      [10, 10],
      [200, 10],
      [200, 287],
      [10, 287],
    ];
    expect(leastMiss(corners)).toBeCloseTo(0, 9);
    expect(leastMiss([...corners, [105, 10]])).toBeCloseTo(0, 9);
    expect(leastMiss([...corners, [104, 10]])).toBeCloseTo(2, 9);
  });
  it.each(SHEETS)(
    'on %s they lie in the reach and in the printable area, lines and all',
    (_, w, h) => {
      const s = stock(w, h);
      for (const [margin, printMargin] of [
        [3, 5],
        [8, 0],
        [0, 12.7],
      ] as const) {
        const c = cutter(Math.min(w, 300), h, margin);
        const paths = printLayout(s, c, printMargin)!.marks.flatMap(markPaths);
        const b = bounds(...paths);
        for (const room of [cutterReach(s, c), printable(s, printMargin)]) {
          expect(b.minX).toBeGreaterThanOrEqual(room.minX - 1e-9);
          expect(b.minY).toBeGreaterThanOrEqual(room.minY - 1e-9);
          expect(b.maxX).toBeLessThanOrEqual(room.maxX + 1e-9);
          expect(b.maxY).toBeLessThanOrEqual(room.maxY + 1e-9);
        }
      }
    },
  );
  it('are not placed on a sheet that cannot hold them apart', () => {
    expect(printLayout(stock(30, 200), cutter(300, 300), 5)).toBeUndefined();
    expect(printLayout(stock(200, 15), cutter(300, 300), 5)).toBeUndefined();
    expect(printLayout(stock(200, Number.NaN), cutter(300, 300), 5)).toBeUndefined();
  });
  it('keep a quiet zone and do not touch the captions', () => {
    const { marks, captions, reserve } = printLayout(stock(210, 297), cutter(210, 297), 5)!;
    const apart = (m: RegisterMark) =>
      Math.max(
        captions.minX - m.at[0] - m.arm,
        m.at[0] - m.arm - captions.maxX,
        captions.minY - m.at[1] - m.arm,
        m.at[1] - m.arm - captions.maxY,
      );
    for (const m of marks) expect(apart(m)).toBeGreaterThanOrEqual(1 - 1e-9);
    expect(reserve).toHaveLength(6);
    expect(captions.maxX - captions.minX).toBeGreaterThan(150);
  });
  it('stay clear of every printed piece', () => {
    const s = stock(210, 297);
    const c = cutter(210, 297);
    const pieces = [printedPiece('round', disc('', 41).outline, 3, 60)];
    const { sheets } = arrange(pieces, s, { cutter: c, printed: true, printMargin: 5, bleed: 3 });
    const { reserve } = printLayout(s, c, 5)!;
    expect(sheets!.length).toBeGreaterThan(0);
    for (const sheet of sheets!) {
      expect(sheet.marks).toHaveLength(5);
      for (const { piece: p, at } of sheet.placements) {
        const x = at[4];
        const y = at[5];
        const half = 20.5 + 3;
        expect(p.id).toBe('round');
        for (const z of reserve) {
          const dx = Math.max(z.minX - x, x - z.maxX);
          const dy = Math.max(z.minY - y, y - z.maxY);
          expect(Math.max(dx, dy)).toBeGreaterThanOrEqual(half - 1e-5);
        }
      }
    }
  });
});

describe('markPaths', () => {
  it('is a circle of two arcs and two lines that cross in its middle', () => {
    const [round, across, up] = markPaths({ name: 'm', at: [20, 30], radius: 2.5, arm: 4 });
    expect(round!.closed).toBe(true);
    expect(round!.segments.map(s => s.kind)).toEqual(['arc', 'arc']);
    expect(bounds(round!)).toEqual({ minX: 17.5, minY: 27.5, maxX: 22.5, maxY: 32.5 });
    expect([across!.start, across!.segments[0]!.to]).toEqual([
      [16, 30],
      [24, 30],
    ]);
    expect([up!.start, up!.segments[0]!.to]).toEqual([
      [20, 26],
      [20, 34],
    ]);
  });
});
