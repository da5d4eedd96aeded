/** Text in lines and round circles, its bridges, and the faces for the pen. */
import { readdirSync, readFileSync } from 'node:fs';
import { DOMParser } from '@xmldom/xmldom';
import { describe, expect, it } from 'vitest';
import { clipper, paper } from '../../src/geom/heavy.js';
import {
  bounds,
  distance,
  flatten,
  offsetRegions,
  pathLength,
  regionArea,
  signedArea,
  uniteRegions,
} from '../../src/geom/index.js';
import type { Path, Region } from '../../src/model.js';
import { glyphLine, openFace, openFont } from '../../src/motifs/lettering.js';
import { barsBetween, bridged } from '../../src/motifs/text/bridges.js';
import { setText, textBounds } from '../../src/motifs/text/set.js';
import { ParamError } from '../../src/params.js';
import { FACES, fontBytes, PEN_FACES, penBytes } from '../support/fonts.js';
import { asWoff } from '../support/woff.js';

const area = (regions: readonly Region[]) => regions.reduce((sum, r) => sum + regionArea(r), 0);
const nunito = openFont(...fontBytes('nunito-bold'));
const set = (text: string, more = {}) =>
  setText(nunito, { text, font: 'nunito-bold', height: 10, ...more });

/** By clipper2: the glyphs' own contours, flattened, united by the nonzero rule. */
function byClipper(contours: readonly Path[]): number {
  const flat = contours.map(p => flatten(p, 0.0002).map(([x, y]) => ({ x, y })));
  const { unionD, FillRule } = clipper();
  const united = unionD(flat, [], FillRule.NonZero, 5);
  const twice = united.flatMap(ring =>
    ring.map((p, i) => {
      const q = ring[(i + 1) % ring.length]!;
      return p.x * q.y - q.x * p.y;
    }),
  );
  return twice.reduce((a, b) => a + b, 0) / 2;
}

/** By paper: the same contours as Bézier curves, resolved by the nonzero rule. */
function byPaper(contours: readonly Path[]): number {
  const { CompoundPath } = paper();
  const data = contours.map(({ start, segments }) => {
    const words = segments.map(s =>
      s.kind === 'cubic' ? `C${[s.c1, s.c2, s.to].flat().join(' ')}` : `L${s.to.join(' ')}`,
    );
    return `M${start.join(' ')}${words.join('')}Z`;
  });
  const one = new CompoundPath({ pathData: data.join(''), fillRule: 'nonzero', insert: false });
  const united = one.unite(undefined as unknown as paper.PathItem, { insert: false });
  return Math.abs((united as paper.CompoundPath).area);
}

describe('welded letters', () => {
  it.each(FACES)('%s: cover what two other libraries unite of the same contours', face => {
    const opened = openFont(...fontBytes(face));
    for (const text of ['Harvest', 'Pflaume & B8%', 'moon']) {
      const contours = glyphLine(opened, text, 20).flatMap(g => g.contours);
      const ours = area(setText(opened, { text, font: face, height: 20 }).regions);
      expect(ours / byClipper(contours), `clipper, ${text}`).toBeCloseTo(1, 3.9);
      // paper loses whole letters of words at times; a letter at a time it does not.
      const letters = glyphLine(opened, text, 20).filter(g => g.contours.length > 0);
      for (const { contours: own } of letters) {
        expect(byPaper(own) / byClipper(own), `paper, ${text}`).toBeCloseTo(1, 3);
      }
    }
  });

  it('overlap, or the check above checks nothing', () => {
    const script = openFont(...fontBytes('pacifico'));
    const contours = glyphLine(script, 'moon', 20).flatMap(g => g.contours);
    const raw = contours.reduce((sum, c) => sum + signedArea(c), 0);
    const ours = area(setText(script, { text: 'moon', font: '', height: 20 }).regions);
    expect(Math.abs(Math.abs(raw) / ours - 1)).toBeGreaterThan(0.005);
  });
});

