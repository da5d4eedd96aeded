import { describe, expect, it } from 'vitest';
import {
  apply,
  bounds,
  circle,
  clockwise,
  contains,
  distanceToPath,
  flatten,
  line,
  openPath,
  pathLength,
  polygon,
  rectangle,
  signedArea,
  transform,
} from '../../src/geom/index.js';
import type { Decoration, Panel } from '../../src/model.js';
import { backingOutlines, outwardOf } from '../../src/motifs/backing.js';
import { decorationPieces } from '../../src/motifs/decorate.js';
import { overhang, overlap } from '../../src/motifs/placement.js';
import { makeMotifTools } from '../../src/motifs/tools.js';
import { ParamError } from '../../src/params.js';
import { allFonts } from '../support/fonts.js';
import { lid, onLid } from '../support/on-lid.js';

const tools = makeMotifTools({ fonts: allFonts() });
const options = { bleed: 3, count: 6, itemName: 'plum-box' };
const base = onLid({ name: 'lid-heart', stocks: { main: 'cranberry' } });
const label: Decoration = {
  ...base,
  name: 'lid-label',
  what: { kind: 'motif', motif: 'label', values: { text: 'Harvest treats' } },
};

describe('backings', () => {
  // Steiner's formula on the convex hull of nothing but the shape itself: A + L d + π d².
  it.each([1, 3, 7])("of a convex shape obey Steiner's formula, %d mm out", d => {
    const hexagon = polygon(
      Array.from({ length: 6 }, (_, i) => [
        20 * Math.cos((i * Math.PI) / 3),
        20 * Math.sin((i * Math.PI) / 3),
      ]),
    );
    for (const shape of [hexagon, rectangle(0, 0, 70, 30), circle([0, 0], 14)]) {
      const [a, l] = [signedArea(shape), pathLength(shape)];
      const out = outwardOf(shape, d);
      expect(signedArea(out)).toBeCloseTo(a + l * d + Math.PI * d * d, 6);
      expect(pathLength(out)).toBeCloseTo(l + 2 * Math.PI * d, 6);
    }
  });

  it('show by their own reveal beyond the one in front', () => {
    const shape = circle([0, 0], 20);
    const out = backingOutlines(shape, [{ reveal: 2 }, { reveal: 5 }, { reveal: 1 }]);
    expect(out.map(o => bounds(o).maxX)).toEqual([22, 27, 28].map(v => expect.closeTo(v, 9)));
  });

  it('of a heart show evenly, to the tolerance of a fit', () => {
    const { pieces } = decorationPieces(
      { ...base, backings: [{ reveal: 3, stock: 'cream' }] },
      undefined,
      tools,
      options,
    );
    const [backing, front] = pieces;
    for (const p of flatten(backing!.outline, 0.01)) {
      expect(distanceToPath(p, front!.outline)).toBeCloseTo(3, 1.7);
    }
  });

  it('keep sharp corners with mitred joins', () => {
    const [round, mitre] = (['round', 'mitre'] as const).map(
      join => backingOutlines(rectangle(0, 0, 50, 30), [{ reveal: 4, join }])[0]!,
    );
    expect(signedArea(mitre!)).toBeCloseTo(58 * 38, 9);
    expect(signedArea(round!)).toBeCloseTo(58 * 38 - (4 - Math.PI) * 16, 9);
  });
});

