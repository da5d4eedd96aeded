/** A sheet's own print is always taken for its own, and that of other jobs told, however it was scanned. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { seeded } from '../../src/motifs/random.js';
import { type PrintedSheet, printLikeness } from '../../src/scan/other-sheet.js';
import { readPicture } from '../../src/scan/picture-file.js';
import { chained, type Plane } from '../../src/scan/plane.js';
import type { Grey, Picture } from '../../src/scan/raster.js';
import { parseManifest } from '../../src/write/index.js';
import { foldwright, inFolder } from '../support/command.js';
import { flat, LETTER, page, photo, spoilt, turned } from './pages.js';

const DPI = 100;
const decor = (name: string, motif: string, art: string) =>
  `  - { name: ${name}, ${motif}, stock: printable-65lb-letter, art: { ${art} } }\n`;
const heart = 'motif: heart, params: { size: 55 }, count: ';
const apple = 'motif: apple, params: { size: 60 }, count: 8';
const JOB = `job: windfall
units: mm
formats: [svg, print-png]
dpi: ${DPI}
decor:
${[
  decor('hearts', `${heart}9`, 'pattern: stripes, palette: windfall'),
  decor('dotted-hearts', `${heart}9`, 'pattern: dots, palette: plum-dusk'),
  decor('two-hearts', `${heart}2`, 'pattern: stripes, palette: windfall'),
  decor('stars', 'motif: star, params: { size: 80 }, count: 6', 'pattern: plaid, palette: cider'),
  decor('apples', apple, 'pattern: woodgrain, palette: frost'),
  decor('pale-apples', apple, 'pattern: ombre, palette: blossom'),
  decor('one-tag', 'motif: tag, count: 1', 'pattern: dots, palette: frost'),
  decor('tags', 'motif: tag, count: 12', 'pattern: scatter, palette: orchard-rows'),
  decor('labels', 'motif: label, count: 6', 'pattern: floral, palette: blossom'),
].join('')}`;

interface Printed extends PrintedSheet {
  readonly name: string;
  readonly picture: Picture;
}
const sheets: Printed[] = [];
beforeAll(
  () =>
    inFolder(async folder => {
      writeFileSync(join(folder, 'job.yaml'), JOB);
      const ran = await foldwright(['batch', 'job.yaml'], folder);
      expect(ran.code, ran.err).toBe(0);
      const job = join(folder, 'out/windfall');
      const manifest = parseManifest(readFileSync(join(job, 'manifest.json'), 'utf8'));
      for (const { item, id, tone, widthMm: width, heightMm: height } of manifest.sheets) {
        if (!tone) continue;
        const picture = readPicture(readFileSync(join(job, `${item}/${id}.print.png`)));
        sheets.push({ name: item, picture, tone, width, height });
      }
    }),
  120_000,
);

/** One channel, each pixel by its red, green and blue. */
const shaded = (picture: Picture, of: (r: number, g: number, b: number) => number): Picture => ({
  ...picture,
  channels: 1,
  data: Uint8Array.from({ length: picture.width * picture.height }, (_, k) => {
    const [r, g, b] = [0, 1, 2].map(c => picture.data[3 * k + c]!) as [number, number, number];
    return Math.max(0, Math.min(255, of(r, g, b)));
  }),
});
const luma = (r: number, g: number, b: number) => 0.3 * r + 0.59 * g + 0.11 * b;

/** The scan, and how the sheet lies in it as a finder of marks would have it: half a millimetre off. */
type Scan = (picture: Picture, seed: number) => { readonly grey: Grey; readonly plane: Plane };
const found = (by: Plane, seed: number): Plane => {
  const random = seeded(seed);
  const [dx, dy] = [random() - 0.5, random() - 0.5].map(v => (v * DPI) / 25.4);
  return chained([1, 0, dx!, 0, 1, dy!, 0, 0], chained(by, flat(LETTER, DPI)));
};
const onGlass =
  (deg: number, dull: (p: Picture) => Picture, light: object = {}): Scan =>
  (picture, seed) => {
    const { width, height } = picture;
    const by = chained([1, 0, 40, 0, 1, 50, 0, 0], turned(width, height, deg, [5, -3]));
    const size = { by, width: width + 80, height: height + 100, seed };
    const spoil = { ...size, noise: 6, uneven: 0.8, ground: 80, ...light };
    return { grey: spoilt(dull(picture), spoil), plane: found(by, seed) };
  };
