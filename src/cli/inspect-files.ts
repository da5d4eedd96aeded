/** Reads cut files and tells what is in them. Beside a file of ours it finds the manifest and the
 *  drawing as it was before the blade was allowed for, so the blade's tip can be followed. */
import { readFileSync, statSync } from 'node:fs';
import { basename, dirname, extname, join, relative, resolve, sep } from 'node:path';
import type { Drawing } from '../model.js';
import { type InspectReport, inspectDrawing } from '../tool/index.js';
import { parseLength } from '../units/length.js';
import {
  type Manifest,
  parseManifest,
  ReadError,
  type Reading,
  readDrawingJson,
  readDxf,
  readSvg,
} from '../write/index.js';
import { type Environment, EXIT, type ExitCode, InputError } from './environment.js';

/** Larger files are refused before they are read. */
const MOST_FILE_BYTES = 32e6;
/** A manifest stands in the job's folder, one above the item's. */
const FOLDERS_UP = 3;

export interface InspectOptions {
  readonly blade?: string | undefined;
  readonly json?: true | undefined;
}

interface Inspected {
  readonly file: string;
  readonly report?: InspectReport;
  readonly notes: readonly string[];
  /** Why the file could not be read. */
  readonly unreadable?: string;
}

export async function inspectFiles(
  files: readonly string[],
  options: InspectOptions,
  environment: Environment,
): Promise<ExitCode> {
  const blade = options.blade === undefined ? undefined : parseLength(options.blade, 'mm');
  if (blade && 'fault' in blade) throw new InputError(`--blade ${options.blade}: ${blade.fault}`);
  if (blade && !(blade.mm >= 0 && blade.mm <= 5)) {
    throw new InputError(`--blade ${options.blade}: allowed is 0 mm to 5 mm, most are 0.25 mm.`);
  }
  const inspected: Inspected[] = [];
  for (const file of files) inspected.push(await inspectFile(file, blade?.mm, environment));
  if (options.json) environment.out(JSON.stringify(inspected, undefined, 2));
  else for (const one of inspected) environment.out(reportText(one));
  if (inspected.some(i => i.unreadable !== undefined)) return EXIT.badInput;
  const good = inspected.filter(i => i.report?.good).length;
  if (!options.json && files.length > 1)
    environment.out(`\n${good} of ${files.length} files good.`);
  return good === files.length ? EXIT.good : EXIT.checkFailed;
}

async function inspectFile(
  file: string,
  blade: number | undefined,
  { cwd }: Environment,
): Promise<Inspected> {
  const path = resolve(cwd, file);
  try {
    const reading = await readCutFile(path);
    const ours = ourSheet(path);
    const bladeOffset = blade ?? ours?.bladeOffset;
    const report = inspectDrawing(reading.drawing, {
      ...(bladeOffset === undefined ? {} : { bladeOffset }),
      ...(ours?.intended ? { intended: ours.intended } : {}),
    });
    return { file, report, notes: reading.notes };
  } catch (error) {
    if (error instanceof ReadError || error instanceof InputError) {
      return { file, notes: [], unreadable: error.message };
    }
    throw error;
  }
}

async function readCutFile(path: string): Promise<Reading> {
  const text = readText(path);
  const name = basename(path);
  switch (extname(path).toLowerCase()) {
    case '.svg':
      return readSvg(text, { name });
    case '.dxf':
      return readDxf(text, { name });
    default:
      throw new InputError('not a cut file: its name should end in .svg or .dxf');
  }
}

function readText(path: string): string {
  const stat = statSync(path, { throwIfNoEntry: false });
  if (!stat) throw new InputError('there is no such file');
  if (!stat.isFile()) throw new InputError('that is not a file');
  if (stat.size > MOST_FILE_BYTES) {
    const mb = (stat.size / 1e6).toFixed(0);
    throw new InputError(
      `${mb} MB is more than the ${MOST_FILE_BYTES / 1e6} MB that are read: simplify the drawing`,
    );
  }
  return readFileSync(path, 'utf8');
}

/** What the manifest knows of a cut file of ours. */
function ourSheet(
  path: string,
): { readonly bladeOffset: number; readonly intended: Drawing | undefined } | undefined {
  let folder = dirname(path);
  for (let i = 0; i < FOLDERS_UP; i++) {
    const manifest = manifestIn(folder);
    if (manifest) {
      const name = relative(folder, path).split(sep).join('/');
      if (!manifest.files.some(f => f.path === name)) return undefined;
      const base = name.replace(/\.cut\.\w+$/, '');
      const sheet = manifest.sheets.find(s => `${s.item}/${s.id}` === base);
      if (!sheet) return undefined;
      const before = join(folder, `${base}.drawing.json`);
      const intended = statSync(before, { throwIfNoEntry: false })?.isFile()
        ? readDrawingJson(readText(before))
        : undefined;
      // Where the cutter compensates, the file is the drawing, and the blade is the cutter's matter.
      return sheet.compensatedBy === 'file'
        ? { bladeOffset: sheet.bladeOffsetMm, intended }
        : undefined;
    }
    folder = dirname(folder);
  }
  return undefined;
}

function manifestIn(folder: string): Manifest | undefined {
  const path = join(folder, 'manifest.json');
  if (!statSync(path, { throwIfNoEntry: false })?.isFile()) return undefined;
  try {
    return parseManifest(readText(path));
  } catch (error) {
    if (error instanceof ReadError) return undefined;
    throw error;
  }
}

function reportText({ file, report, notes, unreadable }: Inspected): string {
  if (!report) return `${file}\n  cannot be read: ${unreadable}`;
  const mm = (n: number) => `${n.toFixed(1)} mm`;
  const lines = [
    `${file}: ${report.good ? 'good' : 'NOT GOOD'}`,
    `  sheet ${mm(report.width)} × ${mm(report.height)}`,
    ...report.operations.map(
      o =>
        `  ${o.operation.padEnd(9)} ${String(o.paths).padStart(4)} paths, ${mm(o.length).padStart(11)}`,
    ),
    `  open cuts ${report.openCuts}, doubled lines ${mm(report.duplicateLength)}, travel ${mm(report.travel)}`,
  ];
  const { tip } = report;
  if (tip) {
    lines.push(
      `  blade ${tip.offset} mm: tip within ${tip.max.toFixed(4)} mm of the drawing (99 % within ${tip.p99.toFixed(4)}), ${tip.uncutMax.toFixed(4)} mm left uncut`,
    );
  }
  lines.push(...report.findings.map(f => `  ${f.severity}: ${f.message}`));
  lines.push(...notes.map(n => `  note: ${n}`));
  return lines.join('\n');
}
