import { Resvg } from '@resvg/resvg-js';
import type { Font } from 'fontkit';
import { describe, expect, it } from 'vitest';
import { bounds, signedArea } from '../../src/geom/index.js';
import type { Region } from '../../src/model.js';
import { capitalHeight, letterLine, openFont, shape } from '../../src/motifs/lettering.js';
import { makeMotifTools } from '../../src/motifs/tools.js';
import { ParamError } from '../../src/params.js';
import { allFonts, FACES, fontBytes } from '../support/fonts.js';
import { byHarfBuzz } from '../support/harfbuzz.js';

const LINES = [
  'Harvest treats',
  'AVATAR To. We, “Yes!”',
  'Apfelfest für Kinder',
  'café crème & pâté',
  'fi fl ff ffi office flutter',
  'Thank you 1234567890',
  'rose wolf brown vow orchard',
];

describe('shaping', () => {
  for (const face of FACES) {
    it.each(LINES)(`${face} sets "%s" as HarfBuzz does`, text => {
      const bytes = fontBytes(face)[0]!;
      const { glyphs, positions } = shape(openFont(bytes).fonts[0]!, text);
      const ours = glyphs.map((g, i) => [g.id, positions[i]!.xAdvance]);
      expect(ours).toEqual(byHarfBuzz(bytes, text));
    });
  }

  it('kerns: AV is tighter than A and V alone (or the check above checks nothing)', () => {
    const font = openFont(fontBytes('nunito-bold')[0]!).fonts[0]!;
    const wide = (text: string) => shape(font, text).advanceWidth;
    expect(wide('AV')).toBeLessThan(wide('A') + wide('V') - 5);
  });
});

const area = (regions: readonly Region[]) =>
  regions.reduce(
    (sum, r) => sum + signedArea(r.outer) + r.holes.reduce((s, h) => s + signedArea(h), 0),
    0,
  );

/** Runs of characters that one file of a face has. */
function byFile(fonts: readonly Font[], text: string): [Font, string][] {
  const runs: [Font, string][] = [];
  for (const c of text) {
    const last = runs.at(-1);
    const has = (f: Font) => f.hasGlyphForCodePoint(c.codePointAt(0)!);
    if (last && has(last[0])) last[1] += c;
    else runs.push([fonts.find(has)!, c]);
  }
  return runs;
}

