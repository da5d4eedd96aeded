/** What an inspection found, as a picture in a file. */
import { basename } from 'node:path';
import { STANDARD } from '../job/index.js';
import type { Drawing } from '../model.js';
import { cornerOf, type InspectOptions, tipTracks } from '../tool/index.js';
import { inspectPicture, toPng } from '../write/index.js';
import { type Environment, InputError } from './environment.js';
import { noteText, placesText, type Told } from './inspect-words.js';
import { readFonts, readPresets } from './preset-files.js';
import { writeWhole } from './write-whole.js';

/** The tip's way is drawn within this, mm: a tenth of what a glass shows of a pixel. */
const TRACK_MM = 0.002;
const FACES = { regular: 'nunito', bold: 'nunito-bold' } as const;
const FLAG = '--picture';

/** Before anything is read: only two kinds are drawn, and one file at a time. */
export function checkPicture(picture: string | undefined, files: readonly string[]): void {
  if (picture === undefined) return;
  if (!/\.(?:svg|png)$/i.test(picture)) {
    throw new InputError(`${FLAG} ${picture}: allowed is a name that ends in .svg or .png.`);
  }
  if (files.length !== 1) {
    throw new InputError(`${FLAG} ${picture}: ${files.length} files; it is of one. Name one file.`);
  }
}

export function drawInspected(
  told: Told,
  file: Drawing,
  options: InspectOptions,
  ask: { readonly picture: string; readonly width: number },
  environment: Environment,
): void {
  const { report } = told;
  const fonts = readFonts(environment);
  const convention = readPresets(environment).get('convention', STANDARD.convention);
  const [regular, bold] = [fonts.get(FACES.regular), fonts.get(FACES.bold)];
  if (!('value' in convention) || !regular || !bold) {
    throw new Error('a preset of the program is missing');
  }
  const tracks = tipTracks(file, options, TRACK_MM);
  const drawing = options.intended ?? file;
  const corner = tracks.length > 0 ? cornerOf(drawing) : undefined;
  const svg = inspectPicture(
    {
      title: basename(told.file),
      note: noteText(told),
      good: report.good,
      drawing,
      ...(options.intended && { file }),
      tip: tracks.map(t => t.xy),
      findings: report.findings.map(f => ({ ...f, where: placesText(f) })),
      ...(corner && { corner }),
    },
    convention.value,
    { regular: asFiles(regular), bold: asFiles(bold) },
  );
  const png = /\.png$/i.test(ask.picture);
  writeWhole(FLAG, ask.picture, png ? toPng(svg, ask.width) : svg, environment);
}

const asFiles = (font: Uint8Array | readonly Uint8Array[]) =>
  font instanceof Uint8Array ? [font] : font;
