/** Anchors, copies, lists of names, what is in each other's way, and strips of overlays. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  apply,
  bounds,
  circle,
  clockwise,
  distance,
  distanceToPath,
  flatten,
  rectangle,
  regionArea,
  regionContains,
  roundedPolygon,
  signedArea,
  transform,
} from '../../src/geom/index.js';
import type { Decoration, Panel, StripSpec } from '../../src/model.js';
import { collisionWarnings } from '../../src/motifs/collisions.js';
import { type DecorateOptions, decorationPieces } from '../../src/motifs/decorate.js';
import { contrast } from '../../src/motifs/legible.js';
import { makeMotifTools } from '../../src/motifs/tools.js';
import { ParamError } from '../../src/params.js';
import { allFonts } from '../support/fonts.js';
import { lid, onLid } from '../support/on-lid.js';

const tools = makeMotifTools({ fonts: allFonts() });
const base = onLid({
  name: 'bee',
  face: 'inside',
  what: { kind: 'motif', motif: 'heart', values: { size: 10 } },
  stocks: { main: 'cream' },
});
const made = (
  d: Partial<Decoration>,
  panel: Panel | undefined = lid,
  more: Partial<DecorateOptions> = {},
) =>
  decorationPieces({ ...base, ...d }, panel, tools, {
    bleed: 3,
    count: 6,
    itemName: 'box',
    ...more,
  });
const label = (values: Record<string, string | number>): Decoration['what'] => ({
  kind: 'motif',
  motif: 'label',
  values: { size: 40, height: 20, ...values },
});
const outlinesOf = (d: ReturnType<typeof made>) =>
  d.placed.map(p => bounds(transform(d.pieces.find(q => q.id === p.piece)!.outline, p.at)));

describe('an anchor', () => {
  const box = bounds(lid.outline);

  it.each([0, 0.7])('puts the edges of what is turned by %d inside those of the panel', turn => {
    for (const [x, y] of [
      [0, 1],
      [1, 1],
      [0.5, 0],
      [1, 0.5],
      [0, 0],
      [0.5, 0.5],
    ] as const) {
      const [b] = outlinesOf(made({ anchor: { x, y, inset: 4 }, turn }));
      if (x === 0) expect(b!.minX).toBeCloseTo(box.minX + 4, 9);
      if (x === 1) expect(b!.maxX).toBeCloseTo(box.maxX - 4, 9);
      if (x === 0.5) expect(b!.minX + b!.maxX).toBeCloseTo(box.minX + box.maxX, 9);
      if (y === 0) expect(b!.minY).toBeCloseTo(box.minY + 4, 9);
      if (y === 1) expect(b!.maxY).toBeCloseTo(box.maxY - 4, 9);
    }
  });

  it('is as seen on the face: the left of the outside is the right of the net', () => {
    const [b] = outlinesOf(made({ anchor: { x: 0, y: 0.5, inset: 4 }, face: 'outside' }));
    expect(b!.maxX).toBeCloseTo(box.maxX - 4, 9);
  });

  it('of fractions has the middle there, and can be moved on from', () => {
    const { placed } = made({ anchor: { x: 0.25, y: 0.75 }, at: [2, -1] });
    expect(apply(placed[0]!.at, [0, 0])).toEqual([100 + 22.5 + 2, 200 + 45 - 1]);
  });
});

describe('copies', () => {
  const middles = (d: Partial<Decoration>) => made(d).placed.map(p => apply(p.at, [0, 0]));

  it('in a row are apart by the pitch, or by the gap between them', () => {
    const row = { kind: 'row', count: 4, angle: 0 } as const;
    const pitch = middles({ repeat: { ...row, measure: 'pitch', distance: 12 } });
    expect(pitch.map(p => p[0])).toEqual([127, 139, 151, 163]);
    const boxes = outlinesOf(made({ repeat: { ...row, measure: 'gap', distance: 3 } }));
    for (let i = 1; i < 4; i++) expect(boxes[i]!.minX - boxes[i - 1]!.maxX).toBeCloseTo(3, 9);
    const steep = middles({
      repeat: { ...row, measure: 'pitch', distance: 8, angle: Math.PI / 2 },
    });
    expect(new Set(steep.map(p => p[0].toFixed(6)))).toEqual(new Set(['145.000000']));
  });

  it('in a ring lie on the circle, evenly, the first on top, turned with it or upright', () => {
    const ring = { kind: 'ring', count: 6, radius: 20, upright: false } as const;
    const round = made({ repeat: ring });
    const at = round.placed.map(p => apply(p.at, [0, 0]));
    for (const p of at) expect(distance(p, [145, 230])).toBeCloseTo(20, 9);
    expect(at[0]).toEqual([expect.closeTo(145, 9), expect.closeTo(250, 9)]);
    for (let i = 1; i < 6; i++) expect(distance(at[i]!, at[i - 1]!)).toBeCloseTo(20, 9);
    // A heart's way up points outward.
    for (const { at: m } of round.placed) {
      const [x, y] = [m[4] - 145, m[5] - 230];
      expect((m[2] * x + m[3] * y) / 20).toBeCloseTo(1, 9);
    }
    const upright = made({ repeat: { ...ring, upright: true } });
    for (const { at: m } of upright.placed) expect(m.slice(0, 4)).toEqual([1, 0, 0, 1]);
  });

  it('are as many pieces, and keep the order of their layers: copy by copy, back to front', () => {
    const d = made({
      what: { kind: 'motif', motif: 'bee', values: { size: 25 } },
      backings: [{ reveal: 1, stock: 'kraft' }],
      repeat: { kind: 'row', count: 3, measure: 'gap', distance: 2, angle: 0 },
    });
    const ids = d.pieces.map(p => p.id);
    expect(d.pieces.every(p => p.count === 18)).toBe(true);
    expect(d.placed.map(p => p.piece)).toEqual([...ids, ...ids, ...ids]);
    expect(ids[0]).toBe('bee-backing-1');
  });

  it('by chance: apart, on the panel, off its window, and the same again for one seed', () => {
    const window = clockwise(circle([145, 230], 12));
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 1e6 }),
        fc.integer({ min: 1, max: 8 }),
        (seed, count) => {
          const repeat = { kind: 'scatter', count, seed, gap: 2, turn: 1 } as const;
          const panel = { ...lid, holes: [window] };
          const d = made({ repeat }, panel);
          expect(d.placed).toHaveLength(count);
          expect(d.faults).toEqual([]);
          const outlines = d.placed.map(p => transform(d.pieces[0]!.outline, p.at));
          outlines.forEach((o, i) => {
            for (const p of flatten(o, 0.05)) {
              // To the distance that a hand can place.
              const region = { outer: lid.outline, holes: [window] };
              const out = regionContains(region, p) === 'out';
              const edges = [lid.outline, window].map(e => distanceToPath(p, e));
              expect(out ? Math.min(...edges) : 0).toBeLessThan(0.06);
              for (const other of outlines.slice(0, i)) {
                expect(distanceToPath(p, other)).toBeGreaterThan(2 - 0.06);
              }
            }
          });
          expect(made({ repeat }, panel).placed).toEqual(d.placed);
        },
      ),
      { seed: 41, numRuns: 6 },
    );
    const other = (seed: number) =>
      made({ repeat: { kind: 'scatter', count: 3, seed, gap: 2, turn: 0 } }).placed[0]!.at;
    expect(other(1)).not.toEqual(other(2));
  });

  it('that find no room are refused, with how many would', () => {
    const repeat = { kind: 'scatter', count: 150, seed: 1, gap: 2, turn: 0 } as const;
    expect(() => made({ repeat })).toThrow(/at most about \d+/);
    expect(() => made({ repeat }, undefined)).toThrow(ParamError);
  });
});

describe('turned over', () => {
  it('is the mirror image, with everything on it, and as large', () => {
    const snail = { kind: 'motif', motif: 'snail', values: {} } as const;
    const [plain, over] = [false, true].map(mirror =>
      made({ what: snail, mirror, over: ['edge'] }),
    );
    plain!.pieces.forEach((piece, i) => {
      const image = over!.pieces[i]!;
      expect(signedArea(image.outline)).toBeCloseTo(signedArea(piece.outline), 9);
      expect(bounds(image.outline).minX).toBeCloseTo(-bounds(piece.outline).maxX, 9);
      expect(image.strokes.length).toBe(piece.strokes.length);
    });
  });

  it('its words are warned about', () => {
    expect(made({ what: label({ text: 'Plum' }), mirror: true }).warnings.join()).toMatch(
      /mirrored/,
    );
    expect(made({ what: label({}), mirror: true }).warnings).toEqual([]);
  });
});

describe('words that cannot be read', () => {
  it('contrast is that of WCAG 2.1: black on white is 21, its own examples as published', () => {
    expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 9);
    // "#777777 on white is 4.48:1, #767676 is 4.54:1": the greys on both sides of 4.5 (from memory).
    expect(contrast('#777777', '#ffffff')).toBeCloseTo(4.48, 2);
    expect(contrast('#767676', '#ffffff')).toBeCloseTo(4.54, 2);
  });

  it('pale ink, small print and small pen letters are warned about, and only they', () => {
    const colourOf = () => '#fbf3e4';
    const said = (values: Record<string, string | number>, more = {}) =>
      made({ what: label(values), ...more }, lid, { colourOf }).warnings.join();
    expect(said({ text: 'Plum' })).toBe('');
    expect(said({ text: 'Plum', ink: '#f0d090' })).toMatch(/contrast of 1\.\d to 1/);
    expect(said({ text: 'Plum plum plum plum plum plum plum plum plum plum plum' })).toMatch(
      /printed capitals are \d\.\d mm/,
    );
    expect(said({ text: 'Plum plum plum plum plum', font: 'hershey-sans' })).toMatch(
      /drawn capitals/,
    );
    const art = { pattern: 'dots', values: {}, palette: ['#ffffff', '#4a2c2a'], seed: 1 };
    expect(said({ text: 'Plum' }, { art })).toMatch(/lost in the pattern/);
  });
});

describe('a list of names', () => {
  const each = ['Zoë', 'Ben', 'Max'].map(to => ({ text: `For ${to}` }));
  const backings = [{ reveal: 1.5, stock: 'kraft' }];

  it('is one piece each, and what is alike is cut once for all', () => {
    const { pieces, placed } = made({ what: label({ text: 'For {to}' }), each, backings });
    expect(pieces.map(p => [p.id, p.count])).toEqual([
      ['bee-backing-1', 6],
      ['bee-1-front', 2],
      ['bee-2-front', 2],
      ['bee-3-front', 2],
    ]);
    expect(pieces[1]!.title).toBe('box: bee, front "For Zoë"');
    expect(placed.map(p => p.piece)).toEqual(['bee-backing-1', 'bee-1-front']);
    const widths = pieces.slice(1).map(p => bounds(p.art!.fills[0]!.regions[0]!.outer).maxX);
    expect(new Set(widths).size).toBeGreaterThan(1);
  });

  it('must share the count evenly', () => {
    expect(() =>
      made({ what: label({ text: 'a' }), each: each.slice(0, 2) }, lid, { count: 3 }),
    ).toThrow(/2 names for 3/);
  });
});

describe('decorations of one face', () => {
  const on = (d: Partial<Decoration>) => {
    const decoration = { ...base, ...d };
    return { decoration, covers: made(d).covers };
  };
  const disc = { kind: 'motif', motif: 'scalloped-disc', values: { size: 30 } } as const;

  it('one wholly on another is as it should be; partly over its edge is told', () => {
    const under = on({ name: 'doily', what: disc });
    expect(collisionWarnings([under, on({})], 'box')).toEqual([]);
    expect(collisionWarnings([under, on({ at: [30, 0] })], 'box')).toEqual([]);
    const [told, ...none] = collisionWarnings([under, on({ at: [14, 0] })], 'box');
    expect(none).toEqual([]);
    expect(told).toMatch(/box: bee lies over the edge of doily by \d\.\d mm/);
    expect(collisionWarnings([under, on({ at: [14, 0], over: ['decoration'] })], 'box')).toEqual(
      [],
    );
  });

  it('words that a later one covers are told', () => {
    const words = on({ name: 'label', what: label({ text: 'For you' }) });
    expect(collisionWarnings([words, on({})], 'box').join()).toMatch(
      /covers .* of the words of label/,
    );
    expect(collisionWarnings([on({}), words], 'box')).toEqual([]);
  });

  it('copies over each other are told', () => {
    const row = { kind: 'row', count: 3, measure: 'pitch', distance: 6, angle: 0 } as const;
    expect(collisionWarnings([on({ repeat: row })], 'box').join()).toMatch(/copies of bee/);
    expect(collisionWarnings([on({ repeat: { ...row, distance: 11 } })], 'box')).toEqual([]);
  });
});

const IN = 25.4;
describe('strips of an overlay', () => {
  const flap: Panel = { ...lid, id: 'flap', outline: rectangle(0, 0, 6 * IN, 2 * IN) };
  const strip = (s: Partial<StripSpec>): StripSpec => ({
    width: 10,
    along: 'x',
    from: 'middle',
    offset: 0,
    shift: 0,
    ...s,
  });
  const cut = (
    strips: readonly StripSpec[],
    panel = flap,
    more: Partial<Decoration> = {},
    options = {},
  ) => made({ what: { kind: 'overlay', reveal: IN / 16, strips }, ...more }, panel, options);
  const boxes = (d: ReturnType<typeof made>) =>
    d.placed.map(p => bounds(transform(d.pieces.find(q => q.id === p.piece)!.outline, p.at)));
  const size = (b: ReturnType<typeof bounds>) => [b.maxX - b.minX, b.maxY - b.minY];

  it('common practice (no source): 1⅞ × 5⅞ on a 2 × 6 in flap', () => {
    const whole = made({ what: { kind: 'overlay', reveal: IN / 16 } }, flap);
    expect(size(boxes(whole)[0]!)).toEqual([
      expect.closeTo(5.875 * IN, 9),
      expect.closeTo(1.875 * IN, 9),
    ]);
    // A strip as wide as the panel, without a length, is the same.
    const full = cut([strip({ width: 2 * IN })]);
    expect(size(boxes(full)[0]!)).toEqual(size(boxes(whole)[0]!).map(v => expect.closeTo(v, 9)));
  });

  it('common practice (no source): ⅝ × 5 and ¾ × 3⅞ over each other off centre, ¼ in showing', () => {
    const d = cut([
      strip({ width: 0.625 * IN, length: 5 * IN }),
      strip({ width: 0.75 * IN, length: 3.875 * IN, from: 'before', offset: 0.25 * IN }),
    ]);
    const [a, b] = boxes(d);
    expect(size(a!)).toEqual([5, 0.625].map(v => expect.closeTo(v * IN, 9)));
    expect(size(b!)).toEqual([3.875, 0.75].map(v => expect.closeTo(v * IN, 9)));
    expect(b!.minY - a!.minY).toBeCloseTo(0.25 * IN, 9);
    expect(b!.maxY).toBeGreaterThan(a!.maxY);
    expect(d.pieces.map(p => p.id)).toEqual(['bee-strip-1', 'bee-strip-2']);
  });

  it('are measured from the middle or from an edge, as seen on the face', () => {
    const at = (s: Partial<StripSpec>, face: 'inside' | 'outside' = 'inside') =>
      boxes(cut([strip(s)], flap, { face }))[0]!;
    expect(at({ offset: 5 }).minY).toBeCloseTo(IN + 5 - 5, 9);
    expect(at({ from: 'bottom', offset: 7 }).minY).toBeCloseTo(7, 9);
    expect(at({ from: 'top', offset: 7 }).maxY).toBeCloseTo(2 * IN - 7, 9);
    expect(at({ along: 'y', from: 'left', offset: 20 }).minX).toBeCloseTo(20, 9);
    expect(at({ along: 'y', from: 'left', offset: 20 }, 'outside').maxX).toBeCloseTo(
      6 * IN - 20,
      9,
    );
    expect(at({ along: 'y', from: 'right', offset: 20 }).maxX).toBeCloseTo(6 * IN - 20, 9);
    expect(at({ length: 40, shift: 12 }).minX).toBeCloseTo(3 * IN - 20 + 12, 9);
  });

  it('end as the overlay does: rounded corners followed, the reveal kept', () => {
    const card = roundedPolygon(
      [
        [0, 0],
        [100, 0],
        [100, 60],
        [0, 60],
      ],
      15,
    );
    const panel = { ...flap, outline: card };
    const d = cut([strip({ width: 20, from: 'top', offset: 0 })], panel);
    const [piece] = d.pieces;
    expect(piece!.outline.segments.filter(s => s.kind === 'arc')).toHaveLength(2);
    for (const p of flatten(transform(piece!.outline, d.placed[0]!.at), 0.05)) {
      expect(distanceToPath(p, card)).toBeGreaterThan(IN / 16 - 1e-6);
    }
  });

  it('keep clear of windows, which may part them, and of closure dots', () => {
    const window = clockwise(rectangle(60, 10, 30, 30));
    const parted = cut([strip({ width: 12 })], { ...flap, holes: [window] });
    expect(parted.pieces.map(p => p.id)).toEqual(['bee-strip-1-1', 'bee-strip-1-2']);
    const [a, b] = boxes(parted).sort((p, q) => p.minX - q.minX);
    expect(a!.maxX).toBeCloseTo(60 - IN / 16, 6);
    expect(b!.minX).toBeCloseTo(90 + IN / 16, 6);
    const closures = [{ at: [76.2, 25.4] as const, diameter: 10 }];
    const whole = { what: { kind: 'overlay', reveal: 2 } } as const;
    const overlay = made(whole, flap, { closures });
    const [hole] = overlay.pieces[0]!.holes;
    expect(-signedArea(hole!)).toBeCloseTo(Math.PI * 49, 6);
    expect(made({ ...whole, over: ['closure'] }, flap, { closures }).pieces[0]!.holes).toEqual([]);
    // A dot over the edge bites into the overlay.
    const beside = [{ at: [76.2, 0] as const, diameter: 10 }];
    const bitten = made(whole, flap, { closures: beside }).pieces[0]!;
    expect(bitten.holes).toEqual([]);
    const plain = regionArea({ outer: made(whole, flap).pieces[0]!.outline, holes: [] });
    expect(plain - signedArea(bitten.outline)).toBeGreaterThan(30);
  });

  it('are refused off the panel, and when they show of a strip that runs another way', () => {
    expect(() => cut([strip({ offset: 80 })])).toThrow(/nothing of strip 1 is/);
    expect(() => cut([strip({ along: 'y' }), strip({ from: 'before', offset: 3 })])).toThrow(
      /runs the way of the one before/,
    );
  });
});