/** The hand that holds the phone shades a part of the sheet. */
const handOver = (grey: Grey): Grey => {
  const { width, height, data } = grey;
  const shade = data.map((v, k) => {
    const [x, y] = [(k % width) / width - 0.7, Math.floor(k / width) / height - 0.4];
    return v * (1 - 0.4 / (1 + Math.exp(8 * (Math.hypot(x, y) / 0.3 - 1))));
  });
  return { width, height, data: shade };
};
const SCANS: Readonly<Record<string, Scan>> = {
  'as it was sent': (picture, seed) => ({
    grey: shaded(picture, luma),
    plane: found([1, 0, 0, 0, 1, 0, 0, 0], seed),
  }),
  crooked: onGlass(3, p => p),
  'upside down': onGlass(181, p => p, { soft: 2, uneven: 1.15 }),
  'with little ink left': onGlass(1, p =>
    shaded(p, (r, g, b) => (luma(r, g, b) < 30 ? 0 : 255 - 0.35 * (255 - luma(r, g, b)))),
  ),
  'far too dark': onGlass(-1, p => shaded(p, (r, g, b) => 255 * (luma(r, g, b) / 255) ** 1.8)),
  'by red light': onGlass(2, p => shaded(p, (r, g, b) => 0.8 * r + 0.1 * g + 0.1 * b)),
  'with the wrong inks': onGlass(2, p => shaded(p, (r, g, b) => 0.1 * r + 0.1 * g + 0.8 * b)),
  'on dark card': onGlass(-2, p => shaded(p, (r, g, b) => 0.6 * luma(r, g, b))),
  'as a photo with a hand over it': (picture, seed) => {
    const { width, height } = picture;
    const by = photo([width, height], [width, height], { tip: 28, lean: -18, turn: 94, far: 1.5 });
    const light = { noise: 6, uneven: 0.6, soft: 2, ground: 60 };
    return {
      grey: handOver(spoilt(picture, { by, width, height, ...light, seed })),
      plane: found(by, seed),
    };
  },
};
const likeness = (of: Printed, { grey, plane }: ReturnType<Scan>) => printLikeness(grey, plane, of);

/** Below which `align` refuses a scan. */
const LEAST_LIKE = 0.6;

describe.each(Object.entries(SCANS))('a page scanned %s', (how, scan) => {
  it('is its own sheet, and no other', () => {
    const told: string[] = [];
    let [least, most, others] = [1, -1, 0];
    for (const [i, seen] of sheets.entries()) {
      const scanned = scan(seen.picture, 17 * i + how.length);
      for (const as of sheets) {
        const like = likeness(as, scanned)!;
        if (as === seen) {
          expect(like, seen.name).toBeGreaterThan(LEAST_LIKE + 0.1);
          least = Math.min(least, like);
        } else {
          others++;
          most = Math.max(most, like);
          if (like >= LEAST_LIKE) told.push(`${seen.name} as ${as.name} (${like.toFixed(2)})`);
        }
      }
    }
    // Of the same outlines and nearly the same shades, now and then one goes through.
    expect(told.filter(t => !/apples as .*apples/.test(t))).toEqual([]);
    expect(others).toBe(sheets.length * (sheets.length - 1));
    if (process.env.SHOW) process.stdout.write(`${how}: own ${least}, others ${most}\n`);
  });
});

describe('what tells nothing', () => {
  it('is a page that prints next to nothing, and a picture of a corner of the sheet', () => {
    const [{ picture, tone }] = sheets as [Printed];
    const bare = { squareMm: 3, rows: tone.rows.map(row => '0'.repeat(row.length)) };
    const scan = { grey: shaded(picture, luma), plane: flat(LETTER, DPI) };
    const [width, height] = LETTER;
    expect(printLikeness(scan.grey, scan.plane, { tone: bare, width, height })).toBeUndefined();
    const corner = { width: 150, height: 150, data: new Uint8Array(150 * 150).fill(255) };
    expect(printLikeness(corner, scan.plane, { tone, width, height })).toBeUndefined();
  });
  it('is not a blank page where print is expected', () => {
    const [sheet] = sheets as [Printed];
    const blank = shaded(page([], DPI), luma);
    expect(printLikeness(blank, flat(LETTER, DPI), sheet)).toBeLessThan(0.2);
  });
});
