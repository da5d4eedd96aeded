/** The marks of a sheet of ours in a scan or a photo of it, as if they had been measured. */
import { readFileSync, statSync } from 'node:fs';
import { resolve } from 'node:path';
import type { Sighting } from '../register/index.js';
import {
  findMarks,
  greyOf,
  howItLies,
  type Lies,
  type Picture,
  PictureError,
  printLikeness,
  readPicture,
  type SeenSheet,
} from '../scan/index.js';
import type { ManifestSheet } from '../write/index.js';
import { InputError } from './environment.js';
import { printedMarks, printedWedge } from './our-marks.js';

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

/** Throws `InputError` where the marks are not all to be found and the rest do not tell. `upright`: the
 *  person says which way round the sheet lies. */
export function marksIn(
  picture: Picture,
  sheet: ManifestSheet,
  file: string,
  upright: boolean,
): SeenSheet {
  const seen = findMarks(greyOf(picture), printedMarks(sheet), printedWedge(sheet));
  if ('unseen' in seen) throw new InputError(`${file}: ${seen.unseen}`);
  if (seen.wayBy === 'nothing' && !upright) {
    const gone = seen.missing.map(m => m.name).join(', ');
    throw new InputError(
      `${file}: not found: ${gone}, nor the wedge beside the fifth mark, so that nothing tells which way round the sheet lies. If the picture shows it upright, its words to be read, add --upright; if not, turn the picture first.`,
    );
  }
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
  readonly sheet: ManifestSheet;
  readonly upright: boolean;
}

/** Less like its own print than this, a scan is another sheet's. Own pages, spoilt in every way, are 0.83
 *  like and more; of 6804 scans of others 99 % are below (test/scan/other-sheet). */
const LEAST_LIKE = 0.6;

/** Marks are alike on every sheet of a paper: what is printed tells sheets apart. */
function refuseAnother(picture: Picture, seen: SeenSheet, { file, sheet }: ScanAsk): void {
  const { tone, widthMm: width, heightMm: height } = sheet;
  const like = tone && printLikeness(greyOf(picture), seen.plane, { tone, width, height });
  if (like === null || like === undefined || like >= LEAST_LIKE) return;
  const percent = (share: number) => `${Math.round(100 * Math.max(0, share))} %`;
  throw new InputError(
    `${file}: the marks are there, but the print is another: it agrees to ${percent(like)} with that of ${sheet.id} of ${sheet.item}, whose own would to ${percent(LEAST_LIKE)} or more. Is it the scan of another sheet? If it is the right one, measure by hand: --miss or --marks.`,
  );
}

export function scanned(ask: ScanAsk): Scanned {
  const { file, cwd, dpi, sheet, upright } = ask;
  const { widthMm: width, heightMm: height, marks } = sheet;
  const picture = pictureOf(file, cwd);
  const seen = marksIn(picture, sheet, file, upright);
  refuseAnother(picture, seen, ask);
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
  if (seen.wayBy === 'wedge') warnings.push('the wedge tells which way round the sheet lies.');
  if (seen.wayBy === 'nothing') {
    warnings.push('the sheet was taken to lie upright in the picture, as you said.');
  }
  if (lies?.from === 'marks') {
    warnings.push(
      'only the size and the lean of the print are corrected, not where it lies on the paper. Scan with something dark behind the sheet, or cropped to the sheet; or lay the sheet by its marks.',
    );
  }
  return warnings;
}