describe('lines', () => {
  it('are parted by line breaks and by strokes with air, not by fractions', () => {
    expect(set('a\nb').baselines).toHaveLength(2);
    expect(set('a / b / c').baselines).toHaveLength(3);
    expect(set('1/2 cup').baselines).toHaveLength(1);
    expect(() => set(Array.from({ length: 13 }, () => 'a').join('\n'))).toThrow(/at most 12 lines/);
  });

  it('stand one leading below each other, flush as asked', () => {
    const tall = bounds(...set('HH').regions.map(r => r.outer));
    const two = textBounds(set('HH / HH', { leading: 2 }));
    expect(two.maxY - two.minY).toBeCloseTo(tall.maxY - tall.minY + 20, 9);
    const widths = set('HHHH / H').baselines.map(b => b.width);
    const starts = (align: string) => set('HHHH / H', { align }).baselines.map(b => b.from[0]);
    expect(starts('left')).toEqual([0, 0]);
    expect(starts('centre')).toEqual(widths.map(w => -w / 2));
    expect(starts('right')).toEqual(widths.map(w => -w));
  });

  it('spaced, are wider by the air between their letters', () => {
    const [a, b] = [0, 0.2].map(spacing => textBounds(set('HIH', { spacing })));
    expect(b!.maxX - b!.minX - (a!.maxX - a!.minX)).toBeCloseTo(2 * 0.2 * 10, 9);
  });
});

describe('bent text', () => {
  // The round end of an I dips below its line by this much.
  const dip = -textBounds(set('I')).minY;
  // An I of Nunito is one upright stroke: its foot lies on the baseline.
  const feet = (bend: number) => set('IIIII', { bend }).regions;

  it.each([0.4, 1, 2, -0.4, -1])('bent by %d rad stands on one circle, turned with it', bend => {
    const { baselines, up } = set('IIIII', { bend });
    const radius = baselines[0]!.width / bend;
    for (const { outer } of feet(bend)) {
      const from = flatten(outer, 0.01).map(p => distance(p, [0, -radius]));
      const nearest = Math.min(...from);
      const furthest = Math.max(...from);
      // A hanging foot is straight, so its corners lie a sagitta off the circle.
      if (bend > 0) expect(nearest).toBeCloseTo(radius - dip, 3);
      else expect(furthest).toBeCloseTo(-radius + dip, 1);
      expect(furthest - nearest).toBeCloseTo(10 + 2 * dip, 0);
      const b = bounds(outer);
      const middle = [(b.minX + b.maxX) / 2, (b.minY + b.maxY) / 2] as const;
      const [x, y] = up(middle);
      const out = Math.atan2(middle[1] + radius, middle[0]) + (bend < 0 ? Math.PI : 0);
      expect(Math.cos(out) * x + Math.sin(out) * y).toBeCloseTo(1, 9);
    }
  });

  it('keeps its letters as they are: the area does not change', () => {
    const spacing = 0.3;
    const straight = area(set('Plum jam', { spacing }).regions);
    for (const bend of [0.8, 3, 6, -3])
      expect(area(set('Plum jam', { spacing, bend }).regions)).toBeCloseTo(straight, 6);
  });

  it('runs round a circle of a given radius, over it or under', () => {
    for (const radius of [30, -30]) {
      const { regions } = set('IIIIIIIIII', { radius, spacing: 1 });
      for (const { outer } of regions) {
        const from = flatten(outer, 0.01).map(p => distance(p, [0, -radius]));
        expect(radius > 0 ? Math.min(...from) : Math.max(...from)).toBeCloseTo(
          radius > 0 ? 30 - dip : 30 + dip,
          1,
        );
      }
    }
  });

  it('refuses to run into its own beginning, and lines that have no room', () => {
    expect(() => set('Harvest treats', { radius: 8 })).toThrow(/runs into its own beginning/);
    expect(() => set('a / b / c / d', { bend: 3 })).toThrow(/no room/);
    expect(set('Harvest treats', { bend: 6.2 }).regions.length).toBeGreaterThan(10);
  });
});

