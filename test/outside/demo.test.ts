/** Every file of the demo job, by programs of others. */
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { bounds } from '../../src/geom/index.js';
import type { Point } from '../../src/model.js';
import { parseManifest, readSvg } from '../../src/write/index.js';
import { foldwright } from '../support/command.js';
import { inkMiddle, render } from './page.js';
import { output } from './run.js';

const SCRIPT = fileURLToPath(new URL('read_dxf.py', import.meta.url));

describe('the demo', () => {
  const folder = mkdtempSync(join(tmpdir(), 'foldwright-demo-'));
  const job = join(folder, 'out', 'orchard-fair');
  const files = (ending: string) =>
    (readdirSync(job, { recursive: true }) as string[]).filter(f => f.endsWith(ending)).sort();

  beforeAll(async () => {
    const ran = await foldwright(['batch', 'orchard-fair'], folder);
    expect(ran.code, ran.err).toBe(0);
  }, 60_000);
  afterAll(() => rmSync(folder, { recursive: true }));

  it('makes ten sizes, three formats each where they are printed', () => {
    const manifest = parseManifest(readFileSync(join(job, 'manifest.json'), 'utf8'));
    expect(new Set(manifest.sheets.map(s => s.item)).size).toBeGreaterThanOrEqual(10);
    expect(files('.print.pdf').length).toBeGreaterThanOrEqual(6);
    for (const pdf of files('.print.pdf')) {
      const base = pdf.replace('.print.pdf', '');
      expect(files('.cut.svg')).toContain(`${base}.cut.svg`);
      expect(files('.cut.dxf')).toContain(`${base}.cut.dxf`);
    }
  });

  it('writes DXF in which ezdxf finds no error and nothing to mend', () => {
    for (const file of files('.cut.dxf')) {
      const text = readFileSync(join(job, file), 'utf8');
      const found = JSON.parse(output('/usr/bin/python3', [SCRIPT], text).toString());
      expect(found.errors, file).toEqual([]);
      expect(found.fixes, file).toEqual([]);
    }
  }, 120_000);

  it('writes PDF in which qpdf finds no fault, of the size of its sheet', async () => {
    for (const file of files('.print.pdf')) {
      const path = join(job, file);
      expect(output('qpdf', ['--check', path]).toString(), file).toContain(
        'No syntax or stream encoding errors',
      );
      const size = /Page size:\s+([\d.]+) x ([\d.]+) pts/.exec(
        output('pdfinfo', [path]).toString(),
      )!;
      const svg = readFileSync(path.replace('.print.pdf', '.cut.svg'), 'utf8');
      const { drawing } = await readSvg(svg, { name: file });
      expect(Number(size[1]), file).toBeCloseTo((drawing.width * 72) / 25.4, 2);
      expect(Number(size[2]), file).toBeCloseTo((drawing.height * 72) / 25.4, 2);
    }
  }, 120_000);

  it('prints its marks where the cut file of the same sheet has them, within 0.1 mm', async () => {
    const seen = new Set<string>();
    let greatest = 0;
    for (const file of files('.print.pdf')) {
      // One sheet of each item: the layout of marks is the stock's, the art is the item's.
      if (seen.has(dirname(file))) continue;
      seen.add(dirname(file));
      const path = join(job, file);
      const svg = readFileSync(path.replace('.print.pdf', '.cut.svg'), 'utf8');
      const { drawing } = await readSvg(svg, { name: file });
      const circles = drawing.layers
        .find(l => l.operation === 'register')!
        .paths.filter(p => p.closed);
      expect(circles, file).toHaveLength(5);
      const page = render(path);
      for (const circle of circles) {
        const b = bounds(circle);
        const place: Point = [(b.minX + b.maxX) / 2, (b.minY + b.maxY) / 2];
        const found = inkMiddle(page, place, 4.5);
        expect(found, `${file}: nothing at ${place}`).toBeDefined();
        const off = Math.hypot(found![0] - place[0], found![1] - place[1]);
        greatest = Math.max(greatest, off);
        expect(off, `${file}: mark at ${place}`).toBeLessThan(0.1);
      }
    }
    expect(seen.size).toBeGreaterThanOrEqual(6);
    expect(greatest).toBeGreaterThan(0);
  }, 180_000);
});