describe('the pieces of a decoration', () => {
  it('run from the widest backing to the front, each with its stock, count and name', () => {
    const { pieces, placed } = decorationPieces(
      {
        ...label,
        backings: [
          { reveal: 2, stock: 'cream' },
          { reveal: 3, stock: 'kraft' },
        ],
      },
      lid,
      tools,
      options,
    );
    expect(pieces.map(p => [p.id, p.stock, p.count])).toEqual([
      ['lid-label-backing-2', 'kraft', 6],
      ['lid-label-backing-1', 'cream', 6],
      ['lid-label-front', 'cranberry', 6],
    ]);
    expect(placed.map(p => p.piece)).toEqual(pieces.map(p => p.id));
    const widths = pieces.map(p => bounds(p.outline).maxX * 2);
    expect(widths).toEqual([80, 74, 70].map(v => expect.closeTo(v, 6)));
  });

  it('printed letters are art that reaches to the bleed, over a pattern or bare paper', () => {
    const bare = decorationPieces(label, lid, tools, options).pieces[0]!;
    expect(bare.art!.ground).toBe('#ffffff');
    expect(bare.art!.fills).toHaveLength(1);
    expect(bounds(bare.art!.bleed).maxX).toBeCloseTo(38, 6);
    const art = {
      pattern: 'dots',
      values: {},
      palette: ['#f6ecd9', '#b5392e', '#e2a33b'],
      seed: 4,
    };
    const dotted = decorationPieces({ ...label, art }, lid, tools, options).pieces[0]!;
    expect(dotted.art!.fills.length).toBeGreaterThan(2);
    expect(dotted.art!.fills.at(-1)!.colour).toBe('#4a2c2a');
    expect(dotted.art!.ground).toBe('#f6ecd9');
  });

  it('nothing printed is no art: such a piece needs no print sheet', () => {
    const { pieces } = decorationPieces(base, lid, tools, options);
    expect(pieces[0]).not.toHaveProperty('art');
    const drawn = { ...label, what: { ...label.what, values: { text: 'a', lettering: 'draw' } } };
    const piece = decorationPieces(drawn as Decoration, lid, tools, options).pieces[0]!;
    expect(piece).not.toHaveProperty('art');
    expect(piece.strokes.some(s => s.operation === 'draw')).toBe(true);
  });

  it('names what is missing', () => {
    const motif = { kind: 'motif', motif: 'hart', values: {} } as const;
    expect(() => decorationPieces({ ...base, what: motif }, lid, tools, options)).toThrow(
      /one of heart, .*scalloped-disc.*, label/,
    );
    expect(() => decorationPieces({ ...base, stocks: {} }, lid, tools, options)).toThrow(
      ParamError,
    );
  });
});

