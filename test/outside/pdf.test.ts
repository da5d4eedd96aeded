import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Point } from '../../src/model.js';
import { printLayout, sheetInk } from '../../src/sheet/index.js';
import { pdfWriter } from '../../src/write/pdf.js';
import { cutter, stock } from '../sheet/shapes.js';
import { CONVENTION } from '../support/drawings.js';
import { markPlaces, printPage } from '../support/print-page.js';
import { inkMiddle, type Page, render } from './page.js';
import { output, run } from './run.js';

const face = (name: string) =>
  new Uint8Array(
    readFileSync(new URL(`../../presets/fonts/nunito-bold/${name}.ttf`, import.meta.url)),
  );

const off = (page: Page, place: Point) => {
  const found = inkMiddle(page, place, 5);
  return found ? Math.hypot(found[0] - place[0], found[1] - place[1]) : Number.NaN;
};

describe('the print PDF', () => {
  const folder = mkdtempSync(join(tmpdir(), 'foldwright-pdf-'));
  const path = join(folder, 'sheet.pdf');
  beforeAll(async () => {
    const writer = pdfWriter({ font: [face('latin'), face('latin-ext')] });
    writeFileSync(path, await writer.write(printPage(), CONVENTION));
  });
  afterAll(() => rmSync(folder, { recursive: true }));

  it('has no fault that qpdf can find', () => {
    expect(output('qpdf', ['--check', path]).toString()).toContain(
      'No syntax or stream encoding errors',
    );
    const broken = join(folder, 'broken.pdf');
    const whole = readFileSync(path);
    writeFileSync(broken, whole.subarray(0, whole.length / 2));
    expect(run('qpdf', ['--check', broken]).code).not.toBe(0);
  });

  it('has the size of the sheet for pdfinfo', () => {
    const info = output('pdfinfo', ['-box', path]).toString();
    expect(info).toMatch(/Pages:\s+1\n/);
    const size = /Page size:\s+([\d.]+) x ([\d.]+) pts/.exec(info)!.slice(1).map(Number);
    // A4 is 595.276 × 841.890 pt (check-values.md section 1.1).
    expect(size[0]).toBeCloseTo(595.276, 2);
    expect(size[1]).toBeCloseTo(841.89, 2);
    expect(info).toMatch(/TrimBox:\s+0\.00\s+0\.00\s+595\.28\s+841\.89/);
  });

  it('prints the marks where the cut file has them, within 0.05 mm', () => {
    const page = render(path);
    for (const place of markPlaces(210, 297)) {
      expect(off(page, place), `mark at ${place}`).toBeLessThan(0.05);
    }
    // The measure can fail: half a millimetre is seen, and so is a mark that is not there.
    const [x, y] = markPlaces(210, 297)[0]!;
    expect(off(page, [x + 0.5, y])).toBeGreaterThan(0.1);
    expect(off(page, [105, 150])).toBeNaN();
  });

  it.each([
    ['ring-and-cross', 8, 0.25],
    ['corner', 8, 0.5],
    ['disc', 6, 0.25],
  ] as const)('prints marks of %s within 0.05 mm', async (shape, size, stroke) => {
    const style = { id: shape, summary: shape, shape, size, stroke, inset: 2, count: 7 };
    const [paper, machine] = [stock(210, 297), cutter(210, 297)];
    const { marks, wedge } = printLayout(paper, machine, 5, style)!;
    const page = printPage();
    const ink = sheetInk({ id: 's', stock: paper, placements: [], marks, wedge, copies: 1 });
    const file = join(folder, `${shape}.pdf`);
    const writer = pdfWriter({ font: face('latin') });
    const drawn = { ...page.drawing, layers: [] };
    writeFileSync(file, await writer.write({ ...page, drawing: drawn, arts: [], ink }, CONVENTION));
    // Poppler darkens every pixel that a shape touches: finer pixels, less of it.
    const seen = render(file, 600);
    for (const { at, quarters, name } of marks) {
      // Where a corner's ink has its middle: two bars that share their end.
      const vee = (size * (size - stroke)) / (2 * (2 * size - stroke));
      const off = shape === 'corner' ? vee : 0;
      const [c, s] = (
        [
          [1, 0],
          [0, 1],
          [-1, 0],
          [0, -1],
        ] as const
      )[quarters];
      const middle: Point = [at[0] + c * off - s * off, at[1] + s * off + c * off];
      const reach = shape === 'corner' ? 7 : 4.2;
      const found = inkMiddle(seen, middle, reach)!;
      const miss = Math.hypot(found[0] - middle[0], found[1] - middle[1]);
      expect(miss, `${name} at ${at}`).toBeLessThan(0.05);
    }
  });

  it('prints the art to its bleed and none of the lines of the tools', () => {
    const page = render(path);
    const greyAt = (x: number, y: number) =>
      page.grey[
        Math.floor(page.height - y * page.pxPerMm) * page.width + Math.floor(x * page.pxPerMm)
      ]!;
    // The first label's cut line runs at y = 35, its bleed to y = 32: one ground colour throughout.
    const ground = greyAt(55, 40);
    for (let y = 32.3; y < 38; y += 0.05) expect(greyAt(55, y)).toBe(ground);
    expect(greyAt(55, 31.7)).toBe(255);
  });

  it('has its words as text, and a bar of 100 mm', () => {
    expect(output('pdftotext', [path, '-']).toString()).toMatch(/Apple boxes[\s\S]*Lay a ruler/);
    const page = render(path);
    // The longest dark stretch of a row is the bar's frame: the lower one, 4 in = 101.6 mm.
    let longest = 0;
    for (let row = 0; row < page.height; row++) {
      let stretch = 0;
      for (let column = 0; column < page.width; column++) {
        stretch = page.grey[row * page.width + column]! < 128 ? stretch + 1 : 0;
        longest = Math.max(longest, stretch);
      }
    }
    expect(Math.abs(longest / page.pxPerMm - 101.6)).toBeLessThan(0.1);
  });
});