describe('a line of letters', () => {
  const pacifico = openFont(...fontBytes('pacifico'));
  const nunito = openFont(...fontBytes('nunito-bold'));

  it('stands on the baseline with capitals of the height asked for', () => {
    // An E is flat at foot and head: its bounds are the capital's height to the rounding of its
    // corners (Nunito's ends are round, so a hair over).
    const b = bounds(...letterLine(nunito, 'E', 12).map(r => r.outer));
    expect(b.minY).toBeCloseTo(0, 1);
    expect(b.maxY).toBeCloseTo(12, 1);
  });

  it('is welded: joined script letters are one region, with the counters as holes', () => {
    const word = letterLine(pacifico, 'moon', 10);
    expect(word).toHaveLength(1);
    expect(word[0]!.holes.length).toBeGreaterThanOrEqual(2);
    const i = letterLine(pacifico, 'i', 10);
    expect(i).toHaveLength(2);
  });

  it.each([
    ['pacifico', 'Harvest treats'],
    ['pacifico', 'moon & apples'],
    ['nunito-bold', 'AB&%8 äőq'],
  ] as const)('%s: "%s" covers what resvg paints by the nonzero rule, to 0.5 %%', (face, text) => {
    const opened = openFont(...fontBytes(face));
    const ours = area(letterLine(opened, text, 20));
    // The glyphs' own contours, neither cleaned nor welded, painted in one path.
    let x = 0;
    let d = '';
    for (const [font, part] of byFile(opened.fonts, text)) {
      const { glyphs, positions } = shape(font, part);
      const k = 20 / capitalHeight(font);
      glyphs.forEach((glyph, i) => {
        d += glyph.path.scale(k, -k).translate(x, 0).toSVG();
        x += positions[i]!.xAdvance * k;
      });
    }
    const box = `-10 -40 ${Math.ceil(x) + 20} 60`;
    const svg = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="${box}"><path d="${d}"/></svg>`;
    const image = new Resvg(svg, { fitTo: { mode: 'zoom', value: 10 } }).render();
    const alpha = image.pixels.reduce((sum, v, i) => (i % 4 === 3 ? sum + v : sum), 0);
    expect(ours / (alpha / 255 / 100)).toBeGreaterThan(0.995);
    expect(ours / (alpha / 255 / 100)).toBeLessThan(1.005);
  });

  it('keeps the counters open and the crossings filled', () => {
    // By letter: regions and counters that any reader sees.
    const seen = (text: string) => {
      const r = letterLine(nunito, text, 10);
      return [r.length, r.reduce((n, { holes }) => n + holes.length, 0)];
    };
    expect(seen('B')).toEqual([1, 2]);
    expect(seen('A')).toEqual([1, 1]);
    expect(seen('x')).toEqual([1, 0]);
    expect(seen('8')).toEqual([1, 2]);
    expect(seen('%')).toEqual([3, 2]);
    expect(seen('ä')).toEqual([3, 1]);
    expect(seen('&')).toEqual([1, 2]);
  });

  it('outlines are closed, counter-clockwise outside and clockwise inside', () => {
    for (const r of letterLine(pacifico, 'Harvest treats', 10)) {
      expect(signedArea(r.outer)).toBeGreaterThan(0);
      for (const path of [r.outer, ...r.holes]) {
        expect(path.closed).toBe(true);
        expect(path.segments.at(-1)!.to).toEqual(path.start);
      }
      for (const hole of r.holes) expect(signedArea(hole)).toBeLessThan(0);
    }
  });

  it('follows the height in proportion', () => {
    const [small, large] = [letterLine(nunito, 'Pear', 5), letterLine(nunito, 'Pear', 20)];
    expect(area(large) / area(small)).toBeCloseTo(16, 3);
  });

  it('takes a character from the second file of the face', () => {
    expect(letterLine(nunito, 'Alma-körtét főző', 10).length).toBeGreaterThan(10);
    expect(() => letterLine(openFont(fontBytes('nunito-bold')[0]!), 'ő', 10)).toThrow(ParamError);
    // Decomposed text is composed first: o and a combining diaeresis are ö.
    expect(area(letterLine(nunito, 'o\u0308', 10))).toBeCloseTo(
      area(letterLine(nunito, 'ö', 10)),
      9,
    );
  });

  it('names the character that the face lacks', () => {
    expect(() => letterLine(pacifico, 'apple 🍎', 10)).toThrow(/"🍎" \(U\+1F34E\)/);
    expect(() => letterLine(pacifico, '   ', 10)).toThrow(/no mark/);
  });

  it('is the same every time', () => {
    expect(letterLine(pacifico, 'Cider', 8)).toEqual(letterLine(pacifico, 'Cider', 8));
  });
});

describe('tools', () => {
  it('opens a face by name and says which there are', () => {
    const tools = makeMotifTools({ fonts: allFonts() });
    expect(tools.letter('Plum', 'nunito-bold', 10).length).toBe(4);
    expect(() => tools.letter('Plum', 'copperplate', 10)).toThrow(/pacifico, nunito, nunito-bold/);
  });
  it('refuses bytes that are no font', () => {
    const tools = makeMotifTools({ fonts: new Map([['x', new Uint8Array(20)]]) });
    expect(() => tools.letter('Plum', 'x', 10)).toThrow(ParamError);
  });
  it('measures a capital', () => {
    const font = openFont(fontBytes('pacifico')[0]!).fonts[0]!;
    expect(capitalHeight(font)).toBe(840);
  });
});
