/**
 * `npm run demo:registration`: print, then cut, with no person at hand. A sheet is printed by rendering it,
 * spoilt as a real printer and scanner would, scanned, and aligned; how far the cut is from the artwork is
 * told before and after. The same for a page of stamped images. Leaves the README's two pictures.
 */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { decode } from 'fast-png';
import { readFonts } from '../../src/cli/preset-files.js';
import { distanceToPath, flatten, polygon } from '../../src/geom/index.js';
import type { Drawing, Path, Point } from '../../src/model.js';
import { makeMotifTools } from '../../src/motifs/index.js';
import { contoursOf } from '../../src/scan/contours.js';
import { readPicture } from '../../src/scan/index.js';
import { chained, onto, type Plane } from '../../src/scan/plane.js';
import { readDrawingJson } from '../../src/write/index.js';
import { toPng } from '../../src/write/png.js';
import { foldwright, inFolder, root } from '../support/command.js';
import { pngOf } from '../support/png.js';
import { type Pixels, stamped } from '../support/stamped.js';
import { laid, picture, table, words } from './panels.js';
import { fault, millimetres, onGlass, pixels, warped } from './scanner.js';
import { orchardStamps } from './stamps.js';

const [WIDTH, HEIGHT] = [215.9, 279.4];
/** Shrunk by 0.4 %, leaning by 0.3°, 1.2 mm off. */
const PRINTER = fault(
  { shrink: 0.004, skewDeg: 0.3, turnDeg: 0.25, offset: [1.1, -0.5] },
  WIDTH,
  HEIGHT,
);
const tell = (text: string) => process.stdout.write(`${text}\n`);
const out = join(root, 'out', 'gallery');
const tools = makeMotifTools({ fonts: readFonts({ presetsDir: join(root, 'presets') }) });

const JOB = `job: tags
units: mm
formats: [svg, dxf, print-png]
bleed: 0mm # no art past the cut: every slip shows
decor:
  - { name: tags, motif: heart, params: { size: 56 }, count: 2, stock: printable-65lb-letter,
      art: { pattern: dots, palette: kraft-chalk } }
`;

async function run(folder: string, ...argv: string[]): Promise<string> {
  const ran = await foldwright(argv, folder);
  if (ran.code !== 0) throw new Error(`${argv.join(' ')}: exit ${ran.code}\n${ran.err}`);
  return ran.out;
}
const read = (folder: string, file: string) => readPicture(readFileSync(join(folder, file)));
const cutOf = (folder: string, file: string): readonly Path[] => {
  const drawing: Drawing = readDrawingJson(readFileSync(join(folder, file), 'utf8'));
  return drawing.layers.find(l => l.operation === 'cut')!.paths;
};

/** The page as it comes out of the printer, on paper of its size. */
function printed(page: Pixels, perMm: number): Pixels {
  const by = chained(pixels(HEIGHT, perMm), chained(PRINTER, millimetres(HEIGHT, perMm)));
  const { width, height } = page;
  const seen = { width, height, ground: [255, 255, 255], noise: 0, uneven: 1, seed: 1 } as const;
  return warped(page, by, seen);
}

const moved = (path: Path, by: Plane): Path => polygon(flatten(path, 0.02).map(p => onto(by, p)));
/** The farthest that any point of the cuts is from the lines, mm. */
const worst = (cuts: readonly Path[], lines: readonly Path[]): number =>
  Math.max(
    ...cuts.flatMap(cut =>
      flatten(cut, 0.05).map(p => Math.min(...lines.map(line => distanceToPath(p, line)))),
    ),
  );

async function printThenCut(folder: string): Promise<void> {
  writeFileSync(join(folder, 'job.yaml'), JOB);
  await run(folder, 'batch', 'job.yaml');
  const base = 'out/tags/tags/printable-65lb-letter-1';
  const page = read(folder, `${base}.print.png`);
  const perMm = page.width / WIDTH;
  const paper = printed(page, perMm);
  const { scan } = onGlass(paper, perMm, HEIGHT, 0.8);
  writeFileSync(join(folder, 'scan.png'), pngOf(scan, 25.4 * perMm));
  tell(await run(folder, 'align', `${base}.cut.svg`, '--scan', 'scan.png'));
  const drawn = cutOf(folder, `${base}.drawing.json`);
  const aligned = cutOf(folder, `${base}.aligned.drawing.json`);
  const edges = drawn.map(p => moved(p, PRINTER));
  const [before, after] = [worst(drawn, edges), worst(aligned, edges)];
  tell(`Printed, then cut: the cut misses the artwork's edge by ${before.toFixed(2)} mm as drawn,`);
  tell(`by ${after.toFixed(2)} mm when aligned by the scan.`);
  const panel = (cuts: readonly Path[], x: number, id: string) => {
    const outlines = cuts.slice(0, 2);
    const pieces = outlines.map((p, i) => ({
      paths: [p],
      at: laid(p, 40 + 62 * i, 36 - 2 * i, i === 0 ? 7 : -5),
    }));
    return table(paper, perMm, pieces, { width: 142, height: 72, px: 4, x, y: 14, id });
  };
  const svg = picture(1178, 350, [
    panel(drawn, 14, 'before'),
    panel(aligned, 596, 'after'),
    words(tools, `Cut as drawn: up to ${before.toFixed(1)} mm beside the print`, 24, 334),
    words(tools, `Aligned by a scan of the sheet: ${after.toFixed(2)} mm`, 606, 334),
  ]);
  writeFileSync(join(out, 'registration.png'), toPng(svg, 1178));
  tell('out/gallery/registration.png');
}

