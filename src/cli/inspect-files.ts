/** Reads cut files and tells what is in them. Beside a file of ours it finds the manifest and the
 *  drawing as it was before the blade was allowed for, so the blade's tip can be followed. */
import { basename, extname, resolve } from 'node:path';
import { scaling, transform } from '../geom/index.js';
import { nearest } from '../job/index.js';
import type { Cutter, Drawing, Folding } from '../model.js';
import { type InspectOptions, type InspectReport, inspectDrawing } from '../tool/index.js';
import { parseLength } from '../units/length.js';
import {
  checkKind,
  type ImportWay,
  ReadError,
  type Reading,
  readDxf,
  readingFindings,
  readSvg,
} from '../write/index.js';
import { type Environment, EXIT, type ExitCode, InputError } from './environment.js';
import { checkPicture, drawInspected } from './inspect-drawn.js';
import { reportText } from './inspect-words.js';
import { readBytes, sheetOf } from './our-sheet.js';
import { readPresets } from './preset-files.js';

export interface InspectAsk {
  readonly blade?: string | undefined;
  readonly cutter?: string | undefined;
  readonly small?: string | undefined;
  readonly importAs?: ImportWay | undefined;
  readonly strict?: true | undefined;
  readonly json?: true | undefined;
  /** File that takes a picture of what is found. */
  readonly picture?: string | undefined;
  /** Of the picture, where it is a PNG, px. */
  readonly width: number;
}

/** What is judged by, read once for all files. */
interface By {
  readonly blade: number | undefined;
  /** Named on the command line. */
  readonly cutter: Cutter | undefined;
  readonly standard: Cutter;
  readonly smallPart: number | undefined;
  readonly importAs: ImportWay | undefined;
  readonly drawn: { readonly picture: string; readonly width: number } | undefined;
}

interface Inspected {
  readonly file: string;
  readonly cutter: string;
  readonly sizes: Reading['sizes'];
  readonly readAs: ImportWay;
  readonly report: InspectReport;
}
interface Unreadable {
  readonly file: string;
  /** Why the file could not be read. */
  readonly unreadable: string;
}

/** Reach and speeds are judged for this one where nothing else is said. */
const STANDARD_CUTTER = 'mat-12x12';

export async function inspectFiles(
  files: readonly string[],
  ask: InspectAsk,
  environment: Environment,
): Promise<ExitCode> {
  checkPicture(ask.picture, files);
  const by = byOf(ask, environment);
  const inspected: (Inspected | Unreadable)[] = [];
  for (const file of files) inspected.push(await inspectFile(file, by, environment));
  if (ask.json) environment.out(JSON.stringify(inspected, undefined, 2));
  else for (const one of inspected) environment.out(wordsOf(one));
  if (inspected.some(i => 'unreadable' in i)) return EXIT.badInput;
  const isGood = (i: Inspected | Unreadable) =>
    'report' in i &&
    i.report.good &&
    !(ask.strict && i.report.findings.some(f => f.severity === 'warning'));
  const good = inspected.filter(isGood).length;
  if (!ask.json && files.length > 1) {
    environment.out(`\n${good} of ${files.length} files good.`);
  }
  return good === files.length ? EXIT.good : EXIT.checkFailed;
}

const wordsOf = (one: Inspected | Unreadable): string =>
  'report' in one ? reportText(one) : `${one.file}\n  cannot be read: ${one.unreadable}`;

function byOf(ask: InspectAsk, environment: Environment): By {
  const presets = readPresets(environment);
  const cutterOf = (id: string): Cutter => {
    const found = presets.get('cutter', id);
    if ('value' in found) return found.value;
    const known = presets.ids('cutter');
    const near = nearest(id, known);
    throw new InputError(
      `--cutter ${id}: there is no such cutter.${near ? ` Did you mean ${near}?` : ''} Allowed: ${known.join(', ')}.`,
    );
  };
  return {
    blade: lengthOf('--blade', ask.blade, 0, 5, 'most are 0.25 mm'),
    cutter: ask.cutter === undefined ? undefined : cutterOf(ask.cutter),
    standard: cutterOf(STANDARD_CUTTER),
    smallPart: lengthOf('--small', ask.small, 0, 100, '3 mm if not said'),
    importAs: ask.importAs,
    drawn: ask.picture === undefined ? undefined : { picture: ask.picture, width: ask.width },
  };
}

function lengthOf(
  flag: string,
  text: string | undefined,
  least: number,
  most: number,
  usual: string,
): number | undefined {
  if (text === undefined) return undefined;
  const read = parseLength(text, 'mm');
  if ('fault' in read) throw new InputError(`${flag} ${text}: ${read.fault}`);
  if (read.mm >= least && read.mm <= most) return read.mm;
  throw new InputError(`${flag} ${text}: allowed is ${least} mm to ${most} mm, ${usual}.`);
}

