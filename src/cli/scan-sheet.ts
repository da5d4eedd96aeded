/** The marks of a sheet of ours in a scan or a photo of it, as if they had been measured. */
import { readFileSync, statSync } from 'node:fs';
import { resolve } from 'node:path';
import type { PrintedMark } from '../model.js';
import type { Sighting } from '../register/index.js';
import {
  findMarks,
  greyOf,
  howItLies,
  type Lies,
  type Picture,
  PictureError,
  readPicture,
  type SeenSheet,
} from '../scan/index.js';
import { InputError } from './environment.js';

/** A letter page at 600 dpi in full colour has 101 MB before it is packed. */
const MOST_BYTES = 150e6;

/** Throws `InputError` for what is no picture. */
export function pictureOf(file: string, cwd: string): Picture {
  const path = resolve(cwd, file);
  const stat = statSync(path, { throwIfNoEntry: false });
  if (!stat?.isFile()) {
    throw new InputError(`${file}: ${stat ? 'that is not a file' : 'there is no such file'}.`);
  }
  if (stat.size > MOST_BYTES) {
    const mb = (n: number) => (n / 1e6).toFixed(0);
    throw new InputError(
      `${file}: ${mb(stat.size)} MB is more than the ${mb(MOST_BYTES)} MB that are read. Scan at 300 dpi.`,
    );
  }
  try {
    return readPicture(readFileSync(path));
  } catch (error) {
    if (error instanceof PictureError) throw new InputError(`${file}: ${error.message}`);
    throw error;
  }
}

/** Throws `InputError` where the marks are not all to be found and the rest do not tell. */
export function marksIn(picture: Picture, marks: readonly PrintedMark[], file: string): SeenSheet {
  const seen = findMarks(greyOf(picture), marks);
  if ('unseen' in seen) throw new InputError(`${file}: ${seen.unseen}`);
  return seen;
}

export interface Scanned {
  readonly sightings: readonly Sighting[];
  readonly precision: number;
  readonly words: string;
  readonly warnings: readonly string[];
}

export interface ScanAsk {
  readonly file: string;
  readonly cwd: string;
  readonly dpi: number | undefined;
  readonly marks: readonly PrintedMark[];
  readonly width: number;
  readonly height: number;
}

export function scanned({ file, cwd, dpi, marks, width, height }: ScanAsk): Scanned {
  const picture = pictureOf(file, cwd);
  const seen = marksIn(picture, marks, file);
  const asked = dpi === undefined ? picture.dpi : ([dpi, dpi] as const);
  const lies = howItLies(greyOf(picture), seen, { width, height, ...(asked && { dpi: asked }) });
  if ('unseen' in lies) throw new InputError(`${file}: ${lies.unseen}`);
  return {
    sightings: lies.seen.map(({ mark, at }) => ({ name: mark.name, at: mark.at, seen: at })),
    precision: lies.precision,
    words: `${seen.marks.length} of ${marks.length} marks found in the ${lies.kind}; ${FROM[lies.from]}`,
    warnings: warningsOf(seen, lies),
  };
}

const FROM: Readonly<Record<Lies['from'], string>> = {
  paper: "their places count from the paper's edges",
  picture: "the scan is as large as the sheet, so its edges are taken for the paper's",
  marks: "the paper's edges are not to be seen",
};

export function warningsOf(seen: SeenSheet, lies?: Lies): string[] {
  const warnings: string[] = [];
  const names = seen.missing.map(m => m.name).join(', ');
  if (names !== '') {
    warnings.push(
      `not found: ${names}. Covered, smudged or cut off? The other ${seen.marks.length} are enough.`,
    );
  }
  if (seen.eitherWay) {
    warnings.push(
      'without it, nothing tells which way round the sheet lies: it was taken to lie upright in the picture. Look before you cut.',
    );
  }
  if (lies?.from === 'marks') {
    warnings.push(
      'only the size and the lean of the print are corrected, not where it lies on the paper. Scan with something dark behind the sheet, or cropped to the sheet; or lay the sheet by its marks.',
    );
  }
  return warnings;
}
