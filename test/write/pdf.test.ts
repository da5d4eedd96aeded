import { readFileSync } from 'node:fs';
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { describe, expect, it } from 'vitest';
import { circle, line, openPath, rectangle, translation } from '../../src/geom/index.js';
import type { Operation, PrintPage } from '../../src/model.js';
import { pdfWriter } from '../../src/write/pdf.js';
import { CONVENTION, drawing, SPECIMEN } from '../support/drawings.js';
import { printPage } from '../support/print-page.js';

const face = (name: string) =>
  new Uint8Array(
    readFileSync(new URL(`../../presets/fonts/nunito-bold/${name}.ttf`, import.meta.url)),
  );
const FACE = [face('latin'), face('latin-ext')];
const write = (page: PrintPage) => pdfWriter({ font: FACE }).write(page, CONVENTION);
const source = async (page: PrintPage) => Buffer.from(await write(page)).toString('latin1');

async function open(page: PrintPage) {
  // pdfjs takes the bytes away from their owner.
  const pdf = await getDocument({ data: Uint8Array.from(await write(page)), verbosity: 0 }).promise;
  return { pdf, page: await pdf.getPage(1) };
}

describe('pdf', () => {
  // Sizes in points: the unit check table of check-values.md section 1.1.
  it.each([
    ['A4', 210, 297, 595.276, 841.89],
    ['Letter', 215.9, 279.4, 612, 792],
    ['12 × 12 in', 304.8, 304.8, 864, 864],
  ])('is one page of the true size of %s', async (_name, width, height, w, h) => {
    const { pdf, page } = await open(printPage(width, height));
    expect(pdf.numPages).toBe(1);
    expect(page.view[0]).toBe(0);
    expect(page.view[2]).toBeCloseTo(w, 3);
    expect(page.view[3]).toBeCloseTo(h, 3);
    expect(page.userUnit).toBe(1);
  });

  it('has a trim box of the whole page and asks for printing without scaling', async () => {
    const text = await source(printPage());
    expect(text).toMatch(/\/TrimBox \[0 0 595\.275591 841\.889764\]/);
    const { pdf } = await open(printPage());
    expect(await pdf.getViewerPreferences()).toMatchObject({ PrintScaling: 'None' });
  });

  it('says in words, from an embedded font, what the sheet is and how to print it', async () => {
    const { page } = await open(printPage());
    const { items } = await page.getTextContent();
    const words = items.map(i => ('str' in i ? i.str : '')).join(' ');
    // Ő comes from another file of the face, so it stands in a text item of its own.
    expect(words.replace(/\s+/g, '')).toContain('Appleboxes·Őszivásár');
    expect(words).toContain('Sheet 1 of 2');
    expect(words).toMatch(/Actual size: print at 100 %, no scaling/);
    expect(words).toMatch(/100 mm above, 4 in below/);
    expect(await source(printPage())).toContain('/FontFile2');
  });

  it('sets a character that no file of the face has as a question mark', async () => {
    const { page } = await open({ ...printPage(), captions: ['漢 box'] });
    const { items } = await page.getTextContent();
    expect(items.map(i => ('str' in i ? i.str : '')).join('')).toContain('? box');
  });

  it('keeps the lines of the tools on layers of their own, off and unprinted', async () => {
    const { pdf } = await open({ drawing: SPECIMEN, arts: [], ink: [], captions: [] });
    const config = await pdf.getOptionalContentConfig();
    const groups = [...config] as [string, { name: string; visible: boolean; usage: unknown }][];
    expect(groups.map(([, g]) => g.name)).toEqual(['Draw', 'Score', 'Perforate', 'Cut']);
    for (const [id, group] of groups) {
      expect(group.visible).toBe(false);
      expect(group.usage).toMatchObject({ print: { printState: 'OFF' } });
      expect(config.isVisible({ type: 'OCG', id })).toBe(false);
    }
  });

  // Group and type names: check-values.md section 2.4 (ISO 19593-1:2018, from a list seen there).
  it('names the processing steps of ISO 19593-1', async () => {
    const text = await source({ drawing: SPECIMEN, arts: [], ink: [], captions: [] });
    const steps = [...text.matchAll(/\/GTS_ProcStepsGroup \/(\w+)\s+\/GTS_ProcStepsType \/(\w+)/g)];
    expect(steps.map(m => [m[1], m[2]])).toEqual([
      ['Structural', 'Creasing'],
      ['Structural', 'Perforating'],
      ['Structural', 'Cutting'],
    ]);
  });

  it('puts every tool line inside a layer, and the marks outside', async () => {
    const only = async (operation: Operation) =>
      source({
        drawing: drawing({ [operation]: [openPath([41, 42], [line([43, 44])])] }),
        arts: [],
        ink: [],
        captions: [],
      });
    for (const operation of ['draw', 'score', 'perforate', 'cut'] as const) {
      const text = await only(operation);
      expect(text).toMatch(/\/OC \/OC0 BDC[\s\S]*41 42 m\n43 44 l\nS[\s\S]*EMC/);
      expect(text.match(/41 42 m/g)).toHaveLength(1);
    }
    const marks = await source({
      drawing: drawing({ register: [openPath([41, 42], [line([43, 44])])] }),
      arts: [],
      ink: [
        { lines: [openPath([31, 32], [line([33, 34])])], width: 0.5, solids: [] },
        { lines: [], width: 0.5, solids: [rectangle(5, 6, 1, 2)] },
      ],
      captions: [],
    });
    expect(marks).toMatch(/0 G\n0\.5 w\n\[\] 0 d\n31 32 m\n33 34 l\nS/);
    expect(marks).toMatch(/0 g\n5 6 m\n6 6 l\n6 8 l\n5 8 l\n5 6 l\nh\nf/);
    expect(marks).not.toContain('BDC');
    // What the pen draws over the marks is not printed.
    expect(marks).not.toContain('41 42');
  });

  it('clips art to its bleed and leaves out the holes of its regions', async () => {
    const art = {
      ground: '#ffffff',
      fills: [
        {
          colour: '#804000',
          regions: [{ outer: rectangle(0, 0, 10, 10), holes: [rectangle(2, 2, 3, 3)] }],
        },
      ],
      bleed: rectangle(-3, -3, 30, 20),
    };
    const text = await source({
      drawing: drawing({}),
      arts: [{ art, at: translation(50, 60) }],
      ink: [],
      captions: [],
    });
    expect(text).toMatch(/-3 -3 m\n27 -3 l\n27 17 l\n-3 17 l\n-3 -3 l\nh\nW n\n1 1 1 rg/);
    expect(text).toMatch(/0\.502 0\.251 0 rg\n0 0 m[\s\S]*?h\n2 2 m[\s\S]*?h\nf\*/);
    expect(text).toContain('q\n1 0 0 1 50 60 cm\n/Art0 Do\nQ');
  });

  it('prints nothing of art where the bleed of a neighbour begins', async () => {
    const page = printPage();
    const [first] = page.arts;
    const clear = [rectangle(20, 70, 70, 50)];
    const text = await source({ ...page, arts: [{ ...first!, clear }] });
    expect(text).toMatch(
      /q\n0 0 210 297 re\n20 70 m[\s\S]*?h\nW\* n\nq\n[^\n]* cm\n\/Art0 Do\nQ\nQ/,
    );
  });

  it('writes art once, however often it lies on the sheet', async () => {
    const text = await source(printPage());
    expect(text.match(/\/Subtype \/Form/g)).toHaveLength(1);
    expect(text.match(/\/Art0 Do/g)).toHaveLength(2);
  });

  it('gives the same bytes for the same page', async () => {
    const [a, b] = [await write(printPage()), await write(structuredClone(printPage()))];
    expect(Buffer.compare(Buffer.from(a), Buffer.from(b))).toBe(0);
  });

  it('refuses WOFF2, which would be embedded as invisible text', async () => {
    const font = new Uint8Array([0x77, 0x4f, 0x46, 0x32, 0, 0]);
    await expect(pdfWriter({ font }).write(printPage(), CONVENTION)).rejects.toThrow(/WOFF2/);
  });

  it('throws on numbers that are not', async () => {
    const bad = drawing({ cut: [circle([Number.NaN, 1], 2)] });
    await expect(write({ drawing: bad, arts: [], ink: [], captions: [] })).rejects.toThrow();
  });
});
