/** A printed sheet scanned or photographed: its cut file made to fit, with no ruler. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { printedMarks, printedWedge } from '../../src/cli/our-marks.js';
import type { Point, PrintedMark } from '../../src/model.js';
import { readPicture } from '../../src/scan/picture-file.js';
import { chained, onto, type Plane } from '../../src/scan/plane.js';
import type { Grey, Picture } from '../../src/scan/raster.js';
import { type ManifestSheet, parseManifest } from '../../src/write/index.js';
import { flat, LETTER, page, photo, spoilt, turned } from '../scan/pages.js';
import { filesBelow, foldwright, inFolder } from '../support/command.js';
import { pngOf } from '../support/png.js';

const DPI = 150;
const JOB = `job: windfall
units: mm
formats: [svg, dxf, print-png]
dpi: ${DPI}
decor:
  - name: hearts
    motif: heart
    params: { size: 30 }
    stock: printable-65lb-letter
    art: { pattern: dots, palette: windfall }
`;
const SHEET = 'out/windfall/hearts/printable-65lb-letter-1';

/** The printed page, as it was sent to the printer. */
async function batch(folder: string): Promise<Picture> {
  writeFileSync(join(folder, 'job.yaml'), JOB);
  const ran = await foldwright(['batch', 'job.yaml'], folder);
  expect(ran.code, ran.err).toBe(0);
  return readPicture(readFileSync(join(folder, `${SHEET}.print.png`)));
}
function sheetOf(folder: string): ManifestSheet {
  const manifest = parseManifest(readFileSync(join(folder, 'out/windfall/manifest.json'), 'utf8'));
  return manifest.sheets.find(s => s.marks.length > 0)!;
}

/** 0.4 % small, turned 0.3° to the left, 1.2 mm right and 0.5 mm down, in millimetres of the paper. */
const printer: Plane = (() => {
  const [c, s] = [0.996 * Math.cos(0.3 * (Math.PI / 180)), 0.996 * Math.sin(0.3 * (Math.PI / 180))];
  const [x, y] = [LETTER[0] / 2, LETTER[1] / 2];
  return [c, -s, x + 1.2 - c * x + s * y, s, c, y - 0.5 - s * x - c * y, 0, 0];
})();
const mm = flat(LETTER, DPI);
const back: Plane = [25.4 / DPI, 0, 0, 0, -25.4 / DPI, LETTER[1], 0, 0];

/** With paper where a mark was. */
function without(sheet: Picture, mark: PrintedMark): Picture {
  const [x, y] = onto(mm, mark.at);
  const far = (8 * DPI) / 25.4 / 2 + 2;
  const data = sheet.data.map((v, k) => {
    const at = Math.floor(k / sheet.channels);
    const [i, j] = [at % sheet.width, Math.floor(at / sheet.width)];
    return Math.abs(i - x) < far && Math.abs(j - y) < far ? 255 : v;
  });
  return { ...sheet, data };
}
/** As it comes out of the printer: a page of the paper's size. */
function printed(sheet: Picture): Grey {
  const by = chained(mm, chained(printer, back));
  return spoilt(sheet, { by, width: sheet.width, height: sheet.height, soft: 2 });
}
/** The printed page put on a scanner, a dark sheet behind it, a little crooked, upside down or not. */
function onScanner(paper: Grey, deg: number, ground: number): Grey {
  const [width, height] = [paper.width + 80, paper.height + 100];
  const by = chained([1, 0, 40, 0, 1, 50, 0, 0], turned(paper.width, paper.height, deg, [5, -3]));
  const spoil = { by, width, height, noise: 4, uneven: 0.9, ground };
  return spoilt({ ...paper, channels: 1 } as never, spoil);
}

