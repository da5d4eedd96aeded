/** The guide on paper, read back by pdf.js. */
import { describe, expect, it } from 'vitest';
import { drawNet } from '../../src/fold/index.js';
import { bounds, endOf } from '../../src/geom/index.js';
import { guidePage } from '../../src/guide/index.js';
import type { GuidePage } from '../../src/guide-model.js';
import { boxDocument } from '../../src/job/index.js';
import { STYLES } from '../../src/styles/index.js';
import { boxOf, guideOf, jobOf, outside, overlapping, pdfOf, textsOf } from '../support/guide.js';
import { inOrder, misplaced, structureOf } from '../support/structure.js';

const SIZES = { a4: [595.276, 841.89], letter: [612, 792] } as const;
const A4 = SIZES.a4;
const told = async (page: GuidePage) => {
  const { bytes, missing } = await pdfOf(page);
  return { bytes, missing, texts: await textsOf(bytes) };
};
const pagesOf = (texts: readonly { page: number }[]) => Math.max(...texts.map(t => t.page));
const all = (texts: readonly { text: string }[]) => texts.map(t => t.text).join(' ');
/** Numbers that stand alone: the lengths of the drawing. */
const numbersIn = (texts: readonly { text: string }[]) =>
  texts.filter(t => /^[\d.]+$/.test(t.text)).map(t => Number(t.text));

describe.each(STYLES.map(s => [s.id, s] as const))('the guide of %s', (id, style) => {
  const made = guideOf(boxOf(id, style.example));

  it.each<['a4' | 'letter', 'mm' | 'in']>([
    ['a4', 'mm'],
    ['a4', 'in'],
    ['letter', 'mm'],
    ['letter', 'in'],
  ] as const)(
    'has no two texts on each other, none past the page, on %s in %s',
    async (paper, unit) => {
      const { bytes } = await pdfOf(guidePage({ ...made.guide, unit }), paper);
      const texts = await textsOf(bytes);
      expect(overlapping(texts)).toEqual([]);
      const [wide, high] = SIZES[paper];
      expect(outside(texts, wide, high)).toEqual([]);
      expect(pagesOf(texts)).toBeLessThanOrEqual(4);
      // The first page is full: its last line but the foot is in the lowest third.
      const first = texts.filter(t => t.page === 1 && t.y0 > 0.1 * high).map(t => t.y0);
      if (pagesOf(texts) > 1) expect(Math.min(...first)).toBeLessThan(high / 3);
    },
  );

  it('tells who does not see it what is on it, in order', async () => {
    const { pages, loose, ornament } = await structureOf((await pdfOf(made.page)).bytes);
    expect(loose).toEqual([]);
    expect(misplaced(pages)).toEqual([]);
    const all = inOrder(pages);
    const said = (role: string) => all.filter(e => e.role === role).map(e => e.text.trim());
    expect(said('H1').join(' ')).toBe(made.page.title);
    const { needs, pieces, patterns, byHand, steps, scale, care } = made.page;
    const heads = [needs, pieces, patterns, byHand, steps, care].flatMap(s => (s ? [s.title] : []));
    expect(said('H2').filter(t => t !== scale.title)).toEqual(heads);
    const told = steps?.steps.map(s => s.text) ?? [];
    const lines = all.filter(e => e.role === 'P' || e.role === 'LBody').map(e => e.text.trim());
    expect(lines.filter(t => told.includes(t))).toEqual(told);
    // Only what repeats on every page is not read.
    const seen = ornament.filter(t => !pieces.head.includes(t));
    expect(seen.filter(t => t !== made.page.title && !/^Page \d of \d$/.test(t))).toEqual([]);
  });

  it('prints the lengths of the net: over all, and between lines that are there', async () => {
    const { texts } = await told(made.page);
    const printed = numbersIn(texts);
    // Each length is printed for itself, and no fraction of a millimetre that is not one of them.
    const rest = [...printed];
    for (const { from, to } of made.guide.patterns.flatMap(p => p.pattern.measures)) {
      const at = rest.findIndex(v => Math.abs(v - (to - from)) <= 0.051);
      expect(at, `${to - from} mm`).toBeGreaterThanOrEqual(0);
      rest.splice(at, 1);
    }
    expect(rest.filter(v => !Number.isInteger(v))).toEqual([]);
    for (const { pattern } of made.guide.patterns) {
      const net = made.plan.nets.find(n => n.id === pattern.net)!;
      const box = bounds(...net.panels.map(p => p.outline));
      // A tenth of a millimetre is what is printed.
      for (const side of [box.maxX - box.minX, box.maxY - box.minY]) {
        expect(printed.some(v => Math.abs(v - side) <= 0.051)).toBe(true);
      }
      const { scores, outline } = drawNet(net);
      const corners = [
        ...scores.flatMap(s => [s.path.start, endOf(s.path)]),
        ...outline.segments.map(s => s.to),
        [box.minX, box.minY],
        [box.maxX, box.maxY],
      ];
      for (const { axis, from, to } of pattern.measures) {
        const i = axis === 'x' ? 0 : 1;
        for (const at of [from, to]) {
          expect(Math.min(...corners.map(c => Math.abs(c[i]! - at)))).toBeLessThan(1e-6);
        }
      }
    }
  });
});

