/** The box of least paper: against building every size, folding the box, and laying the sheet. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readPresets } from '../../src/cli/preset-files.js';
import { defineStyle } from '../../src/contracts.js';
import {
  arrangementWords,
  type Blank,
  chooseBoxes,
  outlinesFor,
  treatWords,
} from '../../src/fit/index.js';
import { netPiece } from '../../src/fold/index.js';
import { sheetOf, yieldOn } from '../../src/job/paper-yield.js';
import type { Treat } from '../../src/model.js';
import { fillParams, ParamError } from '../../src/params.js';
import { arrange } from '../../src/sheet/index.js';
import { STYLES } from '../../src/styles/index.js';
import { root } from '../support/command.js';
import { faultsOf } from './laws.js';
import { holds } from './room.js';
import { anyTreat, treat } from './treats.js';

const presets = readPresets({ presetsDir: `${root}/presets` });
function preset<K extends 'stock' | 'cutter' | 'treat'>(kind: K, id: string) {
  const read = presets.get(kind, id);
  if ('faults' in read) throw new Error(`${kind} ${id} is at fault`);
  return read.value;
}
const stock = preset('stock', 'cardstock-65lb-12x12');
const cutter = preset('cutter', 'mat-12x12');
const styles = STYLES.filter(s => s.room).map(style => ({
  style,
  values: fillParams(style.params, {}),
}));
const named = (...ids: string[]) => styles.filter(s => ids.includes(s.style.id));

const ask = (t: Treat, some = styles, sizes = 2) =>
  chooseBoxes({
    treat: t,
    styles: some,
    sheet: sheetOf(stock, cutter),
    step: 0.1,
    sizes,
    yieldOf: yieldOn(stock, cutter),
  });

const six = treat({ kind: 'round', diameter: 40, height: 20 }, 6, { clearance: 1, apart: 1 });

describe('the boxes for a treat', () => {
  it('each hold the arrangement: its laws, and the folded box round its block', () => {
    const { boxes } = ask(six);
    expect(boxes.length).toBeGreaterThan(10);
    for (const { style, inside, nets, arrangement } of boxes) {
      const a = arrangement();
      expect(faultsOf(a, inside), style.id).toEqual([]);
      expect(a.inside, style.id).toEqual(inside);
      if (style.room?.insideFor || style.plan === 'round') continue;
      const t = stock.caliper;
      const block = {
        length: inside.length + t,
        width: inside.width + t,
        height: inside.height + t / 2,
      };
      expect(holds(nets, block, 'rectangle'), style.id).toBe(true);
    }
  });

  it('come by what a sheet gives, then by paper; those that fit no sheet last', () => {
    const { boxes } = ask(
      treat({ kind: 'block', length: 90, width: 60, height: 25 }, 4, { clearance: 1 }),
    );
    const key = boxes.map(({ yield: y, paper }) => [
      y.perSheet > 0 ? 1 / y.perSheet : (y.sheets ?? Number.POSITIVE_INFINITY),
      paper,
    ]);
    for (const [i, [share, paper]] of key.entries()) {
      const next = key[i + 1];
      if (next) expect(share! < next[0]! || (share === next[0] && paper! <= next[1]!)).toBe(true);
    }
    expect(boxes.some(b => b.yield.sheets === undefined)).toBe(true);
  });

  it('take as little paper as any size that is built, in nearly every case', () => {
    const treats = fc.sample(
      anyTreat.filter(t => t.count > 4),
      { seed: 5, numRuns: 12 },
    );
    let [least, more] = [0, 0];
    for (const t of treats) {
      for (const asked of named('flip-lid', 'straight-tuck', 'lid-and-base')) {
        const [best] = ask(t, [asked], 1).boxes;
        const insides = outlinesFor(t).map(o => o.inside);
        const papers = insides.flatMap(inside => {
          try {
            const nets = asked.style.build({ inside, thickness: stock.caliper }, asked.values);
            const sizes = nets.map(net => {
              const { outline } = netPiece(net, stock, 1);
              const points = [outline.start, ...outline.segments.map(s => s.to)];
              const [xs, ys] = [points.map(p => p[0]), points.map(p => p[1])];
              return {
                width: Math.max(...xs) - Math.min(...xs),
                height: Math.max(...ys) - Math.min(...ys),
              };
            });
            const fits = sizes.every(sheetOf(stock, cutter).fits);
            return best?.yield.sheets === undefined || fits
              ? [sizes.reduce((sum, b) => sum + b.width * b.height, 0)]
              : [];
          } catch (error) {
            if (error instanceof ParamError) return [];
            throw error;
          }
        });
        if (!best || papers.length === 0) continue;
        // Rounding up to a tenth adds a little to every side.
        if (best.paper <= Math.min(...papers) * 1.01) least++;
        else more++;
      }
    }
    expect(least).toBeGreaterThan(20);
    expect(more / (least + more)).toBeLessThan(0.1);
  });

  it('tell the first refusal of a style that refuses every size', () => {
    const prim = defineStyle({
      ...STYLES[0]!,
      id: 'prim',
      room: { lies: false },
      build({ inside }) {
        throw new ParamError('height', inside.height, 'never', 'take another style');
      },
    });
    const { boxes, refused } = ask(six, [{ style: prim, values: {} }]);
    expect(boxes).toEqual([]);
    expect(refused.map(r => [r.style.id, r.error.allowed])).toEqual([['prim', 'never']]);
  });
  it('leave out styles that hold no treat', () => {
    const style = STYLES.find(s => s.id === 'divider')!;
    expect(ask(six, [{ style, values: fillParams(style.params, {}) }]).boxes).toEqual([]);
  });
});

describe('how many boxes a sheet gives', () => {
  const blankOf = (width: number, height: number): Blank => ({ width, height });
  const sheetsFor = (blanks: readonly Blank[], count: number) => {
    const outline = ({ width: w, height: h }: Blank) => ({
      start: [0, 0] as const,
      segments: (
        [
          [w, 0],
          [w, h],
          [0, h],
          [0, 0],
        ] as const
      ).map(to => ({ kind: 'line' as const, to })),
      closed: true,
    });
    const pieces = blanks.map((b, i) => ({
      id: `p${i}`,
      title: 'p',
      name: { part: { title: 'p' } },
      stock: stock.id,
      count,
      outline: outline(b),
      holes: [],
      strokes: [],
    }));
    const { sheets } = arrange(pieces, stock, { cutter });
    return sheets?.reduce((n, s) => n + s.copies, 0);
  };

  it.each([
    [[blankOf(100, 80)]],
    [[blankOf(140, 140)]],
    [[blankOf(60, 40), blankOf(50, 50)]],
    [[blankOf(290, 150)]],
    [[blankOf(20, 20)]],
  ])('%j: so many go on one sheet, and one more does not', blanks => {
    const { perSheet, sheets } = yieldOn(stock, cutter)(blanks);
    expect(sheets).toBe(1);
    expect(sheetsFor(blanks, perSheet)).toBe(1);
    expect(sheetsFor(blanks, perSheet + 1)).toBeGreaterThan(1);
  });
  it('a box of two large parts takes two sheets, and a part too large none', () => {
    const give = yieldOn(stock, cutter);
    expect(give([blankOf(200, 200), blankOf(210, 210)])).toEqual({ perSheet: 0, sheets: 2 });
    expect(give([blankOf(400, 50)])).toEqual({ perSheet: 0, sheets: undefined });
    expect(sheetOf(stock, cutter).fits(blankOf(400, 50))).toBe(false);
    expect(sheetOf(stock, cutter).fits(blankOf(50, 290))).toBe(true);
  });
});

describe('in words', () => {
  const mm = (n: number) => `${n} mm`;
  it('treats', () => {
    expect(treatWords(six, mm)).toBe('6 rounds of 40 mm, 20 mm high');
    const bag = treat({ kind: 'pouch', length: 110, width: 75, height: 26, squash: 0.2 });
    expect(treatWords(bag, mm)).toBe('1 pouch of 110 mm x 75 mm x 26 mm, pressed by 20 %');
    expect(treatWords(treat({ kind: 'ball', diameter: 24 }, 2), mm)).toBe('2 balls of 24 mm');
  });
  it('arrangements', () => {
    const told = ask(six, named('straight-tuck', 'lid-and-base'), 8).boxes.map(b =>
      arrangementWords(b.arrangement()),
    );
    expect(told).toContain('3 x 2, flat');
    expect(told).toContain('2 x 1, 3 layers, flat, box on its side');
    expect(told).toContain('2 x 3, on the rim');
  });
});
