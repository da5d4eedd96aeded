/** Drawings of a person's own as motifs. */
import { describe, expect, it } from 'vitest';
import { bounds, pathLength, regionArea, signedArea } from '../../src/geom/index.js';
import type { Layer, ParamValues } from '../../src/model.js';
import { heart } from '../../src/motifs/hearts.js';
import { ownArt } from '../../src/motifs/own-art.js';
import { seeded } from '../../src/motifs/random.js';
import { makeMotifTools } from '../../src/motifs/tools.js';
import { fillParams, ParamError, type ParamTable } from '../../src/params.js';
import { cleanOutlines } from '../../src/tool/index.js';
import { readOwnSvg } from '../../src/write/read-own-svg.js';
import { svg } from '../../src/write/svg.js';
import { deviation } from '../support/deviation.js';
import { CONVENTION } from '../support/drawings.js';
import { allFonts } from '../support/fonts.js';

const none = () => {
  throw new Error('no letters here');
};
const TOOLS = { letter: none, set: none, seeded: (n: number) => seeded(n) };

function layersOf(source: string, given: ParamValues = {}): readonly Layer[] {
  const motif = ownArt('x.svg', readOwnSvg(source, CONVENTION), cleanOutlines);
  return motif.build(fillParams(motif.params as ParamTable, given), TOOLS);
}
const doc = (inside: string) =>
  `<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="100mm" viewBox="0 0 100 100">${inside}</svg>`;
const area = ({ outline, holes }: Layer) => regionArea({ outer: outline, holes });
const SQUARE = '<rect x="10" y="10" width="40" height="40"/>';

