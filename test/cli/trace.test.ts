/** A page to stamp on, stamped, scanned and cut out. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { circle, distanceToPath, flatten, signedArea } from '../../src/geom/index.js';
import { readPicture } from '../../src/scan/index.js';
import { parseManifest, readDrawingJson, readSvg } from '../../src/write/index.js';
import { filesBelow, foldwright, inFolder } from '../support/command.js';
import { pngOf } from '../support/png.js';
import { stamped } from '../support/stamped.js';

const SHEET = 'printable-65lb-letter-1';
const STAMPS = [
  { loops: [circle([60, 200], 18)], colour: [150, 60, 40] },
  { loops: [circle([140, 120], 25), circle([140, 120], 9)], colour: [70, 100, 60] },
] as const;

/** A page, stamped and scanned, in `scan.png`; gives where the ink is. */
async function stampedPage(folder: string) {
  const made = await foldwright(['stamp-sheet', '--formats', 'svg,dxf,pdf,print-png'], folder);
  expect(made.code, made.err).toBe(0);
  const picture = readPicture(readFileSync(join(folder, `out/stamps/page/${SHEET}.print.png`)));
  const perMm = picture.width / 215.9;
  const { page, ink } = stamped(picture, perMm, STAMPS, 3);
  writeFileSync(join(folder, 'scan.png'), pngOf(page, 25.4 * perMm));
  return { ink: ink.reduce((sum, v) => sum + v, 0) / 255 / perMm ** 2 };
}

describe('stamp-sheet and trace', () => {
  it('cut out what was stamped, with the marks of the page', () =>
    inFolder(async folder => {
      const { ink } = await stampedPage(folder);
      const ran = await foldwright(['trace', 'scan.png', '--holes', '--json'], folder);
      expect(ran.code, ran.err).toBe(0);
      const told = JSON.parse(ran.out);
      expect(told.images.length).toBe(2);
      const inked = told.images.reduce((s: number, i: { inkMm2: number }) => s + i.inkMm2, 0);
      expect(Math.abs(inked / ink - 1)).toBeLessThan(0.02);
      const base = join(folder, 'out/stamps/scan', SHEET);
      const drawn = readDrawingJson(readFileSync(`${base}.drawing.json`, 'utf8'));
      const page = readDrawingJson(
        readFileSync(join(folder, `out/stamps/page/${SHEET}.drawing.json`), 'utf8'),
      );
      const layer = (d: typeof drawn, operation: string) =>
        d.layers.find(l => l.operation === operation)!.paths;
      expect(layer(drawn, 'register').length).toBe(layer(page, 'register').length);
      const cut = layer(drawn, 'cut');
      expect(cut.length).toBe(3);
      // Two millimetres round the stamps, by as much as their edges are rough.
      for (const [at, r] of [
        [[60, 200], 20],
        [[140, 120], 27],
        [[140, 120], 7],
      ] as const) {
        const near = cut.map(path =>
          Math.max(...flatten(path, 0.05).map(p => distanceToPath(p, circle(at, r)))),
        );
        expect(Math.min(...near)).toBeLessThan(0.5);
      }
      const manifest = parseManifest(
        readFileSync(join(folder, 'out/stamps/manifest.json'), 'utf8'),
      );
      expect(manifest.sheets.map(s => [s.item, s.pieces])).toEqual([
        ['page', 0],
        ['scan', 2],
      ]);
      expect(filesBelow(folder).has('out/stamps/scan/overlay.png')).toBe(true);
      // The page can be aligned like any printed sheet.
      const aligned = await foldwright(
        ['align', `out/stamps/scan/${SHEET}.cut.svg`, '--scan', 'scan.png'],
        folder,
      );
      expect(aligned.code, aligned.err).toBe(0);
      expect(aligned.out).toContain('true to size');
    }));

  it('gives each outline as a drawing for jobs of one’s own', () =>
    inFolder(async folder => {
      await stampedPage(folder);
      expect((await foldwright(['trace', 'scan.png', '--name', 'rings'], folder)).code).toBe(0);
      const file = 'out/stamps/rings/image-1.svg';
      const read = await readSvg(readFileSync(join(folder, file), 'utf8'), { name: 'image' });
      const [path] = read.drawing.layers.find(l => l.operation === 'cut')!.paths;
      expect(Math.abs(signedArea(path!)) / (Math.PI * 400)).toBeCloseTo(1, 1);
      const made = await foldwright(['decor', `./${file}`, '--size', '30mm'], folder);
      expect(made.code, made.err).toBe(0);
    }));

  it('refuses in words, and writes nothing', () =>
    inFolder(async folder => {
      const refused = async (...argv: string[]) => {
        const before = filesBelow(folder);
        const ran = await foldwright(argv, folder);
        expect(ran.code, ran.out).toBe(2);
        expect(filesBelow(folder)).toEqual(before);
        return ran.err;
      };
      writeFileSync(join(folder, 'note.png'), 'a note');
      expect(await refused('trace', 'note.png')).toContain('stamp-sheet');
      expect(await refused('stamp-sheet', '--stock', 'vellum')).toContain('no stock');
      expect(await refused('stamp-sheet', '--marks', 'dot')).toContain('ring-and-cross');
      expect(await refused('stamp-sheet', '--name', '../x')).toContain('name');
      await foldwright(['stamp-sheet', '--formats', 'print-png'], folder);
      const bare = `out/stamps/page/${SHEET}.print.png`;
      expect(await refused('trace', bare)).toContain('nothing is stamped');
      expect(await refused('trace', 'note.png')).toContain('neither PNG nor JPEG');
      expect(await refused('trace', 'gone.png')).toContain('no such file');
      expect(await refused('trace', bare, '--margin', '2,5')).toContain('2,5');
      expect(await refused('trace', bare, '--threshold', '2,5%')).toContain('Allowed');
      expect(await refused('trace', bare, '--name', 'page')).toContain('--name');
      expect(await refused('trace', bare, '--sheet', 'note.png')).toContain('no page');
      expect(await refused('trace', bare, '--formats', 'pdf')).toContain('svg, dxf');
    }));
});
