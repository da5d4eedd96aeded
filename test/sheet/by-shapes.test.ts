import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bounds, circle, polygon, rectangle, signedArea, transform } from '../../src/geom/index.js';
import type { Piece, Sheet, Stock } from '../../src/model.js';
import { arrangeShapes } from '../../src/sheet/by-shapes.js';
import type { Pattern } from '../../src/sheet/fill.js';
import {
  footprintArea,
  pieceBox,
  reservedZones,
  type SheetOptions,
  sideRoom,
  turning,
} from '../../src/sheet/footprint.js';
import { arrange, printLayout } from '../../src/sheet/index.js';
import { grow } from '../../src/sheet/reach.js';
import { Grid, silhouette } from '../../src/sheet/silhouette.js';
import { clearance, contains, sampled } from '../support/clearance.js';
import { broken } from './laws.js';
import {
  block,
  cutter,
  disc,
  heart,
  leaf,
  pennant,
  piece,
  printedPiece,
  RING,
  stock,
} from './shapes.js';

const SEED = 77;
const paper = stock(304.8, 304.8);
const plain: SheetOptions = { cutter: cutter(304.8, 304.8) };

/** By shapes, whether that saves a sheet or not. */
function byShapes(pieces: readonly Piece[], s: Stock, options: SheetOptions): Sheet[] | undefined {
  const patterns = arrangeShapes(
    pieces.map(p => pieceBox(p, s, options)),
    footprintArea(s, options),
    reservedZones(s, options)!,
    sideRoom(options),
    Number.POSITIVE_INFINITY,
  );
  return patterns?.map((p: Pattern, i) => ({
    id: `${i}`,
    stock: s,
    marks: [],
    copies: p.copies,
    placements: p.puts.map(({ box, x, y, quarters }) => ({
      piece: box.piece,
      at: turning(box.box, x, y, quarters),
    })),
  }));
}

const mm = fc.double({ min: 9, max: 110, noNaN: true });
const count = fc.integer({ min: 1, max: 9 });
const anyPiece = (i: number): fc.Arbitrary<Piece> =>
  fc
    .tuple(fc.constantFrom(disc, leaf, heart, pennant), mm, count)
    .map(([shape, size, n]) => shape(`p${i}`, size, n));
const anyPieces = fc
  .integer({ min: 1, max: 4 })
  .chain(n => fc.tuple(...Array.from({ length: n }, (_, i) => anyPiece(i))));

describe('arrangement by true shapes', () => {
  it('keeps the laws: distance, reach, count, no mirror', () => {
    fc.assert(
      fc.property(anyPieces, fc.constantFrom(0, 3, 4.7), (pieces, gap) => {
        const options = { ...plain, gap };
        const sheets = byShapes(pieces, paper, options);
        expect(sheets).toBeDefined();
        expect(broken(sheets!, pieces, paper, options)).toEqual([]);
      }),
      { seed: SEED, numRuns: 40 },
    );
  });
  it('keeps the bleed of printed pieces, and clear of marks', () => {
    fc.assert(
      fc.property(mm, count, fc.constantFrom(0, 3, 5), (size, n, bleed) => {
        const s = stock(210, 297);
        const options: SheetOptions = {
          cutter: cutter(210, 297, 6),
          print: { margin: 5, bleed, marks: RING },
        };
        const pieces = [
          printedPiece('heart', heart('', size).outline, bleed, n),
          disc('plain', size / 2, n),
        ];
        const sheets = byShapes(pieces, s, options);
        expect(broken(sheets!, pieces, s, options)).toEqual([]);
        const zones = printLayout(s, options.cutter, 5, RING)!.reserve;
        for (const zone of zones) {
          // Smaller by a hair: what only touches it does not cross it.
          const { minX, minY, maxX, maxY } = grow(zone, -1e-4);
          const around = rectangle(minX, minY, maxX - minX, maxY - minY);
          for (const { piece: p, at } of sheets!.flatMap(x => x.placements)) {
            const own = transform(p.art?.bleed ?? p.outline, at);
            expect(clearance(own, around, 1)).toBeGreaterThanOrEqual(0);
          }
        }
      }),
      { seed: SEED, numRuns: 25 },
    );
  });
  it('saves sheets where boxes cannot, and is left alone where they can', () => {
    const sheetsOf = (p: Piece) => {
      const { sheets } = arrange([p], paper, plain);
      expect(broken(sheets!, [p], paper, plain)).toEqual([]);
      return sheets!.reduce((n, s) => n + s.copies, 0);
    };
    const boxOf = (p: Piece) => {
      const b = bounds(p.outline);
      return block(p.id, b.maxX - b.minX, b.maxY - b.minY, p.count);
    };
    for (const p of [heart('heart', 50, 300), pennant('pennant', 60, 200)]) {
      expect(sheetsOf(p)).toBeLessThan(sheetsOf(boxOf(p)));
    }
    const tags = block('tag', 50, 30, 100);
    expect(
      arrangeShapes([pieceBox(tags, paper, plain)], footprintArea(paper, plain), [], 1.5, 99),
    ).toBe(undefined);
  });
  it('turns with the grain only', () => {
    const s = stock(304.8, 304.8, { grain: 'width' });
    const sheets = byShapes([{ ...heart('heart', 40, 30), grain: 'y' }], s, plain);
    const turns = sheets!.flatMap(x => x.placements).map(p => p.at.slice(0, 4));
    expect(turns.every(([a]) => a === 0)).toBe(true);
    expect(new Set(turns.map(([, b]) => b)).size).toBe(2);
  });
  it('is the same again', () => {
    const pieces = [heart('heart', 37, 40), leaf('leaf', 52, 33)];
    expect(byShapes(pieces, paper, plain)).toEqual(byShapes(pieces, paper, plain));
  });
});