const MARGIN = 2;

async function stampedThenCut(folder: string): Promise<void> {
  await run(folder, 'stamp-sheet', '--formats', 'svg,dxf,print-png');
  const page = read(folder, 'out/stamps/page/printable-65lb-letter-1.print.png');
  const perMm = page.width / WIDTH;
  const { page: paper, ink } = stamped(printed(page, perMm), perMm, orchardStamps(), 7);
  const { scan } = onGlass(paper, perMm, HEIGHT, -1.1);
  writeFileSync(join(folder, 'scan.png'), pngOf(scan, 25.4 * perMm));
  tell(await run(folder, 'trace', 'scan.png', '--name', 'orchard'));
  const base = 'out/stamps/orchard/printable-65lb-letter-1';
  tell(await run(folder, 'align', `${base}.cut.svg`, '--scan', 'scan.png'));
  const flat = { ...paper, data: ink, channels: 1, perMm, minX: 0, maxY: HEIGHT } as const;
  const toPaper = ([x, y]: Point): Point => [x / perMm, HEIGHT - y / perMm];
  const loops = contoursOf(flat, 127).map(l => polygon(l.map(toPaper)));
  const miss = (cuts: readonly Path[]) => {
    const offs = cuts.flatMap(cut =>
      flatten(cut, 0.05).map(p =>
        Math.abs(Math.min(...loops.map(l => distanceToPath(p, l))) - MARGIN),
      ),
    );
    offs.sort((a, b) => a - b);
    const at = (part: number) => offs[Math.floor(part * (offs.length - 1))]!;
    return { worst: at(1), most: at(0.99), median: at(0.5) };
  };
  const drawn = cutOf(folder, `${base}.drawing.json`);
  const aligned = cutOf(folder, `${base}.aligned.drawing.json`);
  const [before, after] = [miss(drawn), miss(aligned)];
  tell(
    `Stamped, then cut: the cut is off its ${MARGIN} mm from the ink by ${before.worst.toFixed(2)} mm at worst`,
  );
  tell(
    `as the marks lie, by ${after.worst.toFixed(2)} mm when aligned (99 % within ${after.most.toFixed(2)} mm, half within ${after.median.toFixed(2)} mm).`,
  );
  const order = [...aligned].sort((a, b) => inPlace(a) - inPlace(b));
  const pieces = order.map((p, i) => ({
    paths: [p],
    at: laid(p, 34 + 54 * (i % 4), [142, 84, 30][Math.floor(i / 4)] ?? 30, ((i * 37) % 23) - 11),
  }));
  const seen = Buffer.from(pngOf(scan)).toString('base64');
  const tall = 660;
  const wide = Math.round((tall * scan.width) / scan.height);
  const svg = picture(wide + 900, tall + 50, [
    `<image x="14" y="14" width="${wide}" height="${tall}" href="data:image/png;base64,${seen}"/>`,
    table(paper, perMm, pieces, {
      width: 228,
      height: 176,
      px: 3.75,
      x: wide + 32,
      y: 14,
      id: 's',
    }),
    words(tools, 'Stamped on the printed page, and scanned', 20, tall + 36),
    words(tools, `Cut by machine, ${MARGIN} mm from the ink`, wide + 40, tall + 36),
  ]);
  writeFileSync(join(out, 'stamps.png'), evened(toPng(svg, wide + 900)));
  tell('out/gallery/stamps.png');
}

/** Shades of this many steps are one: a scan's grain is most of the file and nothing to the eye. */
const SHADES = 8;
function evened(png: Uint8Array): Uint8Array {
  const { width, height, data } = decode(png);
  const rgb = new Uint8Array(width * height * 3);
  for (let i = 0, k = 0; i < data.length; i += 4) {
    for (let c = 0; c < 3; c++)
      rgb[k++] = Math.min(255, Math.round(data[i + c]! / SHADES) * SHADES);
  }
  return pngOf({ width, height, data: rgb, channels: 3 });
}

/** Rows from the top, then from the left. */
const inPlace = (p: Path): number => -Math.round(p.start[1] / 55) * 1000 + p.start[0];

mkdirSync(out, { recursive: true });
await inFolder(printThenCut);
await inFolder(stampedThenCut);
