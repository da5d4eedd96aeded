/** The guide on paper, by programs of others: qpdf and poppler. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { guideOf, jobOf, pdfOf } from '../support/guide.js';
import { render } from './page.js';
import { output } from './run.js';

const JOB = `job: fair
title: Őszi vásár
units: in
boxes:
  - style: flip-lid
    name: six
    title: Cider caramels, a dozen
    creases: 6 x 2 x 1
    decorations:
      - { on: lid, motif: heart, params: { size: 1 }, art: { pattern: dots, palette: cider } }
`;

describe('the guide PDF', () => {
  const folder = mkdtempSync(join(tmpdir(), 'foldwright-guide-'));
  const path = join(folder, 'six.guide.pdf');
  beforeAll(async () => {
    writeFileSync(path, (await pdfOf(guideOf(jobOf(JOB)).page, 'letter')).bytes);
  });
  afterAll(() => rmSync(folder, { recursive: true }));

  it('has no fault that qpdf can find', () => {
    expect(output('qpdf', ['--check', path]).toString()).toContain(
      'No syntax or stream encoding errors',
    );
  });

  it('is Letter, and says what it is', () => {
    const info = output('pdfinfo', [path]).toString();
    // ANSI/ASME Y14.1 size A: 8 1/2 x 11 in, in points.
    expect(info).toMatch(/Page size:\s+612 x 792 pts/);
    expect(info).toMatch(/Title:\s+Cider caramels, a dozen/);
  });

  it('has every font embedded, as a subset that maps to Unicode', () => {
    const [, , ...rows] = output('pdffonts', [path]).toString().trim().split('\n');
    expect(rows.length).toBeGreaterThanOrEqual(2);
    for (const row of rows) {
      expect(row).toMatch(/^[A-Z]{6}\+Nunito/);
      expect(row).toMatch(/Identity-H\s+yes yes yes/);
    }
  });

  it('gives its text in reading order, letters with accents too', () => {
    const text = output('pdftotext', ['-raw', path, '-']).toString();
    const order = [
      'Őszi vásár',
      'Cider caramels, a dozen',
      'You need',
      'Pieces to cut',
      'The flat pattern',
      'cut a blank of 9 x 8 in',
      'Fold and glue',
      'Fold up the lid.',
      'Decorate',
      'Take care',
      'Blades are sharp.',
    ].map(t => text.indexOf(t));
    expect(order.every(i => i >= 0)).toBe(true);
    expect(order).toEqual([...order].sort((a, b) => a - b));
  });

  it('is tagged: poppler reads its structure', () => {
    expect(output('pdfinfo', [path]).toString()).toMatch(/Tagged:\s+yes/);
    const lines = output('pdfinfo', ['-struct-text', path]).toString().split('\n');
    const roles = new Set(
      lines.flatMap(l => /^\s*(Document|H[123]|P|LI?|LBody|Lbl|T\w+|Figure)\b/.exec(l)?.[1] ?? []),
    );
    expect([...roles].sort()).toEqual(
      [
        'Document',
        'Figure',
        'H1',
        'H2',
        'H3',
        'L',
        'LBody',
        'LI',
        'Lbl',
        'P',
        'TD',
        'TH',
        'TR',
        'Table',
      ].sort(),
    );
    const after = (role: string) =>
      lines[lines.findIndex(l => l.trim().startsWith(role)) + 1]!.trim();
    expect(after('H1')).toBe('"Cider caramels, a dozen"');
    // Lines of one paragraph are read as one.
    expect(lines.join(' ')).toContain(
      'Cutting machine and mat; or ruler, craft knife and cutting mat',
    );
    expect(lines.join(' ')).toContain('/Scope /Column');
  });

  it('has a scale bar of 100 mm', () => {
    const page = render(path);
    expect(longestRow(page)).toBeCloseTo(101.6, 0);
  });
});

/** The longest black stretch from left to right: the rim of the longer bar, 4 in. */
function longestRow(page: ReturnType<typeof render>): number {
  let longest = 0;
  for (let y = 0; y < page.height; y++) {
    let run = 0;
    for (let x = 0; x < page.width; x++) {
      run = page.grey[y * page.width + x]! < 110 ? run + 1 : 0;
      if (run > longest) longest = run;
    }
  }
  return longest / page.pxPerMm;
}
