/** Traces the stamped images of a scanned page, and writes what cuts them out. */
import { existsSync } from 'node:fs';
import { basename, extname, join, resolve } from 'node:path';
import { bounds, polygon } from '../geom/index.js';
import { faultOfName, plainName } from '../job/index.js';
import type { Sheet } from '../model.js';
import { type PageOptions, type TracedImage, tracePage, writePicture } from '../scan/index.js';
import { stampArea } from '../sheet/index.js';
import { imageDrawing, type StampKit, stampedSheet, stampItem } from '../stamp-pages.js';
import { type OverlayLine, overlayPng } from '../write/index.js';
import { type Environment, EXIT, type ExitCode, InputError } from './environment.js';
import { markOf } from './our-marks.js';
import { manifestIn, type OurSheet, sheetOf } from './our-sheet.js';
import { marksIn, pictureOf, warningsOf } from './scan-sheet.js';
import { checkName, STAMPS, stampKit, storeStamped } from './stamp-files.js';

export interface TraceCommandOptions {
  readonly sheet?: string | undefined;
  readonly ink: 'dark' | 'light';
  readonly margin: number;
  readonly merge: number;
  readonly leastArea: number;
  readonly threshold?: number | undefined;
  readonly smooth: number;
  readonly holes?: true | undefined;
  readonly upright?: true | undefined;
  readonly cutter: string;
  readonly name?: string | undefined;
  readonly out: string;
  readonly formats: string;
  readonly force?: true | undefined;
  readonly check?: true | undefined;
  readonly json?: true | undefined;
}

/** More images than this on a page are dirt, or a pattern. */
const MOST_IMAGES = 300;
/** The page that `stamp-sheet` makes if nothing else is said. */
const PAGE = 'page';

export async function traceScan(
  file: string,
  options: TraceCommandOptions,
  environment: Environment,
): Promise<ExitCode> {
  const name = options.name ?? nameOf(file);
  checkName(name);
  if (name === PAGE) {
    throw new InputError(`"${PAGE}" is the folder of the page itself. Give another with --name.`);
  }
  const ours = pageOf(options, environment);
  const { sheet } = ours;
  const kit = kitFor(ours, options, environment);
  const picture = pictureOf(file, environment.cwd);
  const seen = marksIn(picture, sheet, file, options.upright ?? false);
  const marks = sheet.marks.map(markOf);
  const size = { width: sheet.widthMm, height: sheet.heightMm };
  const found = tracePage(picture, seen, stampArea(marks), size, askOf(options));
  if ('unseen' in found) throw new InputError(`${file}: ${found.unseen}`);
  const { images } = found;
  if (images.length === 0 || images.length > MOST_IMAGES) {
    const what =
      images.length === 0
        ? `nothing is stamped on it that is darker than ${percent(found.threshold)} and has ${options.leastArea} mm² of ink`
        : `${images.length} images are more than the ${MOST_IMAGES} that are cut at once`;
    throw new InputError(
      `${file}: ${what}. Try --threshold and --least-area; the page is that of ${ours.sheet.item}.`,
    );
  }
  const cut = stampedSheet(kit.stock, marks, images);
  const item = stampItem(name, `Stamped images of ${basename(file)}`);
  const more = () => [
    {
      name: 'overlay.png',
      bytes: overlay(images, writePicture(found.page), { ...size, widthPx: found.page.width }),
      holds: 'the scan with the cut lines over it, to check by eye',
    },
    ...cut.placements.map(({ piece }) => ({
      name: `${piece.id}.svg`,
      bytes: new TextEncoder().encode(imageDrawing(piece, kit.convention)),
      holds: `the outline of ${piece.id}, to be used as a motif`,
    })),
  ];
  const { out, force } = options;
  const run = { item, sheet: cut, kit, out, force, more };
  const files = options.check ? [] : (await storeStamped(run, environment)).files;
  const told = {
    images: factsOf(cut, images),
    threshold: found.threshold,
    warnings: warningsOf(seen),
  };
  environment.out(
    options.json ? JSON.stringify({ ...told, files }, undefined, 2) : wordsOf(told, files),
  );
  return EXIT.good;
}

const percent = (share: number) => `${(share * 100).toFixed(0)} %`;

