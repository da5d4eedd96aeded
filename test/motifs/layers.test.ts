import { describe, expect, it } from 'vitest';
import {
  apply,
  bounds,
  circle,
  offsetRegions,
  polygon,
  regionArea,
  signedArea,
} from '../../src/geom/index.js';
import { backingOutlines, outwardOf } from '../../src/motifs/backing.js';
import { decorationPieces } from '../../src/motifs/decorate.js';
import { keepLeastWidth, narrowPlace } from '../../src/motifs/least-width.js';
import { MOTIFS } from '../../src/motifs/list.js';
import { makeMotifTools } from '../../src/motifs/tools.js';
import { fillParams, ParamError, type ParamTable } from '../../src/params.js';
import { allFonts } from '../support/fonts.js';
import { lid, onLid } from '../support/on-lid.js';

const tools = makeMotifTools({ fonts: allFonts() });
const options = { bleed: 3, count: 1, itemName: 'box' };
const motifOf = (id: string) => MOTIFS.find(m => m.id === id)!;
const asked = (motif: string, values: Record<string, number | string> = {}) =>
  ({
    kind: 'motif',
    motif,
    values: fillParams(motifOf(motif).params as ParamTable, values),
  }) as const;
const base = onLid({ what: asked('heart', { size: 30 }), at: [5, 3], turn: 1 });

describe('joins of a backing', () => {
  const notched = polygon([
    [0, 0],
    [40, 0],
    [40, 30],
    [27, 30],
    [20, 12],
    [13, 30],
    [0, 30],
  ]);
  it('are round, mitred or soft: the soft one fills a cleft, and goes nowhere beyond the round one', () => {
    const [round, mitre, soft] = (['round', 'mitre', 'soft'] as const).map(join =>
      outwardOf(notched, 3, join),
    );
    const [r, m, s] = [round!, mitre!, soft!].map(signedArea) as [number, number, number];
    // A mitred square corner has 9 − 9π/4 more than a round one; there are five such here or nearly.
    expect(m).toBeGreaterThan(r + 4 * (9 - (9 * Math.PI) / 4) - 0.1);
    expect(s).toBeGreaterThan(r + 5);
    const [b, o] = [bounds(soft!), bounds(round!)];
    for (const side of ['minX', 'minY', 'maxX', 'maxY'] as const)
      expect(b[side]).toBeCloseTo(o[side], 2);
    // Nothing on it is a cleft of less than the radius that it came back by.
    const filled = offsetRegions([{ outer: soft!, holes: [] }], 3 * 1.5, 'round');
    const back = offsetRegions(filled, -3 * 1.5, 'round');
    expect(Math.abs(regionArea(back[0]!) / s - 1)).toBeLessThan(2e-3);
  });
  it('of unequal reveal lie in each other, each by its own', () => {
    const behind = backingOutlines(circle([0, 0], 10), [
      { reveal: 1 },
      { reveal: 4 },
      { reveal: 2.5 },
    ]);
    expect(behind.map(p => bounds(p).maxX)).toEqual([11, 15, 17.5].map(v => expect.closeTo(v, 9)));
  });
});

describe('a shadow', () => {
  const shadow = { by: [1.5, -2], stock: 'ink' } as const;
  it('is the widest layer again, moved aside as it is seen, whatever the motif’s turn', () => {
    const backings = [{ reveal: 2, stock: 'cream' }];
    const made = decorationPieces({ ...base, backings, shadow }, lid, tools, options);
    const [first, second] = made.pieces;
    expect([first!.id, first!.stock, second!.id]).toEqual(['one-shadow', 'ink', 'one-backing-1']);
    expect(first!.outline).toEqual(second!.outline);
    const [dark, light] = [made.placed[0]!, made.placed[1]!].map(p => apply(p.at, [4, 7]));
    // On the outside the net's x runs the other way.
    expect(dark![0] - light![0]).toBeCloseTo(-1.5, 9);
    expect(dark![1] - light![1]).toBeCloseTo(-2, 9);
    const inside = decorationPieces({ ...base, face: 'inside', shadow }, lid, tools, options);
    const [a, b] = inside.placed.map(p => apply(p.at, [0, 0]));
    expect(a![0] - b![0]).toBeCloseTo(1.5, 9);
  });
});