describe('bridges', () => {
  const straightUp = () => [0, 1] as const;

  it.each([...'ABDOPQRabdegopq046889&@%'])('hold every middle of "%s"', letter => {
    const { regions, up } = set(letter, { height: 30 });
    const before = regions.flatMap(r => r.holes).length;
    expect(before).toBeGreaterThan(0);
    const cut = bridged(regions, 1.5, up);
    expect(cut.flatMap(r => r.holes)).toEqual([]);
    // What is left is letter, no more; and not much less.
    expect(area(cut)).toBeLessThan(area(regions));
    expect(area(cut)).toBeGreaterThan(0.75 * area(regions));
  });

  it('are as wide as asked', () => {
    // A ring of stroke 4: a bridge over it is the strip between two lines 1.5 apart.
    const ring = set('O', { height: 30 }).regions;
    const cut = bridged(ring, 1.5, straightUp);
    expect(cut).toHaveLength(2);
    const [left, right] = cut.map(r => bounds(r.outer)).sort((a, b) => a.minX - b.minX);
    const all = bounds(ring[0]!.outer);
    const middle = (all.minX + all.maxX) / 2;
    expect(middle - left!.maxX).toBeCloseTo(0.75, 9);
    expect(right!.minX - middle).toBeCloseTo(0.75, 9);
  });

  it('stand as the letters do', () => {
    const flat = set('O', { height: 30 }).regions;
    const cut = bridged(flat, 1.5, () => [1, 0]);
    const all = bounds(flat[0]!.outer);
    const tops = cut.map(r => bounds(r.outer)).sort((a, b) => a.minY - b.minY);
    expect(tops[0]!.maxY).toBeCloseTo((all.minY + all.maxY) / 2 - 0.75, 9);
  });

  it('join what does not touch: one part, with no neck narrower than the bar', () => {
    const { regions } = set('%!i', { height: 20 });
    expect(regions.length).toBeGreaterThan(5);
    const one = uniteRegions([...regions, ...barsBetween(regions, 2)]);
    expect(one).toHaveLength(1);
    expect(offsetRegions(one, -0.9, 'round')).toHaveLength(1);
    expect(barsBetween(regions.slice(0, 1), 2)).toEqual([]);
  });
});

describe.each(PEN_FACES)('the pen face %s', name => {
  const face = openFace(penBytes(name));
  const text = new TextDecoder().decode(penBytes(name));
  const lines = (of: string, height = 10) => glyphLine(face, of, height).flatMap(g => g.lines);

  it('has the widths and points that an XML reader finds in its file', () => {
    const xml = new DOMParser().parseFromString(text, 'image/svg+xml');
    const glyphs = [...xml.getElementsByTagName('glyph')];
    const of = (c: string) => glyphs.find(g => g.getAttribute('unicode') === c)!;
    const ys = [
      ...of('H')
        .getAttribute('d')!
        .matchAll(/[ML]\s*\S+\s+(\S+)/g),
    ].map(m => Number(m[1]));
    const scale = 10 / Math.max(...ys);
    for (const c of 'AaegwZ09') {
      const [glyph] = glyphLine(face, c, 10);
      expect(glyph!.advance).toBeCloseTo(Number(of(c).getAttribute('horiz-adv-x')) * scale, 9);
      const moves = of(c).getAttribute('d')!.match(/M/g)!.length;
      expect(glyph!.lines).toHaveLength(moves);
    }
  });

  it('has open lines for the letters of Europe, composed where it lacks them', () => {
    const all =
      'ÀÁÂÃÄÅÇÈÉÊËÌÍÎÏÑÒÓÔÕÖÙÚÛÜÝàáâãäåçèéêëìíîïñòóôõöùúûüýÿßæøåŁłŐőŰűŠšŽžČčŘřĚěŃńŚśŻżĄąĘęĞğŞşŢţȘșĐđĪīŪū';
    for (const c of all) {
      const own = lines(c);
      expect(own.length, c).toBeGreaterThan(0);
      expect(
        own.every(l => pathLength(l) > 0),
        c,
      ).toBe(true);
    }
    expect(lines('„Für dich“ – it’s…').length).toBeGreaterThan(10);
  });

  it('puts a mark over its letter, or under it', () => {
    for (const [letter, base, more] of [
      ['ő', 'o', 2],
      ['š', 's', 1],
      ['ň', 'n', 1],
    ] as const) {
      const [with_, without] = [lines(letter), lines(base)];
      const marks = with_.slice(without.length);
      expect(marks).toHaveLength(more);
      const [b, m] = [bounds(...without), bounds(...marks)];
      expect(m.minY).toBeGreaterThan(b.maxY);
      expect(m.minX).toBeGreaterThan(b.minX - 1);
      expect(m.maxX).toBeLessThan(b.maxX + 2);
    }
    const ogonek = lines('ą').slice(lines('a').length);
    expect(bounds(...ogonek).minY).toBeLessThan(bounds(...lines('a')).minY);
  });

  it('names a character that cannot be composed, and its place', () => {
    expect(() => lines('plum 梅 jam')).toThrow(/no "梅" \(U\+6885\), its 6th character/);
  });

  it('comes with the acknowledgement that must travel with it', () => {
    const folder = new URL(`../../presets/fonts/${name}/`, import.meta.url);
    const notice = readdirSync(folder).find(n => /^(NOTICE|OFL)\.txt$/.test(n))!;
    const words = readFileSync(new URL(notice, folder), 'utf8');
    const hershey = [/A\. V\. Hershey/, /James Hurt/, /Cognition, Inc\./];
    const ofl = [/SIL OPEN FONT LICENSE Version 1\.1/, /created by/];
    for (const part of name.startsWith('hershey') ? hershey : ofl) expect(words).toMatch(part);
  });
});