describe('a drawing of your own', () => {
  it('of a heart is the heart it was drawn from', () => {
    const drawn = heart.build(fillParams(heart.params, { size: 44 }), TOOLS)[0]!;
    const source = svg.write(
      {
        name: 'heart',
        width: 100,
        height: 100,
        layers: [{ operation: 'cut', paths: [drawn.outline] }],
      },
      CONVENTION,
    );
    const [own] = layersOf(source, { size: 44 });
    expect(deviation(drawn.outline, own!.outline, 1e-3)).toBeLessThan(0.003);
    expect(area(own!) / area(drawn)).toBeCloseTo(1, 4);
    // As many segments: it came back as the curves it is made of, not in facets.
    expect(own!.outline.segments.length).toBeLessThanOrEqual(2 * drawn.outline.segments.length);
  });

  it('is as large as it was drawn, or as wide as asked, its middle on the origin', () => {
    for (const [size, wide] of [
      ['auto', 40],
      [25, 25],
      [120, 120],
    ] as const) {
      const b = bounds(layersOf(doc(SQUARE), { size })[0]!.outline);
      expect(b.maxX - b.minX).toBeCloseTo(wide, 6);
      expect(b.maxX + b.minX).toBeCloseTo(0, 6);
      expect(b.maxY + b.minY).toBeCloseTo(0, 6);
    }
  });

  it('has holes in its pieces, and pieces in its holes', () => {
    const layers = layersOf(
      doc(
        `${SQUARE}<rect x="15" y="15" width="30" height="30"/><circle cx="30" cy="30" r="5"/>` +
          '<circle cx="80" cy="30" r="8"/>',
      ),
    );
    expect(layers.map(l => [l.id, l.holes.length])).toEqual([
      ['part-1', 1],
      ['part-2', 0],
      ['part-3', 0],
    ]);
    expect(area(layers[0]!)).toBeCloseTo(1600 - 900, 6);
    expect(area(layers[1]!)).toBeCloseTo(64 * Math.PI, 6);
    for (const l of layers) {
      expect(signedArea(l.outline)).toBeGreaterThan(0);
      for (const h of l.holes) expect(signedArea(h)).toBeLessThan(0);
    }
  });

  it('closes tiny gaps, drops lines that lie on others, and says how wide a gap is', () => {
    const open = (gap: number) => `<path d="M10 10h40v40h-40V${10 + gap}"/>`;
    const [one] = layersOf(doc(open(0.05) + SQUARE.replace('rect', 'rect id="again"')));
    expect(one!.holes).toEqual([]);
    expect(area(one!)).toBeCloseTo(1600, 0);
    const pieces = '<path d="M10 10H50V50"/><path d="M50 50.04H10"/><path d="M10 50V10.03"/>';
    expect(area(layersOf(doc(pieces))[0]!)).toBeCloseTo(1600, -1);
    expect(() => layersOf(doc(open(0.8)))).toThrow(
      /open by 0\.80 mm; close it, or give gap: 0\.85/,
    );
    expect(layersOf(doc(open(0.8)), { gap: 1 })).toHaveLength(1);
    const twice = layersOf(doc(SQUARE + SQUARE));
    expect(twice).toHaveLength(1);
    expect(pathLength(twice[0]!.outline)).toBeCloseTo(160, 6);
  });

  describe('lines', () => {
    const FACE =
      '<rect width="60" height="60" stroke="red"/><g id="face"><g id="eyes"><circle cx="20" cy="20" r="4" stroke="lime"/></g>' +
      '<path d="M20 40h20" stroke="blue"/></g><path id="fold" d="M0 30H60" stroke="#123456"/>';
    const works = (lines: string) => {
      const [first] = layersOf(doc(FACE), { lines });
      const count = (operation: string) =>
        first!.strokes.filter(s => s.operation === operation).length;
      return [first!.holes.length, count('draw'), count('score'), count('cut')];
    };
    it('are worked by colour and by group', () => {
      expect(works('blue: draw, fold: score')).toEqual([1, 1, 1, 0]);
      expect(works('red: cut, rest: draw')).toEqual([0, 3, 0, 0]);
      expect(works('face: draw, eyes: cut, #123456: leave-out')).toEqual([1, 1, 0, 0]);
      expect(works('red: cut, rest: leave-out')).toEqual([0, 0, 0, 0]);
    });
    it('that the mapping does not know are told with what there is', () => {
      expect(() => works('pink: cut')).toThrow(
        /pink is neither .* it has #0000ff, #00ff00, #123456, #ff0000, eyes, face, fold/,
      );
      expect(() => works('red cut')).toThrow(/write for example/);
      expect(() => works('red: burn')).toThrow(ParamError);
    });
    it('end at the edge of their paper; beside it they are refused', () => {
      const over = '<path id="draw" d="M0 30H100"/>';
      const [first] = layersOf(doc(SQUARE + over));
      expect(pathLength(first!.strokes[0]!.path)).toBeCloseTo(40, 6);
      expect(() => layersOf(doc(`${SQUARE}<path id="draw" d="M0 80H100"/>`))).toThrow(
        /one lies beside it near 20\.0, -50\.0 mm/,
      );
    });
  });

  it('is one paper where its outlines cross, touch or run over themselves', () => {
    const crossing = `${SQUARE}<rect x="30" y="30" width="40" height="40"/>`;
    const [one, ...more] = layersOf(doc(crossing));
    expect([more.length, one!.holes.length]).toEqual([0, 0]);
    expect(area(one!)).toBeCloseTo(2 * 1600 - 400, 6);
    // Three in a chain, the first and the last apart; a hole in one of them stays.
    const chain = `${crossing}<circle cx="72" cy="72" r="10"/>` + '<circle cx="20" cy="20" r="3"/>';
    const united = layersOf(doc(chain));
    expect(united.map(l => l.holes.length)).toEqual([1]);
    // A ring of four bars has the hole that they leave.
    const bar = (x: number, y: number, w: number, h: number) =>
      `<rect x="${x}" y="${y}" width="${w}" height="${h}"/>`;
    const ring = bar(0, 0, 50, 8) + bar(0, 42, 50, 8) + bar(0, 0, 8, 50) + bar(42, 0, 8, 50);
    const [frame] = layersOf(doc(ring));
    expect(frame!.holes).toHaveLength(1);
    expect(area(frame!)).toBeCloseTo(2500 - 34 * 34, 6);
    // An eight: both of its loops are paper, and touch in a point.
    const eight = layersOf(doc('<path d="M0 0L40 40H0L40 0z"/>'));
    expect(eight.reduce((sum, l) => sum + area(l), 0)).toBeCloseTo(800, 6);
  });

  describe('of several papers', () => {
    const OWL =
      '<ellipse cx="50" cy="50" rx="30" ry="40" stroke="maroon"/>' +
      '<g id="eyes"><circle cx="40" cy="35" r="9"/><circle cx="60" cy="35" r="9"/></g>' +
      '<g id="pupils"><circle cx="40" cy="35" r="3"/></g><path id="wing" d="M25 50C40 60 40 75 35 80"/>';
    const lines = 'maroon: cut, eyes: cut on white, pupils: draw, wing: draw';

    it('has pieces of each, in the order in which they were painted', () => {
      const layers = layersOf(doc(OWL), { lines });
      expect(layers.map(l => [l.id, l.paper, l.holes.length])).toEqual([
        ['front', 'main', 0],
        ['white-1', 'white', 0],
        ['white-2', 'white', 0],
      ]);
      // The pupil is drawn on its eye, the wing on the body.
      expect(layers.map(l => l.strokes.length)).toEqual([1, 1, 0]);
      expect(pathLength(layers[1]!.strokes[0]!.path)).toBeCloseTo(6 * Math.PI, 3);
    });
    it('works a line on the paper that is named', () => {
      const below = layersOf(doc(OWL), { lines: lines.replace('draw,', 'draw on main,') });
      expect(below.map(l => l.strokes.length)).toEqual([2, 0, 0]);
      expect(() =>
        layersOf(doc(OWL), { lines: lines.replace('wing: draw', 'wing: draw on white') }),
      ).toThrow(/lines to draw on its paper white; one lies beside it/);
    });
  });

  describe('with words', () => {
    const fonts = allFonts();
    const tools = makeMotifTools({ fonts });
    const TAG = `${SQUARE}<rect id="text" x="15" y="25" width="30" height="8"/>`;
    const made = (source: string, given: ParamValues) => {
      const motif = ownArt('x.svg', readOwnSvg(source, CONVENTION), cleanOutlines);
      return motif.build(fillParams(motif.params as ParamTable, given), tools);
    };
    it('sets them in the room that the drawing has for them', () => {
      const [tag] = made(doc(TAG), { text: 'Plum', size: 80 });
      const b = bounds(...tag!.fills[0]!.regions.map(r => r.outer));
      // The room is drawn 30 × 8 mm about the middle of a square of 40, a little above it.
      expect(Math.max((b.maxX - b.minX) / 60, (b.maxY - b.minY) / 16)).toBeCloseTo(1, 6);
      expect(b.minX + b.maxX).toBeCloseTo(0, 6);
      expect((b.minY + b.maxY) / 2).toBeCloseTo(2, 6);
      expect(tag!.words).toHaveLength(1);
      expect(made(doc(TAG), {})[0]!.fills).toEqual([]);
    });
    it('says where they could go when the drawing has no room', () => {
      expect(() => made(doc(SQUARE), { text: 'Plum' })).toThrow(
        /a rectangle in a group named text/,
      );
      const beside = `${SQUARE}<rect id="text" x="60" y="60" width="30" height="8"/>`;
      expect(() => made(doc(beside), { text: 'Plum' })).toThrow(/its room is beside it/);
    });
  });

  it('that cannot be cut is refused with a reason', () => {
    expect(() => layersOf(doc('<path id="draw" d="M0 0h9"/>'))).toThrow(/nothing to cut/);
    expect(() => layersOf(doc(''))).toThrow(/nothing to cut/);
    const many = Array.from(
      { length: 61 },
      (_, i) => `<circle cx="${(i % 10) * 9}" cy="${Math.floor(i / 10) * 9}" r="2"/>`,
    ).join('');
    expect(() => layersOf(doc(many))).toThrow(/at most 60 separate pieces; it falls into 61/);
  });
});
