/**
 * Discs and stars stamped on a page that poppler rendered and OpenCV spoilt as scanners do, traced by us.
 * OpenCV's contours on the page it rectified itself are the second opinion of their areas, its distance
 * transform of the ink as drawn that of how far our cut is from it.
 */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { markOf, printedMarks } from '../../src/cli/our-marks.js';
import { contains, flatten, pathLength, polygon } from '../../src/geom/index.js';
import type { Point } from '../../src/model.js';
import { findMarks, greyOf, readPicture, tracePage } from '../../src/scan/index.js';
import { stampArea } from '../../src/sheet/index.js';
import { parseManifest } from '../../src/write/index.js';
import { foldwright, inFolder } from '../support/command.js';
import { output } from './run.js';

const script = fileURLToPath(new URL('second_trace.py', import.meta.url));
const opencv = (what: string, ask: object) =>
  JSON.parse(output('/usr/bin/python3', [script, what], JSON.stringify(ask)).toString());

const round = (x: number, y: number, r: number): Point[] =>
  Array.from({ length: 720 }, (_, i): Point => {
    const a = (Math.PI * i) / 360;
    return [x + r * Math.cos(a), y + r * Math.sin(a)];
  });
const star = (x: number, y: number, R: number, r: number): Point[] =>
  Array.from({ length: 10 }, (_, i): Point => {
    const [a, q] = [(Math.PI * i) / 5 + 0.3, i % 2 ? r : R];
    return [x + q * Math.cos(a), y + q * Math.sin(a)];
  });
const starArea = (R: number, r: number) => 5 * R * r * Math.sin(Math.PI / 5);
/**
 * Apple red, straw, bark and pale leaf: the first and third are dark. In the page's grain, here of up to
 * 3 of 255; the stars' tips are the worst, at 150 dpi.
 */
const SHAPES = [
  { name: 'dark disc', loop: round(60, 200, 20), ink: [140, 30, 36], area: Math.PI * 400 },
  { name: 'pale disc', loop: round(140, 200, 15), ink: [242, 216, 115], area: Math.PI * 225 },
  { name: 'dark star', loop: star(60, 130, 20, 9), ink: [92, 58, 36], area: starArea(20, 9) },
  { name: 'pale star', loop: star(140, 120, 25, 14), ink: [170, 190, 150], area: starArea(25, 14) },
];
const MARGIN = 2;
const SMOOTH = 0.1;

describe('traced images', () => {
  for (const [dpi, seeds] of [
    [150, [1, 2]],
    [300, [3, 4, 5]],
  ] as const) {
    it(
      `${dpi} dpi: OpenCV finds the same areas, and the cut at its margin`,
      () =>
        inFolder(async folder => {
          const made = await foldwright(['stamp-sheet'], folder);
          expect(made.code, made.err).toBe(0);
          const job = join(folder, 'out/stamps');
          const sheet = parseManifest(readFileSync(join(job, 'manifest.json'), 'utf8')).sheets[0]!;
          const marks = printedMarks(sheet);
          const area = stampArea(sheet.marks.map(markOf));
          const page = join(folder, 'page');
          const pdf = join(job, `page/${sheet.id}.print.pdf`);
          output('pdftoppm', ['-r', `${dpi}`, '-png', '-singlefile', pdf, page]);
          const size = { width: sheet.widthMm, height: sheet.heightMm };
          const byUs: number[] = [];
          const byThem: number[] = [];
          const apart: number[] = [];
          const offs = { dark: [] as number[], pale: [] as number[] };
          const cut: number[] = [];
          for (const seed of seeds) {
            const file = join(folder, `scan-${seed}.png`);
            const shapes = SHAPES.map(({ loop, ink }) => ({ loop, ink }));
            const ask = {
              page: `${page}.png`,
              dpi,
              heightMm: sheet.heightMm,
              shapes,
              file,
              seed,
            };
            const map = opencv('draw', ask);
            const picture = readPicture(readFileSync(file));
            const seen = findMarks(greyOf(picture), marks);
            if ('unseen' in seen) throw new Error(seen.unseen);
            const found = tracePage(picture, seen, area, size, {
              ink: 'dark',
              leastArea: 6,
              margin: MARGIN,
              merge: 3,
              holes: false,
              smooth: SMOOTH,
            });
            if ('unseen' in found) throw new Error(found.unseen);
            expect(found.images.length).toBe(SHAPES.length);
            const ours = SHAPES.map(({ name, loop }) => {
              const image = found.images.find(m => contains(m.outline, loop[0]!) === 'in');
              if (!image) throw new Error(`${name} was not traced`);
              expect(image.ink.length, name).toBe(1);
              return image;
            });
            const traced = ours.map(image => ({
              grown: flatten(polygon(image.grown[0]!), 0.005),
              cut: flatten(image.outline, 0.005),
            }));
            const told = opencv('measure', { ...ask, map, traced }) as {
              readonly area: number;
              readonly grown: readonly number[];
              readonly cut: readonly number[];
            }[];
            told.forEach((opinion, i) => {
              const { area, loop, name } = SHAPES[i]!;
              // As if all of its edge were off by so much, mm.
              const edge = pathLength(polygon(loop));
              byUs.push(Math.abs(ours[i]!.area - area) / edge);
              byThem.push(Math.abs(opinion.area - area) / edge);
              apart.push(Math.abs(ours[i]!.area - opinion.area) / edge);
              offs[name.startsWith('dark') ? 'dark' : 'pale'].push(
                ...opinion.grown.map(d => Math.abs(d - MARGIN)),
              );
              cut.push(...opinion.cut.map(d => Math.abs(d - MARGIN)));
            });
          }
          const most = (values: readonly number[]) => Math.max(...values);
          const mm = (values: readonly number[]) => `${most(values).toFixed(4)} mm`;
          process.stdout.write(
            `${dpi} dpi, ${byUs.length} images, at most: area over edge, from its formula ${mm(byUs)}` +
              ` (findContours ${mm(byThem)}), from findContours ${mm(apart)}; margin by` +
              ` distanceTransform off by ${mm(offs.dark)} (pale ink ${mm(offs.pale)}), smoothed ${mm(cut)}\n`,
          );
          expect(most(byUs)).toBeLessThan(0.05);
          expect(most(apart)).toBeLessThan(0.05);
          expect(most(offs.dark)).toBeLessThan(0.15);
          expect(most(offs.pale)).toBeLessThan(0.15);
          expect(most(cut)).toBeLessThan(0.15 + SMOOTH);
        }),
      300_000,
    );
  }
});