const told = async (folder: string, ...more: readonly string[]) => {
  const ran = await foldwright(['align', `${SHEET}.cut.svg`, ...more, '--check', '--json'], folder);
  expect(ran.code, ran.err).toBe(0);
  return JSON.parse(ran.out);
};
/** How far the move that was found is from the printer's, over the sheet, mm. */
function off({ move }: { move: Record<string, number> }): number {
  const { a, b, c, d, e, f } = move as Record<string, never>;
  const found: Plane = [a!, c!, e!, b!, d!, f!, 0, 0];
  const corners: Point[] = [
    [10, 10],
    [200, 10],
    [200, 270],
    [10, 270],
  ];
  return Math.max(
    ...corners.map(p => {
      const [x, y] = onto(printer, p);
      const [u, v] = onto(found, p);
      return Math.hypot(x - u, y - v);
    }),
  );
}

describe('align --scan', () => {
  it("counts from the paper's edges where they are seen, whatever way round it was scanned", () =>
    inFolder(async folder => {
      const paper = printed(await batch(folder));
      for (const deg of [1.4, 180.9]) {
        writeFileSync(join(folder, 'scan.png'), pngOf(onScanner(paper, deg, 70), DPI));
        const found = await told(folder, '--scan', 'scan.png');
        expect(off(found), `${deg}°`).toBeLessThan(0.1);
        expect(found.how).toMatch(/0\.(39|40|41) % small; turned 0\.(29|30|31)° to the left/);
        expect(found.warnings).toEqual([]);
      }
      const ran = await foldwright(['align', `${SHEET}.cut.svg`, '--scan', 'scan.png'], folder);
      expect(ran.code, ran.err).toBe(0);
      expect(ran.out).toContain(
        "5 of 5 marks found in the scan; their places count from the paper's",
      );
      expect([...filesBelow(folder).keys()]).toContain(`${SHEET}.aligned.cut.svg`);
    }));

  it("takes the scan's edges for the paper's where it is as large", () =>
    inFolder(async folder => {
      const paper = printed(await batch(folder));
      writeFileSync(join(folder, 'scan.png'), pngOf(paper, DPI));
      expect(off(await told(folder, '--scan', 'scan.png'))).toBeLessThan(0.1);
    }));

  it('corrects size and lean alone where nothing tells where the paper ends, and says so', () =>
    inFolder(async folder => {
      const paper = printed(await batch(folder));
      writeFileSync(join(folder, 'scan.png'), pngOf(onScanner(paper, 1.4, 255), DPI));
      const found = await told(folder, '--scan', 'scan.png');
      expect(found.how).toMatch(/0\.(39|40|41) % small/);
      expect(found.warnings.join()).toContain('not where it lies on the paper');
      // The same without a resolution in the file, given by hand.
      writeFileSync(join(folder, 'bare.png'), pngOf(onScanner(paper, 1.4, 255)));
      const bare = await told(folder, '--scan', 'bare.png', '--dpi', String(DPI));
      expect(bare.how).toMatch(/^0\.(39|40|41) % small/);
    }));

  it('refuses the scan of another sheet with the same marks, by what is printed', () =>
    inFolder(async folder => {
      const job = (name: string, decor: string) => `job: ${name}
units: mm
formats: [svg, print-png]
dpi: 100
decor:
  - { name: ${name}, ${decor}, stock: printable-65lb-letter, art: { pattern: stripes, palette: windfall } }
`;
      const sheet = (name: string) => `out/${name}/${name}/printable-65lb-letter-1`;
      const jobs: readonly (readonly [string, string])[] = [
        ['hearts', 'motif: heart, params: { size: 55 }, count: 9'],
        ['stars', 'motif: star, params: { size: 80 }, count: 6'],
      ];
      for (const [name, decor] of jobs) {
        writeFileSync(join(folder, `${name}.yaml`), job(name, decor));
        const ran = await foldwright(['batch', `${name}.yaml`], folder);
        expect(ran.code, ran.err).toBe(0);
      }
      for (const [name] of jobs) {
        for (const [of] of jobs) {
          const scan = ['--scan', `${sheet(of)}.print.png`, '--check'];
          const ran = await foldwright(['align', `${sheet(name)}.cut.svg`, ...scan], folder);
          expect(ran.code, `${name} by the scan of ${of}: ${ran.err}`).toBe(name === of ? 0 : 2);
          if (name !== of)
            expect(ran.err).toMatch(/the print is another: it agrees to \d+ %.*of another sheet\?/);
        }
      }
    }));

  it("rectifies a photo by the paper's four edges", () =>
    inFolder(async folder => {
      const paper = printed(await batch(folder));
      const [w, h] = [paper.width, paper.height];
      const by = photo([w, h], [w, h], { tip: 22, lean: -12, turn: 4, far: 1.35 });
      const seen = spoilt({ ...paper, channels: 1 } as never, {
        ...{ by, width: w, height: h, noise: 4, uneven: 0.8, soft: 2, ground: 60 },
      });
      writeFileSync(join(folder, 'photo.png'), pngOf(seen, 72));
      const found = await told(folder, '--scan', 'photo.png');
      expect(off(found)).toBeLessThan(0.3);
    }));

  it('without fifth and wedge asks for --upright; with the wedge it needs none', () =>
    inFolder(async folder => {
      const sheet = await batch(folder);
      const fifth = printedMarks(sheetOf(folder)).find(m => m.name === 'fifth')!;
      const wedge = printedWedge(sheetOf(folder))!;
      const withWedge = without(sheet, fifth);
      const bare = printed(without(withWedge, wedge));
      writeFileSync(join(folder, 'bare.png'), pngOf(bare, DPI));
      const argv = ['align', `${SHEET}.cut.svg`, '--scan', 'bare.png'];
      const before = filesBelow(folder);
      const ran = await foldwright(argv, folder);
      expect(ran.code).toBe(2);
      expect(ran.err).toContain('not found: fifth, nor the wedge');
      expect(ran.err).toContain('--upright');
      expect(filesBelow(folder)).toEqual(before);
      const said = await told(folder, '--scan', 'bare.png', '--upright');
      expect(said.warnings.join()).toContain('as you said');
      expect(off(said)).toBeLessThan(0.1);
      const turnedRound = onScanner(printed(withWedge), 180, 70);
      writeFileSync(join(folder, 'wedge.png'), pngOf(turnedRound, DPI));
      const seen = await told(folder, '--scan', 'wedge.png');
      expect(seen.warnings.join()).toContain('the wedge tells');
      expect(off(seen)).toBeLessThan(0.1);
    }));

  it('refuses in words, and writes nothing', () =>
    inFolder(async folder => {
      const sheet = await batch(folder);
      writeFileSync(join(folder, 'blank.png'), pngOf({ ...page([], 100) }, 100));
      writeFileSync(join(folder, 'note.png'), 'a note');
      // It does not say its resolution.
      writeFileSync(join(folder, 'scan.png'), pngOf(sheet));
      const marks = printedMarks(sheetOf(folder));
      writeFileSync(join(folder, 'other.png'), pngOf(page(marks, 100)));
      const before = filesBelow(folder);
      const refused = async (...argv: string[]) => {
        const ran = await foldwright(['align', `${SHEET}.cut.svg`, ...argv], folder);
        expect(ran.code).toBe(2);
        return ran.err;
      };
      expect(await refused('--scan', 'none.png')).toContain('no such file');
      expect(await refused('--scan', 'blank.png')).toContain('no register mark');
      expect(await refused('--scan', 'note.png')).toContain('neither PNG nor JPEG');
      expect(await refused('--scan', 'scan.png')).toContain('--dpi');
      expect(await refused('--scan', 'scan.png', '--dpi', '3,00')).toContain('40 to 5000');
      expect(await refused('--scan', 'scan.png', '--dpi', '300')).toContain('look like 150 dpi');
      expect(await refused('--scan', 'other.png')).toContain('the print is another');
      expect(await refused('--scan', 'scan.png', '--miss', 'fifth 0,0')).toContain('--miss');
      expect(filesBelow(folder)).toEqual(before);
    }));
});