describe('placement', () => {
  const at = (d: Partial<Decoration>, panel = lid, closures = {}) =>
    decorationPieces({ ...base, ...d }, panel, tools, { ...options, ...closures });

  it('is from the middle of the panel; on the outside the net is seen from behind', () => {
    const frame = (face: 'inside' | 'outside') =>
      at({ face, at: [10, 5], turn: Math.PI / 2 }).placed[0]!.at;
    // The heart's point is at (0, −): turned a quarter it lies to its right.
    const point = (face: 'inside' | 'outside') => apply(frame(face), [0, -10]);
    const close = (x: number, y: number) => [expect.closeTo(x, 9), expect.closeTo(y, 9)];
    expect(point('inside')).toEqual(close(145 + 10 + 10, 230 + 5));
    expect(point('outside')).toEqual(close(145 - 10 - 10, 230 + 5));
  });

  const told = (...args: Parameters<typeof at>) =>
    at(...args)
      .faults.map(f => f.message)
      .join();

  it('refuses what hangs over the edge, and says by how much and where it would fit', () => {
    expect(at({}).faults).toEqual([]);
    expect(at({ at: [30, 0] }).faults).toEqual([]);
    const [fault, ...none] = at({ at: [40, 0] }).faults;
    expect(none).toEqual([]);
    expect(fault!.message).toMatch(
      /plum-box: lid-heart reaches 10 mm past the edge of panel "lid"/,
    );
    expect(at({ at: [40, 0], over: ['edge'] }).faults).toEqual([]);
    expect(at({ at: [30, 0], backings: [{ reveal: 2, stock: 'cream' }] }).faults).toHaveLength(1);
    // What it says does fit, and is near.
    const where = /at: \[(-?[\d.]+)mm, (-?[\d.]+)mm\]/.exec(fault!.hint)!.slice(1).map(Number);
    expect(at({ at: where as unknown as [number, number] }).faults).toEqual([]);
    expect(where[0]).toBeGreaterThan(25);
  });

  it('says by how much smaller it must be where there is no room for it', () => {
    const what = { kind: 'motif', motif: 'heart', values: { size: 120 } } as const;
    const [fault] = at({ what }).faults;
    const part = Number(/made (\d+) % as large/.exec(fault!.hint)![1]);
    const smaller = { ...what, values: { size: (120 * part) / 100 } };
    expect(at({ what: smaller }).faults).toEqual([]);
    expect(part).toBeGreaterThan(40);
  });

  it('refuses a covered window, closure, slit and tear line, unless it is said', () => {
    const window = clockwise(circle([145, 230], 4));
    expect(told({}, { ...lid, holes: [window] })).toMatch(/covers 7\.\d mm of a window/);
    expect(told({ over: ['window'] }, { ...lid, holes: [window] })).toBe('');
    expect(told({ at: [25, 0] }, { ...lid, holes: [window] })).toBe('');
    const dot = { closures: [{ at: [145, 233] as const, diameter: 10 }] };
    expect(told({}, lid, dot)).toMatch(/covers .* mm of a closure dot/);
    expect(told({ over: ['closure'] }, lid, dot)).toBe('');
    expect(told({ at: [28, 0] }, lid, dot)).toBe('');
    for (const [operation, word] of [
      ['cut', 'slit'],
      ['perforate', 'tear line'],
    ] as const) {
      const strokes = [{ operation, path: openPath([120, 230], [line([170, 230])]) }];
      expect(told({}, { ...lid, strokes })).toMatch(word);
      expect(told({ over: ['slit'] }, { ...lid, strokes })).toBe('');
    }
  });

  it('tells a hinge from a free edge', () => {
    const hinges = [openPath([190, 200], [line([190, 260])])];
    // Seen from outside, the net's right is on the left.
    const over = (x: number, more = {}) => told({ at: [x, 0], ...more }, lid, { hinges });
    expect(over(-40)).toMatch(/reaches 10 mm over a hinge of panel "lid"/);
    expect(over(-40)).not.toMatch(/edge/);
    expect(over(40)).toMatch(/past the edge/);
    expect(over(-40, { over: ['edge'] })).toMatch(/over a hinge/);
    expect(over(-40, { over: ['hinge'] })).toBe('');
  });

  it('measures overhang and overlap either way round', () => {
    const card = rectangle(0, 0, 40, 20);
    expect(overhang(rectangle(5, 5, 10, 10), card)).toBe(0);
    expect(overhang(rectangle(35, 5, 10, 10), card)).toBeCloseTo(5, 9);
    // A notch that reaches into the motif between its corners.
    const notched = polygon([
      [0, 0],
      [40, 0],
      [40, 20],
      [22, 20],
      [20, 12],
      [18, 20],
      [0, 20],
    ]);
    expect(overhang(rectangle(10, 5, 20, 10), notched)).toBeGreaterThan(1.9);
    expect(overlap(circle([0, 0], 5), circle([20, 0], 5))).toBe(0);
    expect(overlap(circle([0, 0], 5), circle([8, 0], 5))).toBeCloseTo(2, 2);
    expect(overlap(circle([0, 0], 5), circle([0, 0], 1))).toBeGreaterThan(3.9);
    // Crossing bars: no corner of one is in the other.
    expect(overlap(rectangle(0, 9, 20, 2), rectangle(9, 0, 2, 20))).toBeCloseTo(1, 9);
  });

  const cut = (text: string, values = {}) =>
    at({
      what: {
        kind: 'motif',
        motif: 'label',
        values: { text, font: 'nunito-bold', lettering: 'cut', size: 60, height: 26, ...values },
      },
    }).warnings.join();

  it('warns of islands in cut letters, and only then', () => {
    expect(cut('moon', { bridge: 0 })).toMatch(/2 islands fall/);
    expect(cut('moon')).toBe('');
    expect(cut('moon', { lettering: 'draw' })).toBe('');
    expect(cut('tutti', { bridge: 0 })).not.toMatch(/island/);
  });

  it('warns of paper too narrow between cut letters, and only then', () => {
    expect(cut('F')).toBe('');
    expect(cut('Fig & plum', { font: 'pacifico' })).toMatch(/narrower than 1 mm/);
  });
});

