import { describe, expect, it } from 'vitest';
import { apply, bounds, compose, distance, rotation, translation } from '../../src/geom/index.js';
import type { Affine, Bounds, MarkStyle, Point, RegisterMark } from '../../src/model.js';
import { arrange, cutterReach, printable, printLayout } from '../../src/sheet/index.js';
import { markInk, markPaths } from '../../src/sheet/marks.js';
import { cutter, disc, printedPiece, RING, stock } from './shapes.js';

const STYLES: readonly MarkStyle[] = [
  RING,
  { ...RING, shape: 'corner', size: 8, stroke: 0.5, count: 7 },
  { ...RING, shape: 'disc', size: 6, inset: 4, count: 6 },
];

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
    const layout = printLayout(stock(w, h), cutter(w, h, 3), 5, RING);
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
  it.each([6, 7])('and with %i marks none does either', count => {
    for (const [, w, h] of SHEETS) {
      const { marks } = printLayout(stock(w, h), cutter(w, h, 3), 5, { ...RING, count })!;
      expect(marks).toHaveLength(count);
      expect(leastMiss(marks.map(m => m.at))).toBeGreaterThan(20);
    }
  });
  it.each(SHEETS)('on %s they lie in the reach and are printed, lines and all', (_, w, h) => {
    const s = stock(w, h);
    for (const style of STYLES) {
      for (const [margin, printMargin] of [
        [3, 5],
        [8, 0],
        [0, 12.7],
      ] as const) {
        const c = cutter(Math.min(w, 300), h, margin);
        const { marks, wedge } = printLayout(s, c, printMargin, style)!;
        const inside = (b: Bounds, by: number) => {
          for (const room of [cutterReach(s, c), printable(s, printMargin)]) {
            expect(b.minX - by).toBeGreaterThanOrEqual(room.minX + style.inset - 1e-9);
            expect(b.minY - by).toBeGreaterThanOrEqual(room.minY + style.inset - 1e-9);
            expect(b.maxX + by).toBeLessThanOrEqual(room.maxX - style.inset + 1e-9);
            expect(b.maxY + by).toBeLessThanOrEqual(room.maxY - style.inset + 1e-9);
          }
        };
        for (const mark of marks) {
          const { lines, solids, width } = markInk(mark);
          inside(bounds(...markPaths(mark)), 0);
          if (lines.length > 0) inside(bounds(...lines), width / 2);
          if (solids.length > 0) inside(bounds(...solids), 0);
        }
        inside(bounds(wedge), 0);
      }
    }
  });
  it('are not placed on a sheet that cannot hold them apart', () => {
    for (const [w, h] of [
      [30, 200],
      [200, 15],
      [200, Number.NaN],
    ] as const) {
      expect(printLayout(stock(w, h), cutter(300, 300), 5, RING)).toBeUndefined();
    }
    const wide = { ...RING, inset: 50 };
    expect(printLayout(stock(120, 120), cutter(300, 300), 5, wide)).toBeUndefined();
  });
  it.each(STYLES)('keep quiet zones apart, and off the wedge and the captions: %o', style => {
    const layout = printLayout(stock(210, 297), cutter(210, 297), 5, style)!;
    const { marks, wedge, captions, reserve } = layout;
    const ink = [
      ...marks.map(m => bounds(...markPaths(m), ...markInk(m).lines, ...markInk(m).solids)),
      bounds(wedge),
      captions,
    ];
    ink.forEach((a, i) => {
      for (const b of ink.slice(i + 1)) {
        const apart = Math.max(b.minX - a.maxX, a.minX - b.maxX, b.minY - a.maxY, a.minY - b.maxY);
        // A millimetre, but for the half of a line's width that stands over the path.
        expect(apart).toBeGreaterThanOrEqual(1 - style.stroke / 2 - 1e-9);
      }
    });
    expect(reserve).toHaveLength(ink.length);
    expect(captions.maxX - captions.minX).toBeGreaterThan(140);
    expect(captions.maxY - captions.minY).toBeGreaterThanOrEqual(8 - 1e-9);
  });
  it('have a wedge beside the fifth that points to the upper edge', () => {
    const { marks, wedge } = printLayout(stock(210, 297), cutter(210, 297), 5, RING)!;
    const points = [wedge.start, ...wedge.segments.slice(0, 2).map(s => s.to)];
    const top = points.filter(p => p[1] === Math.max(...points.map(q => q[1])));
    expect(top).toHaveLength(1);
    expect(distance(top[0]!, marks[4]!.at)).toBeLessThan(10);
  });
  it('stay clear of every printed piece', () => {
    const s = stock(210, 297);
    const c = cutter(210, 297);
    const pieces = [printedPiece('round', disc('', 41).outline, 3, 60)];
    const { sheets } = arrange(pieces, s, {
      cutter: c,
      print: { margin: 5, bleed: 3, marks: RING },
    });
    const { reserve } = printLayout(s, c, 5, RING)!;
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

describe('a mark', () => {
  const at: Point = [20, 30];
  const made = (shape: MarkStyle['shape'], size: number, stroke: number): RegisterMark => ({
    name: 'm',
    at,
    style: { shape, size, stroke },
    quarters: 0,
  });
  it('of ring and cross is a circle of two arcs and two lines that cross in its middle', () => {
    const mark = made('ring-and-cross', 8, 0.25);
    const [round, across, up] = markPaths(mark);
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
    expect(markInk(mark)).toEqual({ lines: markPaths(mark), width: 0.25, solids: [] });
  });
  it('of a disc is solid in print; in the cut file its cross comes out of it', () => {
    const { solids, lines } = markInk(made('disc', 6, 0.25));
    expect(lines).toEqual([]);
    expect(bounds(...solids)).toEqual({ minX: 17, minY: 27, maxX: 23, maxY: 33 });
    const [, across, up] = markPaths(made('disc', 6, 0.25));
    expect(bounds(across!, up!)).toEqual({ minX: 15, minY: 25, maxX: 25, maxY: 35 });
  });
  it('of a corner opens toward the sheet, whichever corner it stands in', () => {
    const layout = printLayout(stock(210, 297), cutter(210, 297), 5, STYLES[1]!)!;
    const middle: Point = [105, 148.5];
    for (const mark of layout.marks.slice(0, 4)) {
      const [vee] = markInk(mark).solids;
      const b = bounds(vee!);
      // Its middle is nearer to the sheet's than its vertex, both ways.
      for (const axis of [0, 1] as const) {
        const centre = axis === 0 ? (b.minX + b.maxX) / 2 : (b.minY + b.maxY) / 2;
        expect(Math.abs(centre - middle[axis])).toBeLessThan(
          Math.abs(mark.at[axis] - middle[axis]),
        );
      }
      // Its lines' middles meet where it stands.
      const across = Math.min(b.maxX - mark.at[0], mark.at[0] - b.minX);
      const up = Math.min(b.maxY - mark.at[1], mark.at[1] - b.minY);
      expect(across).toBeCloseTo(0.25, 9);
      expect(up).toBeCloseTo(0.25, 9);
    }
  });
});