describe('the guide of the flip-lid box of 6 x 2 x 1 in', () => {
  const document = boxDocument({ style: 'flip-lid', creases: '6x2x1in', set: {} });
  const { page } = guideOf({ ...document, text: document.text });
  const made = guideOf(
    jobOf('job: fair\nunits: in\nboxes:\n  - { style: flip-lid, creases: 6 x 2 x 1, name: six }'),
  );

  // Common practice, no source: a 9 x 8 in blank, scored at 1/2, 1 1/2, 7 1/2, 8 1/2 and 2, 3, 5, 6.
  it('prints its blank, 9 x 8 in, and the recipe', async () => {
    const { texts } = await told(made.page);
    const text = all(texts).replace(/\s+/g, ' ');
    expect(text).toContain('cut a blank of 9 x 8 in');
    expect(text).toContain('Score at 1/2, 1 1/2, 7 1/2, 8 1/2 in');
    expect(text).toContain('Score at 2, 3, 5, 6 in');
    const lengths = texts.map(t => t.text);
    for (const length of ['9', '8', '6']) expect(lengths).toContain(length);
    expect(page.byHand!.nets[0]!.lines.length).toBeGreaterThan(4);
  });

  it('is the same to the byte each time', async () => {
    const [a, b] = [
      await pdfOf(made.page),
      await pdfOf(
        guideOf(
          jobOf(
            'job: fair\nunits: in\nboxes:\n  - { style: flip-lid, creases: 6 x 2 x 1, name: six }',
          ),
        ).page,
      ),
    ];
    expect(Buffer.from(a.bytes).equals(Buffer.from(b.bytes))).toBe(true);
  });

  it('is read in order: what is needed, the pieces, the pattern, the steps, the cautions', async () => {
    const { texts } = await told(made.page);
    const heads = [
      'You need',
      'Pieces to cut',
      'The flat pattern',
      'Without a cutting machine',
      'Fold and glue',
      'Take care',
    ];
    const places = heads.map(h => texts.findIndex(t => t.text === h));
    expect(places.every(p => p >= 0)).toBe(true);
    expect(places).toEqual([...places].sort((a, b) => a - b));
  });
});

