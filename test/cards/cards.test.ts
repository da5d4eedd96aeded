/** The test cards: every one is on its sheet, legible, and cuts what it says. */
import { describe, expect, it } from 'vitest';
import { cardFiles } from '../../src/card-files.js';
import { CARDS, type Card } from '../../src/cards/index.js';
import { bounds, pathLength } from '../../src/geom/index.js';
import { parseConvention } from '../../src/job/presets.js';
import { BY_TOOL, type Cutter, type Drawing, PLAIN_IMPORT } from '../../src/model.js';
import { makeMotifTools } from '../../src/motifs/index.js';
import { fillParams, ParamError } from '../../src/params.js';
import { dragTip, inspectDrawing } from '../../src/tool/index.js';
import { readDxf, readSvg } from '../../src/write/index.js';
import { presetText, realPresets } from '../job/real-library.js';
import { RING, stock } from '../sheet/shapes.js';
import { allFonts, fontBytes } from '../support/fonts.js';

const tools = makeMotifTools({ fonts: allFonts() });
const cutter: Cutter = {
  id: 'bench',
  summary: 'cutter for tests',
  width: 304.8,
  height: 304.8,
  margin: 6,
  blade: { offset: 0.25, overcut: 0.5, compensatedBy: 'file' },
  folds: BY_TOOL,
  speed: { draw: 100, score: 60, perforate: 40, cut: 60, register: 100, travel: 200 },
};
const paper = stock(215.9, 279.4);
const read = parseConvention('okabe-ito', 'c', presetText('convention', 'okabe-ito'));
if (!('value' in read)) throw new Error('no convention');
const convention = read.value;

const made = (id: string, values = {}): Card => {
  const kind = CARDS.find(c => c.id === id)!;
  return kind.build(fillParams(kind.params, values), { cutter, stock: paper, tools });
};
const filesOf = async (id: string, values = {}) =>
  (await cardFiles(id, id, made(id, values), {
    cutter,
    convention,
    stock: paper,
    printMargin: 5,
    marks: RING,
    importing: PLAIN_IMPORT,
    letter: (text, height) => tools.letter(text, 'nunito-bold', height),
    page: { font: fontBytes('nunito-bold'), dpi: 300 },
  }))!;
const textOf = async (id: string, ending: string) => {
  const file = (await filesOf(id)).find(f => f.ending === ending)!;
  return new TextDecoder().decode(file.bytes);
};
const cutsOf = (drawing: Drawing) =>
  drawing.layers.filter(l => l.operation === 'cut').flatMap(l => l.paths);

