import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bounds, rectangle, signedArea, transform } from '../../src/geom/index.js';
import type { Piece, Sheet } from '../../src/model.js';
import { arrange, cutterReach, type SheetOptions, tooBig } from '../../src/sheet/index.js';
import { broken, NEAR } from './laws.js';
import { block, cutter, disc, leaf, piece, printedPiece, RING, stock } from './shapes.js';

const SEED = 20241;
const paper = stock(304.8, 304.8);
const plain: SheetOptions = { cutter: cutter(304.8, 304.8) };

function sheetsOf(pieces: readonly Piece[], s = paper, options = plain): readonly Sheet[] {
  const result = arrange(pieces, s, options);
  if (result.faults) throw new Error(result.faults.map(f => f.message).join('\n'));
  return result.sheets;
}
const total = (sheets: readonly Sheet[]) => sheets.reduce((n, s) => n + s.copies, 0);
describe('the check itself', () => {
  const two = [block('a', 40, 30), block('b', 40, 30)];
  const good = sheetsOf(two);
  const withAt = (at: readonly [number, number, number, number, number, number]): Sheet[] => [
    {
      ...good[0]!,
      placements: [
        { piece: two[0]!, at: [1, 0, 0, 1, 3, 3] },
        { piece: two[1]!, at },
      ],
    },
  ];
  it('finds nothing wrong with a good sheet', () =>
    expect(broken(good, two, paper, plain)).toEqual([]));
  it.each([
    ['too near', withAt([1, 0, 0, 1, 45.9, 3]), 'a and b'],
    ['on top', withAt([1, 0, 0, 1, 3, 3]), 'a and b'],
    ['off the sheet', withAt([1, 0, 0, 1, 290, 3]), 'leaves the reach'],
    ['mirrored', withAt([-1, 0, 0, 1, 200, 100]), 'mirrored'],
    ['lost', [{ ...good[0]!, placements: good[0]!.placements.slice(1) }], '0 of 1'],
    ['twice', [...good, ...good], '2 of 1'],
  ])('finds a piece %s', (_, sheets, word) => {
    expect(broken(sheets, two, paper, plain).join('; ')).toContain(word);
  });
});

const anyPiece = (i: number): fc.Arbitrary<Piece> => {
  const count = fc.integer({ min: 1, max: 7 });
  const mm = fc.double({ min: 8, max: 150, noNaN: true });
  return fc.oneof(
    fc.tuple(mm, mm, count).map(([w, h, n]) => block(`p${i}`, w, h, n)),
    fc.tuple(mm, count).map(([d, n]) => disc(`p${i}`, d, n)),
    fc.tuple(mm, count).map(([l, n]) => leaf(`p${i}`, l, n)),
    fc
      .tuple(mm, mm, count, fc.constantFrom('x' as const, 'y' as const))
      .map(([w, h, n, grain]) => piece(`p${i}`, rectangle(-w, 3, w, h), { count: n, grain })),
  );
};
const anyPieces = fc
  .integer({ min: 1, max: 6 })
  .chain(n => fc.tuple(...Array.from({ length: n }, (_, i) => anyPiece(i))));

