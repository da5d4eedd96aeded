/** Reads cut files and tells what is in them. Beside a file of ours it finds the manifest and the
 *  drawing as it was before the blade was allowed for, so the blade's tip can be followed. */
import { basename, extname, resolve } from 'node:path';
import { type InspectReport, inspectDrawing } from '../tool/index.js';
import { parseLength } from '../units/length.js';
import { ReadError, type Reading, readDxf, readSvg } from '../write/index.js';
import { type Environment, EXIT, type ExitCode, InputError } from './environment.js';
import { readText, sheetOf } from './our-sheet.js';

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
    const ours = bladeOf(path);
    const bladeOffset = blade ?? ours?.bladeOffset;
    const report = inspectDrawing(reading.drawing, {
      ...(bladeOffset === undefined ? {} : { bladeOffset }),
      ...(ours?.intended ? { intended: ours.intended } : {}),
      ...(ours ? { folds: ours.folds } : {}),
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

/** What is known of the blade that a cut file of ours was made for. */
function bladeOf(path: string) {
  const ours = sheetOf(path);
  // Where the cutter compensates, the file is the drawing, and the blade is the cutter's matter.
  if (ours?.sheet.compensatedBy !== 'file' || !ours.listed) return undefined;
  const { bladeOffsetMm, kerfMm, foldsBy: folds } = ours.sheet;
  // A beam has no tip that trails: its file is judged by what was drawn.
  return { bladeOffset: kerfMm > 0 ? undefined : bladeOffsetMm, intended: ours.drawn(), folds };
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