describe('cut-outs', () => {
  const cutOut = {
    motif: 'heart',
    values: asked('heart', { size: 10 }).values,
    at: [0, 1],
    turn: 0,
  } as const;
  it('open one layer onto the next and leave the others whole', () => {
    const plain = decorationPieces({ ...base, what: asked('button') }, lid, tools, options);
    const what = asked('scalloped-disc', { size: 30 });
    const backings = [{ reveal: 2, stock: 'cream' }];
    const made = decorationPieces(
      { ...base, what, backings, cutOuts: [cutOut] },
      lid,
      tools,
      options,
    );
    expect(made.pieces.map(p => p.holes.length)).toEqual([0, 1]);
    const heart = motifOf('heart').build(cutOut.values as never, tools)[0]!.outline;
    expect(-signedArea(made.pieces[1]!.holes[0]!)).toBeCloseTo(signedArea(heart), 9);
    expect(plain.pieces.length).toBeGreaterThan(2);
    const through = decorationPieces(
      { ...base, what: asked('drop', { size: 40 }), cutOuts: [{ ...cutOut, through: 'front' }] },
      undefined,
      tools,
      options,
    );
    const named = motifOf('drop')
      .build(asked('drop').values as never, tools)
      .map(l => l.id);
    expect(named.length).toBeGreaterThan(2);
    expect(through.pieces.map(p => p.holes.length)).toEqual(
      named.map(id => (id === 'front' ? 1 : 0)),
    );
  });
  it('keep their distance from the edge and stay on the paper', () => {
    const attempt = (at: readonly [number, number], through?: string) => () =>
      decorationPieces(
        {
          ...base,
          what: asked('scalloped-disc', { size: 30 }),
          cutOuts: [{ ...cutOut, at, ...(through && { through }) }],
        },
        lid,
        tools,
        options,
      );
    expect(attempt([0, 0])).not.toThrow();
    expect(attempt([8.6, 0])).toThrow(/inside the layer "front", at least 1 mm/);
    expect(attempt([12, 0])).toThrow(ParamError);
    expect(attempt([60, 0])).toThrow(ParamError);
    expect(attempt([0, 0], 'wings')).toThrow(/one of front/);
  });
});

describe('lift', () => {
  it('of a backing, of the motif’s own and of the decoration is told piece by piece', () => {
    const backings = [
      { reveal: 2, stock: 'cream', lift: 1.5 },
      { reveal: 2, stock: 'kraft' },
    ];
    const made = decorationPieces({ ...base, backings, lift: 2 }, lid, tools, options);
    expect(made.placed.map(p => p.lift)).toEqual([0, 1.5, 2]);
    const own = decorationPieces({ ...base, what: asked('bow') }, lid, tools, options);
    expect(own.placed.map(p => p.lift)).toEqual([0, 1, 0]);
  });
});

describe('the least width asked for', () => {
  const refused = (id: string, least: number, values: Record<string, number | string> = {}) => {
    const motif = motifOf(id);
    const all = fillParams(motif.params as ParamTable, values);
    try {
      keepLeastWidth(motif, all, motif.build(all, tools), least, tools);
    } catch (error) {
      expect(error).toBeInstanceOf(ParamError);
      return (error as ParamError).message;
    }
    return undefined;
  };
  it('is refused in words where a size cannot keep it, with one that can', () => {
    expect(refused('heart', 5)).toBeUndefined();
    const told = refused('snowflake', 3)!;
    expect(told).toMatch(/snowflake has a (neck|slot) narrower/);
    const wider = Number(/make it (\d+) mm wide/.exec(told)![1]);
    expect(refused('snowflake', 3, { size: wider })).toBeUndefined();
    expect(refused('doily', 9.9, { size: 300 })).toMatch(/allow a smaller least width/);
  });
  it.each(MOTIFS.map(m => m.id))('of 1 mm is kept by %s at its least, usual and most size', id => {
    const motif = motifOf(id);
    const spec = (motif.params as ParamTable).size;
    if (spec?.kind !== 'length') throw new Error(`${id} has no size`);
    let kept = 0;
    for (const size of [spec.least, spec.default, spec.most]) {
      try {
        const layers = motif.build(fillParams(motif.params as ParamTable, { size }), tools);
        // A greeting's welded letters are the person's own; their openings are as the face has them.
        if (id === 'greeting') continue;
        for (const l of layers) expect(narrowPlace(l, 1), `${size} mm, ${l.id}`).toBeUndefined();
        kept++;
      } catch (error) {
        if (!(error instanceof ParamError)) throw error;
      }
    }
    expect(kept).toBeGreaterThan(id === 'greeting' ? -1 : 0);
  });
});