describe('laws of the arrangement', () => {
  it('never overlaps, leaves the reach, mirrors or loses a piece; never beats the area', () => {
    fc.assert(
      fc.property(
        anyPieces,
        fc.constantFrom('width' as const, 'height' as const, 'unknown' as const),
        fc.constantFrom(0, 3, 5.5),
        (pieces, grain, gap) => {
          const s = stock(304.8, 320, { grain });
          const options = { ...plain, gap };
          const sheets = sheetsOf(pieces, s, options);
          expect(broken(sheets, pieces, s, options)).toEqual([]);
          const asked = pieces.reduce((a, p) => a + p.count * signedArea(p.outline), 0);
          const reach = cutterReach(s, plain.cutter);
          const room = (reach.maxX - reach.minX) * (reach.maxY - reach.minY);
          expect(total(sheets)).toBeGreaterThanOrEqual(Math.ceil(asked / room - NEAR));
          for (const { placements } of sheets) {
            for (const { piece: p, at } of placements) {
              if (!p.grain || grain === 'unknown') continue;
              const alongX = (p.grain === 'x') === (at[0] !== 0);
              expect(alongX ? 'width' : 'height').toBe(grain);
            }
          }
        },
      ),
      { seed: SEED, numRuns: 60 },
    );
  });

  it('keeps bleed off other pieces and inside what is printed', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.integer({ min: 10, max: 90 }), fc.integer({ min: 1, max: 5 })), {
          minLength: 1,
          maxLength: 5,
        }),
        fc.constantFrom(0, 2, 3, 6),
        fc.constantFrom(0, 3, 8),
        (sizes, bleed, gap) => {
          const s = stock(210, 297);
          const options: SheetOptions = {
            cutter: cutter(210, 297, 6),
            print: { margin: 5, bleed, marks: RING },
            gap,
          };
          const pieces = sizes.map(([d, n], i) =>
            printedPiece(`p${i}`, disc('', d).outline, bleed, n),
          );
          const sheets = sheetsOf(pieces, s, options);
          expect(broken(sheets, pieces, s, options)).toEqual([]);
        },
      ),
      { seed: SEED, numRuns: 40 },
    );
  });

  it('gives the same sheets again, whatever order the pieces come in', () => {
    fc.assert(
      fc.property(anyPieces, pieces => {
        const once = sheetsOf(pieces);
        expect(sheetsOf(pieces)).toEqual(once);
        expect(sheetsOf([...pieces].reverse())).toEqual(once);
      }),
      { seed: SEED, numRuns: 20 },
    );
  });
});

describe('how well it does', () => {
  it('fills a sheet that divides evenly: 16 squares of 72 mm with no gap on a 288 mm reach', () => {
    const s = stock(294, 294);
    const sheets = sheetsOf([block('square', 72, 72, 16)], s, { ...plain, gap: 0 });
    expect(sheets).toHaveLength(1);
    expect(sheets[0]!.placements).toHaveLength(16);
  });
  it('turns pieces where that saves a sheet: 200 × 90 twice, 110 × 90 twice on 310 × 200', () => {
    const s = stock(316, 206);
    const pieces = [block('long', 200, 90, 1), block('high', 90, 200, 1), block('rest', 110, 200)];
    const sheets = sheetsOf(pieces, s, { ...plain, cutter: cutter(320, 320), gap: 0 });
    expect(total(sheets)).toBe(1);
  });
  it('merges equal sheets and says how many', () => {
    // 9 squares of 96 mm on 298.8 (3 × 96 + 2 × 3 = 294 each way): 1000 = 111 × 9 + 1.
    const sheets = sheetsOf([block('square', 96, 96, 1000)]);
    expect(sheets.map(s => [s.placements.length, s.copies])).toEqual([
      [9, 111],
      [1, 1],
    ]);
    expect(new Set(sheets.map(s => s.id)).size).toBe(2);
  });
  it('takes a million copies without placing a million pieces', () => {
    const sheets = sheetsOf([block('square', 96, 96, 1_000_000), disc('dot', 20, 3)]);
    const put = sheets.reduce((n, s) => n + s.placements.length, 0);
    expect(put).toBeLessThan(60);
    expect(sheets.reduce((n, s) => n + s.copies * s.placements.length, 0)).toBe(1_000_003);
  });
  it('puts small pieces into what large ones leave', () => {
    const sheets = sheetsOf([block('net', 240, 290), block('strip', 40, 120, 2)]);
    expect(total(sheets)).toBe(1);
  });
  it('has nothing to do for no pieces or a count of 0', () => {
    expect(sheetsOf([])).toEqual([]);
    expect(sheetsOf([block('none', 10, 10, 0)])).toEqual([]);
  });
});