describe.each(CARDS.map(c => [c.id]))('the card %s', id => {
  it('has everything on its sheet, out of the border', () => {
    const card = made(id);
    const all = [...card.strokes.map(s => s.path), ...card.own.flatMap(o => o.paths)];
    const b = bounds(...all);
    expect(b.minX).toBeGreaterThanOrEqual(cutter.margin);
    expect(b.minY).toBeGreaterThanOrEqual(cutter.margin);
    expect(b.maxX).toBeLessThanOrEqual(card.width - cutter.margin);
    expect(b.maxY).toBeLessThanOrEqual(card.height - cutter.margin);
    expect(card.read.length).toBeGreaterThanOrEqual(4);
  });
  it('has files that inspect finds good, the same in SVG and DXF', async () => {
    const svg = (await readSvg(await textOf(id, 'cut.svg'), { name: id })).drawing;
    const dxf = (await readDxf(await textOf(id, 'cut.dxf'), { name: id })).drawing;
    for (const drawing of [svg, dxf]) {
      const { good, findings } = inspectDrawing(drawing);
      expect(good, JSON.stringify(findings)).toBe(true);
    }
    const total = (d: Drawing) => cutsOf(d).reduce((sum, p) => sum + pathLength(p), 0);
    expect(total(dxf)).toBeCloseTo(total(svg), 1);
  });
  it('comes with a page that says how to read it, and loads nothing', async () => {
    const page = await textOf(id, 'html');
    expect(page).toMatch(/How to read it[\s\S]*<li>/);
    expect(page).toContain('an adult changes them');
    expect(page).not.toMatch(/<script|<link|src=|@import|url\((?!#)/);
  });
});

describe('what the cards cut', () => {
  it('is right for each offset of the blade card: the tip cuts the shapes that are drawn', () => {
    const card = made('blade', { from: 0.1, to: 0.9, step: 0.2 });
    const offsets = card.own.slice(0, 5).map(o => o.blade!.offset);
    expect(offsets).toEqual([0.1, 0.3, 0.5, 0.7, 0.9]);
    const squares = card.own.map(o => bounds(o.paths[0]!));
    for (const b of squares.slice(0, 5)) expect(b.maxX - b.minX).toBeCloseTo(8, 9);
  });
  it('is the square of the blade card, for a blade of that offset and no other', async () => {
    const file = (await filesOf('blade', { from: 0.3, to: 0.3, step: 0.1 })).find(
      f => f.ending === 'cut.svg',
    )!;
    const { drawing } = await readSvg(new TextDecoder().decode(file.bytes), { name: 'blade' });
    const [square] = made('blade', { from: 0.3, to: 0.3, step: 0.1 }).own[0]!.paths;
    const wanted = bounds(square!);
    const span = (offset: number) => {
      const { xy } = dragTip(cutsOf(drawing), offset, undefined)[0]!;
      const xs = Array.from({ length: xy.length / 2 }, (_, k) => xy[2 * k]!);
      return [Math.min(...xs) - wanted.minX, Math.max(...xs) - wanted.maxX].map(Math.abs);
    };
    expect(Math.max(...span(0.3))).toBeLessThan(0.01);
    expect(Math.max(...span(0.1))).toBeGreaterThan(0.05);
  });
  it('is slots of rising width on the fit card', () => {
    const comb = made('fit', { thickness: 0.3, step: 0.1 }).strokes[0]!.path;
    const xs = comb.segments.map(s => s.to[0]);
    const widths = Array.from({ length: 10 }, (_, k) => xs[4 * k + 2]! - xs[4 * k + 1]!);
    widths.forEach((w, k) => {
      expect(w).toBeCloseTo(0.3 + 0.1 * k, 9);
    });
  });
  it('is dashes of each ratio on the fold card, beginning and ending on paper', async () => {
    const { drawing } = await readSvg(await textOf('fold', 'cut.svg'), { name: 'fold' });
    const dashes = drawing.layers.filter(l => l.operation === 'perforate').flatMap(l => l.paths);
    expect(dashes.length).toBeGreaterThan(12 * 3);
    expect(drawing.layers.some(l => l.operation === 'score')).toBe(true);
  });
  it('is lines that nothing is allowed for on the kerf card', async () => {
    const { drawing } = await readSvg(await textOf('kerf', 'cut.svg'), { name: 'kerf' });
    const b = bounds(...cutsOf(drawing));
    expect(b.maxX - b.minX).toBeCloseTo(100, 3);
  });
  it('stands in the middle of printed scales on the registration card', async () => {
    const card = made('registration');
    expect(card.printed!.lines.length).toBe(9 * 4 * 9);
    expect((await filesOf('registration')).map(f => f.ending)).toContain('print.pdf');
  });
  it('has more offsets than a card holds refused', () => {
    expect(() => made('blade', { step: 0.01 })).toThrow(ParamError);
    expect(() => made('blade', { from: 1, to: 0.5 })).toThrow('"to" above "from"');
  });
});

it('the cutters of the presets hold every card', () => {
  for (const id of realPresets.ids('cutter')) {
    const preset = realPresets.get('cutter', id);
    if (!('value' in preset)) throw new Error(id);
    for (const kind of CARDS.filter(c => c.id !== 'registration')) {
      const card = kind.build(fillParams(kind.params, {}), {
        cutter: preset.value,
        stock: paper,
        tools,
      });
      expect(card.width, `${kind.id} on ${id}`).toBeLessThanOrEqual(preset.value.width);
      expect(card.height, `${kind.id} on ${id}`).toBeLessThanOrEqual(preset.value.height);
    }
  }
});