describe('bad luck', () => {
  const box = (more: string) =>
    jobOf(
      `job: fair\nunits: mm\nboxes:\n  - style: flip-lid\n    name: six\n    inside: 150x50x25\n${more}`,
    );
  const titled = (title: string) => guideOf(box(`    title: ${JSON.stringify(title)}\n`)).page;

  it('long titles are set smaller, and end in an ellipsis where that is not enough', async () => {
    const long = 'Quince paste and apple butter for the neighbours ';
    const { texts } = await told(titled(long.repeat(2).trim()));
    expect(all(texts)).toContain('neighbours Quince paste');
    const page = { ...titled('x'), title: long.repeat(30) };
    const longest = await told(page);
    expect(overlapping(longest.texts)).toEqual([]);
    expect(outside(longest.texts, ...A4)).toEqual([]);
    expect(all(longest.texts)).toContain('…');
    const word = await told({ ...page, title: 'x'.repeat(400) });
    expect(outside(word.texts, ...A4)).toEqual([]);
  });

  it('a title in another script gives way to the name, and what is missing is told', async () => {
    const { texts, missing } = await told(titled('ტკბილეულის ყუთი'));
    expect(texts.map(t => t.text)).toContain('Six');
    expect(missing).toContain('ყ');
    expect(all(texts)).not.toMatch(/\?\?/);
  });

  it('a job named in another script is not named, and no row of question marks stands anywhere', async () => {
    const page = { ...titled('ქილები'), job: 'შემოდგომის ბაზარი' };
    const rows = page.pieces.rows.map(r => ({ ...r, cells: ['თაფლი ვაშლი', ...r.cells.slice(1)] }));
    const { texts, missing } = await told({ ...page, pieces: { ...page.pieces, rows } });
    expect(texts.map(t => t.text)).toContain('? ?');
    expect(all(texts)).not.toMatch(/\?\?/);
    expect(texts[0]!.text).toBe('Six');
    expect(missing).toContain('შ');
  });

  it('emoji are left out', async () => {
    const { texts, missing } = await told(titled('Apples 🍎 and pears 👩‍🌾'));
    expect(texts.map(t => t.text)).toContain('Apples and pears');
    expect(missing).toContain('🍎');
  });

  it('eighty decorations on one lid: all on four pages, no text on another', async () => {
    const list = Array.from({ length: 80 }, (_, i) => {
      const at = [(i % 16) * 8 - 60, Math.floor(i / 16) * 8 - 16];
      const params = `params: { size: ${10 + (i % 9)} }, at: [${at}], over: decoration`;
      return `      - { name: disc-${i}, on: lid, motif: scalloped-disc, ${params} }`;
    });
    const { page } = guideOf(box(`    decorations:\n${list.join('\n')}\n`));
    expect(page.pieces.rows.length).toBe(81);
    const { texts } = await told(page);
    expect(overlapping(texts)).toEqual([]);
    expect(outside(texts, ...A4)).toEqual([]);
    expect(pagesOf(texts)).toBeLessThanOrEqual(4);
    // All layers in one line: they are numbered one after the other.
    expect(all(texts)).toContain('Disc 0 to 79, front');
  });

  it('no decorations: no section for them', async () => {
    const { page } = guideOf(box(''));
    expect(page.decorating).toBeUndefined();
    expect(all((await told(page)).texts)).not.toContain('Decorate');
  });

  it('a net with sixty lengths side by side: each has its place', async () => {
    const { page } = guideOf(box(''));
    const [net] = page.patterns!.nets;
    const { of } = net!.pattern;
    const b = bounds(of.outline);
    const step = (b.maxX - b.minX) / 60;
    const measures = Array.from({ length: 60 }, (_, i) => ({
      axis: 'x' as const,
      side: 'low' as const,
      from: b.minX + i * step,
      to: b.minX + (i + 1) * step,
      reach: [b.minY, b.minY] as const,
      whole: false,
    }));
    const words = measures.map((_, i) => (100 + i / 10).toFixed(1));
    const many = {
      ...net!,
      pattern: { ...net!.pattern, of: { ...of, measures } },
      measures: words,
    };
    const { texts } = await told({ ...page, patterns: { ...page.patterns!, nets: [many] } });
    expect(overlapping(texts)).toEqual([]);
    for (const word of words) expect(texts.map(t => t.text)).toContain(word);
  });
});