describe('limits', () => {
  it('takes a piece that fills the reach to the last micrometre', () => {
    const sheets = sheetsOf([block('all', 304.8 - 6, 304.8 - 6)]);
    expect(
      bounds(transform(sheets[0]!.placements[0]!.piece.outline, sheets[0]!.placements[0]!.at)),
    ).toEqual({ minX: 3, minY: 3, maxX: expect.closeTo(301.8, 9), maxY: expect.closeTo(301.8, 9) });
  });
  it('uses only what the cutter reaches of a larger sheet', () => {
    const options = { ...plain, cutter: cutter(304.8, 304.8, 3) };
    const s = stock(304.8, 609.6);
    const sheets = sheetsOf([block('square', 96, 96, 10)], s, options);
    expect(total(sheets)).toBe(2);
    expect(broken(sheets, [block('square', 96, 96, 10)], s, options)).toEqual([]);
  });
  it('keeps clear of reserved zones', () => {
    const reserve = [{ minX: 100, minY: 0, maxX: 120, maxY: 304.8 }];
    const sheets = sheetsOf([block('square', 80, 80, 20)], paper, { ...plain, reserve });
    for (const { placements } of sheets) {
      for (const { piece: p, at } of placements) {
        const b = bounds(transform(p.outline, at));
        expect(b.maxX <= 100 || b.minX >= 120).toBe(true);
      }
    }
  });
  it('refuses what the stages before must not hand over', () => {
    expect(() =>
      arrange([piece('x', rectangle(0, 0, 1, 1), { stock: 'felt' })], paper, plain),
    ).toThrow(/x is of felt/);
    for (const count of [Number.NaN, -1, 1.5, Number.POSITIVE_INFINITY]) {
      expect(() => arrange([{ ...block('x', 5, 5), count }], paper, plain)).toThrow(/count/);
    }
  });
});

describe('pieces that are too big', () => {
  it('says by how much each way, and the largest that fits', () => {
    const big = block('net', 320, 280);
    expect(tooBig(big, paper, plain)).toEqual({
      need: [320, 280],
      have: [expect.closeTo(298.8, 9), expect.closeTo(298.8, 9)],
      over: [expect.closeTo(21.2, 9), 0],
      turned: false,
      fitsAcrossGrain: false,
      scale: expect.closeTo(298.8 / 320, 9),
    });
    const result = arrange([big, block('fine', 10, 10), block('both', 400, 400)], paper, plain);
    expect(result.faults?.map(f => f.piece.id)).toEqual(['net', 'both']);
    expect(result.faults?.[0]?.message).toContain('21.2 mm too wide');
    expect(result.faults?.[0]?.message).toContain('At 93.3 % of its size');
    expect(result.faults?.[1]?.message).toContain('101.2 mm too wide and 101.2 mm too high');
  });
  it('does not call a piece too big that fits turned', () => {
    const s = stock(210, 297);
    const options = { ...plain, cutter: cutter(210, 297) };
    expect(tooBig(block('long', 280, 100), s, options)).toBeUndefined();
  });
  it('tells when only the grain stands in the way', () => {
    const s = stock(210, 297, { grain: 'height' });
    const options = { ...plain, cutter: cutter(210, 297) };
    const long = piece('long', rectangle(0, 0, 280, 100), { grain: 'y' });
    expect(tooBig(long, s, options)).toMatchObject({ fitsAcrossGrain: true, turned: false });
    expect(arrange([long], s, options).faults?.[0]?.message).toMatch(/grain runs across/);
    expect(tooBig({ ...long, grain: 'x' }, s, options)).toBeUndefined();
  });
  it('the scale that it names does fit, and a little more does not', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 60, max: 900, noNaN: true }),
        fc.double({ min: 60, max: 900, noNaN: true }),
        fc.boolean(),
        (w, h, printed) => {
          const s = stock(210, 297);
          const options: SheetOptions = {
            cutter: cutter(216, 305),
            ...(printed && { print: { margin: 5, bleed: 3, marks: RING } }),
          };
          const t = tooBig(block('net', w, h), s, options);
          if (!t) return;
          expect(t.over[0] > 0 || t.over[1] > 0).toBe(true);
          expect(tooBig(block('net', w * t.scale, h * t.scale), s, options)).toBeUndefined();
          const more = t.scale * 1.001;
          expect(tooBig(block('net', w * more, h * more), s, options)).toBeDefined();
        },
      ),
      { seed: SEED, numRuns: 100 },
    );
  });
  it('says so when a sheet has no room at all', () => {
    const result = arrange([block('net', 20, 20)], stock(5, 5), plain);
    expect(result.faults?.[0]?.message).toContain('has no room for it');
    const printed = arrange([block('net', 20, 20)], stock(15, 15), {
      ...plain,
      print: { margin: 5, bleed: 3, marks: RING },
    });
    expect(printed.faults?.[0]?.tooBig.scale).toBe(0);
  });
});