describe('silhouette', () => {
  const cellsOf = (shape: ReturnType<typeof silhouette>) => {
    const cells = new Set<string>();
    for (const [i, row] of shape.rows.entries()) {
      for (let k = 0; k < row.length; k += 2) {
        for (let c = row[k]!; c < row[k + 1]!; c++) cells.add(`${c},${i + shape.firstRow}`);
      }
    }
    return cells;
  };
  it('covers every point within its growth, and little more', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(disc, leaf, heart, pennant),
        mm,
        fc.constantFrom(0.5, 1),
        fc.constantFrom(0, 1.5, 3),
        (shape, size, cell, by) => {
          const { outline } = shape('p', size);
          const b = bounds(outline);
          const box = {
            minX: b.minX - by,
            minY: b.minY - by,
            maxX: b.maxX + by,
            maxY: b.maxY + by,
          };
          const cells = cellsOf(silhouette({ outline, by }, box, cell));
          const cellAt = (x: number, y: number) =>
            `${Math.floor((x - box.minX) / cell)},${Math.floor((y - box.minY) / cell)}`;
          for (const [x, y] of sampled(outline)) {
            for (let k = 0; k < 16; k++) {
              const a = (k * Math.PI) / 8;
              const r = by * 0.999999;
              expect(cells.has(cellAt(x + r * Math.cos(a), y + r * Math.sin(a)))).toBe(true);
            }
          }
          // Minkowski: area + perimeter · r + π r² bounds what a growth by r covers.
          const points = sampled(outline);
          const around = points.reduce((l, p, i) => {
            const q = points[(i + 1) % points.length]!;
            return l + Math.hypot(q[0] - p[0], q[1] - p[1]);
          }, 0);
          const r = by + 1.5 * cell;
          const most = Math.abs(signedArea(outline)) + around * r + Math.PI * r * r;
          expect(cells.size * cell * cell).toBeLessThanOrEqual(most * 1.001);
        },
      ),
      { seed: SEED, numRuns: 40 },
    );
  });
  it('fills the inside, and leaves a notch open', () => {
    const notched = polygon([
      [0, 0],
      [30, 0],
      [30, 20],
      [20, 20],
      [20, 5],
      [10, 5],
      [10, 20],
      [0, 20],
    ]);
    const box = { minX: 0, minY: 0, maxX: 30, maxY: 20 };
    const cells = cellsOf(silhouette({ outline: notched, by: 0 }, box, 1));
    expect(cells.has('5,10')).toBe(true);
    expect(cells.has('15,12')).toBe(false);
    expect(contains(sampled(notched), [15, 12])).toBe(false);
  });
});

describe('Grid', () => {
  const round = silhouette(
    { outline: circle([10, 10], 10), by: 0 },
    { minX: 0, minY: 0, maxX: 20, maxY: 20 },
    1,
  );
  it('finds the first place by looking at every cell', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.nat(60), fc.nat(30)), { maxLength: 6 }),
        fc.nat(30),
        (taken, y) => {
          const grid = new Grid(81, 51);
          for (const [x, row] of taken) grid.take(round, x, row);
          const free = (x: number) =>
            taken.every(([tx, ty]) => {
              for (const [i, a] of round.rows.entries()) {
                const b = round.rows[i + y - ty];
                if (!b) continue;
                for (let k = 0; k < a.length; k += 2) {
                  for (let m = 0; m < b.length; m += 2) {
                    if (a[k]! + x < b[m + 1]! + tx && b[m]! + tx < a[k + 1]! + x) return false;
                  }
                }
              }
              return true;
            });
          let first = -1;
          for (let x = 0; x <= 61 && first < 0; x++) if (free(x)) first = x;
          expect(grid.firstFit(round, 0, y, 61)).toBe(first);
        },
      ),
      { seed: SEED, numRuns: 300 },
    );
  });
  it('copies stand apart', () => {
    const grid = new Grid(20, 20);
    const copy = grid.copy();
    grid.take(round, 0, 0);
    expect(grid.firstFit(round, 0, 0, 0)).toBe(-1);
    expect(copy.firstFit(round, 0, 0, 0)).toBe(0);
  });
  it('a piece that only fits by its exact box is left to the boxes', () => {
    const { sheets } = arrange([piece('round', circle([0, 0], 149.4), { count: 2 })], paper, plain);
    expect(sheets).toHaveLength(1);
    expect(sheets![0]!.copies).toBe(2);
  });
});
