/** A scanned page at 300 and 600 dpi, from its file's bytes to marks, and to traced images. */
import { spawnSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { circle, polygon } from '../../src/geom/index.js';
import type { Point } from '../../src/model.js';
import { findMarks, greyOf, readPicture, tracePage } from '../../src/scan/index.js';
import { rectified } from '../../src/scan/rectify.js';
import { stampArea } from '../../src/sheet/index.js';
import { fiveOf, LETTER, page, ringAndCross } from '../scan/pages.js';
import { inFolder, root } from '../support/command.js';
import { pngOf } from '../support/png.js';
import { stamped } from '../support/stamped.js';
import { type Row, warmed } from './measure.js';

const [WIDTH, HEIGHT] = LETTER;
const OPTIONS = {
  ink: 'dark',
  leastArea: 6,
  margin: 2,
  merge: 3,
  holes: false,
  smooth: 0.1,
} as const;

const star = (x: number, y: number, r: number) =>
  polygon(
    Array.from({ length: 10 }, (_, i): Point => {
      const [a, q] = [(Math.PI * i) / 5, i % 2 ? 0.45 * r : r];
      return [x + q * Math.cos(a), y + q * Math.sin(a)];
    }),
  );
/** Twelve rough images in colour. */
const stamps = Array.from({ length: 12 }, (_, i) => {
  const [x, y] = [45 + 60 * (i % 3), 50 + 58 * Math.floor(i / 3)];
  const loops = i % 2 ? [star(x, y, 24)] : [circle([x, y], 20), circle([x, y], 8)];
  return {
    loops,
    colour: [
      [150, 60, 40],
      [70, 100, 60],
      [90, 60, 110],
    ][i % 3] as never,
  };
});
const marks = fiveOf(ringAndCross);
const area = stampArea(
  marks.map(m => ({
    name: m.name,
    at: m.at,
    style: { shape: 'ring-and-cross', size: 8, stroke: 0.25 },
    quarters: 0,
  })),
);

function fileAt(dpi: number): Uint8Array {
  const sheet = page(marks, dpi);
  return pngOf(stamped(sheet, sheet.width / WIDTH, stamps, 4).page, dpi);
}
function marksOf(file: Uint8Array) {
  const picture = readPicture(file);
  const seen = findMarks(greyOf(picture), marks);
  if ('unseen' in seen || seen.missing.length > 0) throw new Error('marks are missing');
  return { picture, seen };
}
function laidFlat(file: Uint8Array, perMm: number): void {
  const { picture, seen } = marksOf(file);
  rectified(picture, seen.plane, { minX: 0, minY: 0, maxX: WIDTH, maxY: HEIGHT }, perMm);
}
function traced(file: Uint8Array): void {
  const { picture, seen } = marksOf(file);
  const found = tracePage(picture, seen, area, { width: WIDTH, height: HEIGHT }, OPTIONS);
  if ('unseen' in found || found.images.length !== 12) throw new Error('images are missing');
}

/** The whole command in a process of its own, MB at its largest. */
const memory = (file: Uint8Array): Promise<number> =>
  inFolder(async folder => {
    const main = join(root, 'dist', 'main.js');
    spawnSync(process.execPath, [main, 'stamp-sheet', '--formats', 'svg'], { cwd: folder });
    writeFileSync(join(folder, 'scan.png'), file);
    const script = `process.on('exit', () => process.stderr.write('MB ' + process.resourceUsage().maxRSS / 1024)); process.argv.splice(1, 0, 'main'); import(${JSON.stringify(main)});`;
    const argv = ['-e', script, '--', 'trace', 'scan.png', '--check'];
    const done = spawnSync(process.execPath, argv, { cwd: folder, encoding: 'utf8' });
    const found = /MB ([\d.]+)/.exec(done.stderr);
    if (done.status !== 0 || !found) throw new Error(`trace: ${done.stderr}`);
    return Number(found[1]);
  });

export async function scan(): Promise<Row[]> {
  const fine = fileAt(300);
  const flat = await warmed(() => laidFlat(fine, 300 / 25.4), 1, 5);
  const cut = await warmed(() => traced(fine), 1, 5);
  const mb = await memory(fine);
  const finer = fileAt(600);
  const large = await warmed(() => traced(finer), 0, 3);
  return [
    { what: 'Letter at 300 dpi: read, marks, laid flat', value: flat, unit: 'ms', aim: 1500 },
    { what: 'Letter at 300 dpi: read, marks, traced', value: cut, unit: 'ms', aim: 3000 },
    { what: 'memory of the whole trace command', value: mb, unit: 'MB', aim: 600 },
    { what: 'Letter at 600 dpi, over 300 dpi', value: large / cut, unit: '×', aim: 4 },
  ];
}
