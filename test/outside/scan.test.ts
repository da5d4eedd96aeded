/**
 * Register marks found in pages that poppler rendered and OpenCV spoilt: turned, scaled, blurred, noised,
 * unevenly lit, JPEG-compressed and seen in perspective, by maps that are known. OpenCV's own alignment of
 * pictures is the second opinion, for crosses its corner finder too.
 */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { printedMarks, printedWedge } from '../../src/cli/our-marks.js';
import type { Point } from '../../src/model.js';
import { findMarks, greyOf, readPicture } from '../../src/scan/index.js';
import { onto, type Plane, slopesAt } from '../../src/scan/plane.js';
import { type ManifestSheet, parseManifest } from '../../src/write/index.js';
import { foldwright, inFolder } from '../support/command.js';
import { output } from './run.js';

const script = fileURLToPath(new URL('spoil_scan.py', import.meta.url));
const CASES = {
  150: { scan: 8, photo: 4 },
  300: { scan: 6, photo: 4 },
  600: { scan: 2 },
} as const;

interface Case {
  readonly file: string;
  readonly kind: string;
  readonly dpi: number;
  readonly map: Plane;
}
interface Opinions extends Case {
  readonly aligned: readonly Point[];
  readonly corner: readonly Point[];
}

const share = (values: readonly number[], part: number) =>
  [...values].sort((a, b) => a - b)[Math.floor(part * (values.length - 1))]!;
const figures = (values: readonly number[]) => {
  const [m, p, w] = [0.5, 0.95, 1].map(s => share(values, s).toFixed(4));
  return `median ${m} mm, 95 % ${p} mm, worst ${w} mm (${values.length} marks)`;
};

/** A stamp page with marks of a style, rendered by poppler at some resolutions. */
async function printed(style: string, dpis: readonly string[], folder: string) {
  const made = await foldwright(['stamp-sheet', '--marks', style], folder);
  expect(made.code, made.err).toBe(0);
  const job = join(folder, 'out/stamps');
  const manifest = parseManifest(readFileSync(join(job, 'manifest.json'), 'utf8'));
  const sheet = manifest.sheets[0]!;
  const pdf = join(job, `page/${sheet.id}.print.pdf`);
  const pages: Record<string, string> = {};
  for (const dpi of dpis) {
    const page = join(folder, `page-${dpi}`);
    output('pdftoppm', ['-r', dpi, '-png', '-singlefile', pdf, page]);
    pages[dpi] = `${page}.png`;
  }
  const marks = printedMarks(sheet);
  const marksInches = marks.map(m => [m.at[0] / 25.4, (sheet.heightMm - m.at[1]) / 25.4]);
  return { sheet, marks, ask: { pages, marksInches, folder } };
}

const spoiltBy = (ask: object): unknown =>
  JSON.parse(output('/usr/bin/python3', [script], JSON.stringify(ask)).toString());

/** From a place in the picture to where the map puts a place of the sheet, mm of the page there. */
function apartOf({ dpi, map }: Case, { heightMm }: ManifestSheet, place: Point) {
  const k = dpi / 25.4;
  const page: Point = [place[0] * k, (heightMm - place[1]) * k];
  const [a, b, c, d] = slopesAt(map, page);
  const perMm = k * Math.sqrt(Math.abs(a * d - b * c));
  const far = (p: Point, q: Point) => Math.hypot(p[0] - q[0], p[1] - q[1]) / perMm;
  return { truth: onto(map, page), far };
}