async function inspectFile(
  file: string,
  by: By,
  environment: Environment,
): Promise<Inspected | Unreadable> {
  let looked: Awaited<ReturnType<typeof lookAt>>;
  try {
    looked = await lookAt(file, by, environment);
  } catch (error) {
    if (error instanceof ReadError || error instanceof InputError) {
      return { file, unreadable: error.message };
    }
    throw error;
  }
  // A picture that cannot be written is no fault of the file.
  looked.draw();
  return looked.told;
}

async function lookAt(file: string, by: By, environment: Environment) {
  const path = resolve(environment.cwd, file);
  const reading = await readCutFile(path);
  const { drawing, scale, readAs } = importedAs(reading, by.importAs);
  const known = knownOf(path, by, scale);
  const report = inspectDrawing(drawing, {
    ...known.options,
    ...(by.smallPart === undefined ? {} : { smallPart: by.smallPart }),
    read: readingFindings(by.importAs === undefined ? reading : { ...reading, readAs: 'size' }),
  });
  const told: Inspected = { file, cutter: known.cutter, sizes: reading.sizes, readAs, report };
  const draw = () => {
    if (by.drawn) drawInspected(told, drawing, known.options, by.drawn, environment);
  };
  return { told, draw };
}

async function readCutFile(path: string): Promise<Reading> {
  const bytes = readBytes(path);
  const name = basename(path);
  const ending = extname(path).toLowerCase();
  const kind = ending === '.svg' ? 'SVG' : ending === '.dxf' ? 'DXF' : undefined;
  if (!kind) {
    throw new InputError(
      `${ending === '' ? 'its name has no ending' : `its name ends in ${ending}`}: allowed are .svg and .dxf; save the drawing as one of these`,
    );
  }
  checkKind(bytes, kind);
  const text = bytes.toString('utf8');
  return kind === 'SVG' ? readSvg(text, { name }) : readDxf(text, { name });
}

/** The drawing in the size in which software of one kind would take it. */
function importedAs({ drawing, sizes, readAs }: Reading, way: ImportWay | undefined) {
  if (way === undefined) return { drawing, scale: 1, readAs };
  const size = sizes.find(s => s.as === way);
  if (!size) {
    const ways = sizes.map(s => s.as).join(', ');
    throw new InputError(`--import-as ${way}: this file can be taken as ${ways}`);
  }
  return { drawing: scaled(drawing, size.scale), scale: size.scale, readAs: way };
}

function scaled(drawing: Drawing, k: number): Drawing {
  if (k === 1) return drawing;
  const layers = drawing.layers.map(l => ({
    ...l,
    paths: l.paths.map(p => transform(p, scaling(k))),
  }));
  return { ...drawing, width: k * drawing.width, height: k * drawing.height, layers };
}

/** What is known of the tool and the machine, from the command line, else from the manifest of a file of
 *  ours, else from the standard cutter. */
function knownOf(path: string, by: By, scale: number) {
  const ours = sheetOf(path);
  const told = ours?.manifest.cutter;
  const machine = by.cutter ?? (told ? { ...told, ...sizesOf(told) } : by.standard);
  const { width, height, margin, id } = machine;
  // Where the cutter compensates, the file is the drawing, and the blade is the cutter's matter.
  const inFile = ours?.sheet.compensatedBy === 'file' && ours.listed;
  const intended = inFile ? ours.drawn() : undefined;
  const kerf = (ours ? ours.sheet.kerfMm : by.cutter?.blade.kerf) ?? 0;
  const offset = ours ? ours.sheet.bladeOffsetMm : (by.cutter ?? by.standard).blade.offset;
  const folds: Folding['by'] | undefined = ours ? ours.sheet.foldsBy : by.cutter?.folds?.by;
  const beam = kerf > 0 && by.blade === undefined;
  const options: InspectOptions = {
    // A beam has no tip that trails: its file is judged by what was drawn.
    ...(beam ? { kerf } : { bladeOffset: by.blade ?? offset }),
    ...(intended && { intended: scaled(intended, scale) }),
    ...(folds && { folds }),
    area: { width, height, margin, name: nameOf(id), placed: ours !== undefined },
    speed: machine.speed,
  };
  return { options, cutter: nameOf(id) };
}

/** A cutter that a job describes has no name. */
const nameOf = (id: string) => (id === 'own' ? "the job's cutter" : id);

const sizesOf = (c: { widthMm: number; heightMm: number; marginMm: number }) => ({
  width: c.widthMm,
  height: c.heightMm,
  margin: c.marginMm,
});