describe('an SVG font', () => {
  const font = (glyph: string) =>
    new TextEncoder().encode(
      `<svg><font horiz-adv-x="10"><glyph unicode="H" d="M 0 0 L 0 7"/><glyph unicode="x" d="M0 0L5 5"/>${glyph}</font></svg>`,
    );
  it('is refused for what is no line: relative commands, missing numbers, no capital', () => {
    expect(() => openFace(font('<glyph unicode="a" d="m 0 0 l 1 1"/>'))).toThrow(ParamError);
    expect(() => openFace(font('<glyph unicode="a" d="M 0 0 L 1"/>'))).toThrow(/number is missing/);
    expect(() => openFace(font('<glyph unicode="a" d="L 1 1"/>'))).toThrow(/begins nowhere/);
    expect(() => openFace(font('<glyph unicode="a" horiz-adv-x="NaN" d=""/>'))).toThrow(/no width/);
    expect(() => openFace(new TextEncoder().encode('<svg></svg>'))).toThrow(/no H and no x/);
    expect(openFace(font('<glyph unicode="&#x41;" d="M0 0C1 1 2 2 3 0Z"/>'))).toBeDefined();
  });
});

describe('letters that a face lacks', () => {
  const sniglet = openFont(...fontBytes('sniglet'));
  const parts = (text: string) => glyphLine(sniglet, text, 10).flatMap(g => g.contours);

  it('are composed of the letter and the mark that it has, over or under each other', () => {
    for (const [letter, base, more] of [
      ['Ő', 'O', 2],
      ['ř', 'r', 1],
      ['Ż', 'Z', 1],
      ['ş', 's', 1],
      ['ș', 's', 1],
    ] as const) {
      const [whole, plain] = [parts(letter), parts(base)];
      expect(whole.length - plain.length, letter).toBe(more);
      const [b, m] = [bounds(...plain), bounds(...whole.slice(plain.length))];
      expect((m.minX + m.maxX) / 2, letter).toBeCloseTo((b.minX + b.maxX) / 2, 6);
      if (/[şș]/.test(letter)) expect(m.minY).toBeLessThan(b.minY);
      else expect(m.minY).toBeGreaterThan(b.maxY);
      // They take the room of the letter.
      expect(glyphLine(sniglet, letter, 10)[0]!.advance).toBe(
        glyphLine(sniglet, base, 10)[0]!.advance,
      );
    }
    // An i gives its dot up.
    expect(parts('ī')).toHaveLength(2);
    expect(setText(sniglet, { text: 'Jiří', font: 'sniglet', height: 10 }).regions).toHaveLength(7);
  });

  it('are told where the face has no such mark, or writes it otherwise', () => {
    for (const c of ['ą', 'ğ', 'ď', 'đ', 'Ж']) {
      expect(() => parts(`a${c}`), c).toThrow(new RegExp(`no "${c}" .* its 2nd character`));
    }
  });
});

describe('a font packed as WOFF', () => {
  it('writes the same letters as its TTF', () => {
    const [ttf] = fontBytes('zilla-slab-bold');
    const woff = openFont(asWoff(ttf!));
    const plain = openFont(ttf!);
    const line = (face: typeof plain) => glyphLine(face, 'Quince & fig', 12);
    expect(line(woff)).toEqual(line(plain));
  });
  it('is refused when it is cut off', () => {
    const bytes = asWoff(fontBytes('sniglet')[0]!);
    expect(() => glyphLine(openFont(bytes.slice(0, 300)), 'a', 10)).toThrow(ParamError);
  });
});