describe('marks in scans and photos', () => {
  for (const style of ['ring-and-cross', 'disc', 'corner']) {
    it(
      `${style}: where OpenCV put them`,
      () =>
        inFolder(async folder => {
          const dpis = style === 'ring-and-cross' ? ['150', '300', '600'] : ['150', '300'];
          const { sheet, marks, ask } = await printed(style, dpis, folder);
          const cases = spoiltBy({ ...ask, cases: CASES }) as Opinions[];
          const off: Record<string, number[]> = {};
          const apart: { readonly aligned: number[]; readonly corner: number[] } = {
            aligned: [],
            corner: [],
          };
          for (const spoilt of cases) {
            const { file, kind, dpi } = spoilt;
            const found = findMarks(greyOf(readPicture(readFileSync(file))), marks);
            if ('unseen' in found) throw new Error(`${file}: ${found.unseen}`);
            expect(
              found.missing.map(m => m.name),
              file,
            ).toEqual([]);
            const key = `${kind} ${dpi}`;
            found.marks.forEach(({ mark, at }, i) => {
              const { truth, far } = apartOf(spoilt, sheet, mark.at);
              off[key] = [...(off[key] ?? []), far(at, truth)];
              for (const by of ['aligned', 'corner'] as const)
                apart[by].push(far(at, spoilt[by][i]!));
            });
          }
          const rows = Object.entries(off).map(
            ([key, values]) => `${style}, ${key} dpi: ${figures(values)}`,
          );
          const opinion = (name: string, off: readonly number[]) =>
            rows.push(
              `${style}, against OpenCV's ${name}: median ${share(off, 0.5).toFixed(4)} mm, 95 % ${share(off, 0.95).toFixed(4)} mm`,
            );
          opinion('findTransformECC', apart.aligned);
          expect(share(apart.aligned, 0.5)).toBeLessThan(0.035);
          expect(share(apart.aligned, 0.95)).toBeLessThan(0.05);
          // Discs have no corner, and at the end of lines the corner finder is off.
          if (style === 'ring-and-cross') {
            opinion('cornerSubPix', apart.corner);
            expect(share(apart.corner, 0.5)).toBeLessThan(0.04);
            expect(share(apart.corner, 0.95)).toBeLessThan(0.06);
          }
          process.stdout.write(`${rows.join('\n')}\n`);
          for (const [key, values] of Object.entries(off)) {
            // A corner's two lines lean one way: pixels that poppler darkens for a touch move it, 0.03 mm at
            // 150 dpi and 0.004 at 300.
            const [half, most] = style === 'corner' ? [0.035, 0.05] : [0.02, 0.05];
            expect(share(values, 0.5), key).toBeLessThan(half!);
            expect(share(values, 0.95), key).toBeLessThan(most!);
            expect(share(values, 1), key).toBeLessThan(0.1);
          }
        }),
      600_000,
    );
  }
});

/** The steepest photos in which every mark of a style is found, degrees off upright; README says so. */
const STEEPEST = { 'ring-and-cross': 60, disc: 60, corner: 35 } as const;
const TILTS = { 150: 3, 300: 1 } as const;

describe('photos from the side', () => {
  it.each(Object.entries(STEEPEST))(
    '%s: up to %i degrees',
    (style, steepest) =>
      inFolder(async folder => {
        const { sheet, marks, ask } = await printed(style, Object.keys(TILTS), folder);
        const kinds = [...new Set([35, steepest])].map(deg => `tilted ${deg}`);
        const cases = Object.fromEntries(
          Object.entries(TILTS).map(([dpi, n]) => [
            dpi,
            Object.fromEntries(kinds.map(k => [k, n])),
          ]),
        );
        const off: Record<string, number[]> = {};
        for (const spoilt of spoiltBy({ ...ask, cases, opinions: false }) as Case[]) {
          const { file, kind, dpi } = spoilt;
          const grey = greyOf(readPicture(readFileSync(file)));
          const found = findMarks(grey, marks, printedWedge(sheet));
          if ('unseen' in found) throw new Error(`${file}: ${found.unseen}`);
          expect(
            found.missing.map(m => m.name),
            file,
          ).toEqual([]);
          const key = `${kind}° at ${dpi}`;
          for (const { mark, at } of found.marks) {
            const { truth, far } = apartOf(spoilt, sheet, mark.at);
            off[key] = [...(off[key] ?? []), far(at, truth)];
          }
        }
        expect(Object.keys(off).length).toBe(kinds.length * Object.keys(TILTS).length);
        for (const [key, values] of Object.entries(off)) {
          process.stdout.write(`${style}, ${key} dpi: ${figures(values)}\n`);
          expect(share(values, 0.5), key).toBeLessThan(0.035);
          expect(share(values, 0.95), key).toBeLessThan(0.05);
        }
      }),
    900_000,
  );
});