describe('an overlay piece', () => {
  // A panel with one rounded corner and one window, so that a mirror image shows.
  const odd: Panel = {
    ...lid,
    outline: polygon([
      [100, 200],
      [190, 200],
      [190, 245],
      [175, 260],
      [100, 260],
    ]),
    holes: [clockwise(rectangle(110, 240, 20, 10))],
  };
  const overlay = (face: 'inside' | 'outside', extra: Partial<Decoration> = {}) =>
    decorationPieces(
      { ...base, name: 'paper', face, what: { kind: 'overlay', reveal: 2 }, ...extra },
      odd,
      tools,
      options,
    );

  it.each(['inside', 'outside'] as const)(
    'lies on its panel %s with the reveal all round',
    face => {
      const { pieces, placed, warnings } = overlay(face);
      expect(warnings).toEqual([]);
      const onPanel = transform(pieces[0]!.outline, placed[0]!.at);
      for (const p of flatten(onPanel, 0.1)) {
        expect(contains(odd.outline, p)).toBe('in');
        expect(distanceToPath(p, odd.outline)).toBeCloseTo(2, 6);
      }
      const window = transform(pieces[0]!.holes[0]!, placed[0]!.at);
      const b = bounds(window);
      expect([b.minX, b.minY, b.maxX, b.maxY]).toEqual(
        [108, 238, 132, 252].map(v => expect.closeTo(v, 9)),
      );
      expect(signedArea(pieces[0]!.outline)).toBeGreaterThan(0);
      expect(signedArea(pieces[0]!.holes[0]!)).toBeLessThan(0);
    },
  );

  it('for the outside is the mirror image of that for the inside: its print is on the other side', () => {
    const [a, b] = (['inside', 'outside'] as const).map(f =>
      bounds(overlay(f).pieces[0]!.holes[0]!),
    );
    expect(a!.minX).toBeCloseTo(-b!.maxX, 9);
    expect(a!.minY).toBeCloseTo(b!.minY, 9);
  });

  it('has mats behind it that stay clear of the window and on the panel', () => {
    const { pieces } = overlay('outside', { backings: [{ reveal: 1.5, stock: 'gold' }] });
    expect(pieces.map(p => p.id)).toEqual(['paper-backing-1', 'paper-front']);
    expect(pieces[0]!.holes).toHaveLength(1);
    expect(bounds(pieces[0]!.outline).maxX).toBeCloseTo(45 - 0.5, 9);
    expect(() => overlay('outside', { backings: [{ reveal: 2.5, stock: 'gold' }] })).toThrow(
      /at most 2.00 mm/,
    );
  });
});

describe('a hole for a string', () => {
  it.each([false, true])('goes through all that lies behind (mirrored: %s)', mirror => {
    const tag: Decoration = {
      ...base,
      name: 'tag',
      mirror,
      what: { kind: 'motif', motif: 'tag', values: { size: 40, height: 70, hole: 5, ring: 2 } },
      backings: [
        { reveal: 2, stock: 'kraft' },
        { reveal: 3, stock: 'cream' },
      ],
      shadow: { by: [1.5, -1], stock: 'grey' },
    };
    const { pieces } = decorationPieces(tag, undefined, tools, options);
    const holes = pieces.map(p => [p.id, p.holes.map(h => bounds(h))] as const);
    expect(holes.map(([id, all]) => [id, all.length])).toEqual([
      ['tag-shadow', 1],
      ['tag-backing-2', 1],
      ['tag-backing-1', 1],
      ['tag-front', 1],
      ['tag-ring', 1],
    ]);
    const front = holes.find(([id]) => id === 'tag-front')![1][0]!;
    for (const [id, [hole]] of holes) {
      const [x, y] = id === 'tag-shadow' ? [1.5, -1] : [0, 0];
      expect(hole!.minX + x, id).toBeCloseTo(front.minX, 9);
      expect(hole!.maxY + y, id).toBeCloseTo(front.maxY, 9);
    }
  });
});