/** A folder's name out of a file's. */
function nameOf(file: string): string {
  const near = plainName(basename(file, extname(file)));
  return near !== '' && !faultOfName(near) ? near : 'scan';
}

/** The sheet that was stamped on. */
function pageOf({ sheet, out }: TraceCommandOptions, { cwd }: Environment): OurSheet {
  const folder = join(out, STAMPS);
  const path = resolve(cwd, sheet ?? join(folder, PAGE));
  if (!existsSync(path)) {
    throw new InputError(
      sheet === undefined
        ? `there is no ${join(folder, PAGE)}: make the page with "foldwright stamp-sheet" first, or name a file of the stamped sheet with --sheet.`
        : `${sheet}: there is no such file.`,
    );
  }
  const ours = sheet === undefined ? sheetIn(resolve(cwd, folder)) : sheetOf(path);
  if (!ours || ours.sheet.marks.length === 0) {
    throw new InputError(
      `${sheet ?? folder}: no page with register marks is known there. Name a file that stamp-sheet wrote, where it wrote it.`,
    );
  }
  return ours;
}

/** The page that stamp-sheet makes when no name is given. */
function sheetIn(folder: string): OurSheet | undefined {
  const known = manifestIn(folder)?.sheets.find(s => s.item === PAGE);
  return known && sheetOf(join(folder, `${PAGE}/${known.id}.drawing.json`));
}

function kitFor(ours: OurSheet, options: TraceCommandOptions, environment: Environment): StampKit {
  const formats = options.formats.split(',').map(f => f.trim());
  const unknown = formats.filter(f => f !== 'svg' && f !== 'dxf');
  if (unknown.length > 0) throw new InputError(`--formats ${options.formats}: allowed: svg, dxf.`);
  const { sheet } = ours;
  const ask = { stock: sheet.stock, cutter: options.cutter, marks: 'ring-and-cross' };
  const kit = stampKit(ask, formats as ('svg' | 'dxf')[], environment);
  // The sheet as it was made, should the preset have changed since.
  return { ...kit, stock: { ...kit.stock, width: sheet.widthMm, height: sheet.heightMm } };
}

const askOf = (o: TraceCommandOptions): PageOptions => ({
  ink: o.ink,
  leastArea: o.leastArea,
  margin: o.margin,
  merge: o.merge,
  smooth: o.smooth,
  holes: o.holes ?? false,
  ...(o.threshold !== undefined && { threshold: o.threshold }),
});

/** Vermilion and blue, which colour-blind eyes tell apart, on nearly every ink. */
function overlay(
  images: readonly TracedImage[],
  picture: Uint8Array,
  size: { width: number; height: number; widthPx: number },
): Uint8Array {
  const lines: OverlayLine[] = [
    {
      colour: '#0072B2',
      width: 0.25,
      paths: images.flatMap(i => i.ink.map(loop => polygon(loop))),
    },
    { colour: '#D55E00', width: 0.6, paths: images.flatMap(i => [i.outline, ...i.holes]) },
  ];
  return overlayPng(picture, size, lines);
}

interface ImageFacts {
  readonly id: string;
  readonly widthMm: number;
  readonly heightMm: number;
  readonly inkMm2: number;
}
const factsOf = ({ placements }: Sheet, images: readonly TracedImage[]): ImageFacts[] =>
  placements.map(({ piece }, i) => {
    const { minX, minY, maxX, maxY } = bounds(piece.outline);
    const tenth = (mm: number) => Math.round(mm * 10) / 10;
    return {
      id: piece.id,
      widthMm: tenth(maxX - minX),
      heightMm: tenth(maxY - minY),
      inkMm2: Math.round(images[i]!.area),
    };
  });

function wordsOf(
  told: { images: ImageFacts[]; threshold: number; warnings: readonly string[] },
  files: readonly string[],
): string {
  const n = told.images.length;
  return [
    `${n} ${n === 1 ? 'image' : 'images'}; ink is what is darker than ${percent(told.threshold)}`,
    ...told.images.map(
      i => `  ${i.id.padEnd(10)} ${i.widthMm} × ${i.heightMm} mm, ${i.inkMm2} mm² of ink`,
    ),
    ...told.warnings.map(w => `warning: ${w}`),
    ...files.map(f => `wrote ${f}`),
  ].join('\n');
}
