/** Reads what was measured, tells how the sheet lies, and writes its cut files to fit. */
import { existsSync, renameSync, writeFileSync } from 'node:fs';
import { basename, relative, resolve } from 'node:path';
import { type Measured, readMisses, readPositions } from '../job/index.js';
import type { Drawing, DxfKind, Point } from '../model.js';
import { alignedFiles } from '../pipeline.js';
import {
  type Alignment,
  align,
  distortionAt,
  distortionWords,
  type Model,
  type Sighting,
} from '../register/index.js';
import { importingOf } from '../write/index.js';
import { type Environment, EXIT, type ExitCode, InputError } from './environment.js';
import { type OurSheet, readText, sheetOf } from './our-sheet.js';
import { readPresets } from './preset-files.js';
import { scanned } from './scan-sheet.js';

export interface AlignCommandOptions {
  readonly miss?: string | undefined;
  readonly marks?: string | undefined;
  readonly scan?: string | undefined;
  readonly dpi?: number | undefined;
  readonly upright?: true | undefined;
  readonly precision?: number | undefined;
  readonly model?: Model | undefined;
  readonly dxf?: DxfKind | undefined;
  readonly force?: true | undefined;
  readonly check?: true | undefined;
  readonly json?: true | undefined;
}

export function alignSheet(
  file: string,
  options: AlignCommandOptions,
  environment: Environment,
): ExitCode {
  const path = resolve(environment.cwd, file);
  if (!existsSync(path)) throw new InputError(`${file}: there is no such file.`);
  const ours = sheetOf(path);
  if (!ours) {
    throw new InputError(
      `${file}: no manifest near it knows this sheet. Name a file that a batch wrote, where the batch wrote it.`,
    );
  }
  if (ours.aligned) {
    throw new InputError(
      `${file} is aligned already. Name the sheet's own cut file, and measure from that.`,
    );
  }
  const { sightings, known, told, warnings } = sightingsOf(ours, options, environment);
  const { precision = known, model } = options;
  const found = align(sightings, { precision, ...(model ? { model } : {}) });
  if ('refused' in found) throw new InputError(`${givenBy(options)}: ${found.refused}`);
  const result = { ...found, warnings: [...warnings, ...found.warnings] };
  const drawing = drawnOf(ours);
  const { widthMm, heightMm } = ours.sheet;
  const how = distortionWords(distortionAt(result.move, [widthMm / 2, heightMm / 2]));
  const convention = readPresets(environment).get('convention', ours.manifest.convention);
  if (!('value' in convention)) {
    throw new InputError(`the convention ${ours.manifest.convention} is not among the presets.`);
  }
  const { compensatedBy, bladeOffsetMm: offset, overcutMm: overcut, kerfMm, foldsBy } = ours.sheet;
  const blade = { compensatedBy, offset, overcut, ...(kerfMm > 0 && { kerf: kerfMm }) };
  // As the batch wrote the sheet's other files, unless this command says otherwise.
  const asked = importingOf(ours.manifest.import);
  const importing = { ...asked, dxf: options.dxf ?? asked.dxf };
  const tools = { blade, foldsBy };
  const made = alignedFiles(drawing, result.move, tools, convention.value, importing);
  const written: string[] = [];
  if (!options.check) {
    const targets = made.files.map(f => `${ours.base}.aligned.${f.ending}`);
    const there = targets.find(t => existsSync(t));
    if (there && !options.force) {
      throw new InputError(
        `${relative(environment.cwd, there)} is there already. Add --force to write over it.`,
      );
    }
    made.files.forEach(({ text }, i) => {
      const target = targets[i]!;
      writeFileSync(`${target}.part`, text);
      renameSync(`${target}.part`, target);
      written.push(relative(environment.cwd, target));
    });
  }
  const tipError = made.tip?.max;
  environment.out(
    options.json
      ? JSON.stringify({ how, ...result, tipError, written }, undefined, 2)
      : [...told, wordsOf(result, how, tipError, written)].join('\n'),
  );
  return EXIT.good;
}

interface Sightings {
  readonly sightings: readonly Sighting[];
  /** How exactly, mm, unless the person says. */
  readonly known: number;
  readonly told: readonly string[];
  readonly warnings: readonly string[];
}
/** A ruler read to tenths. */
const RULER_MM = 0.1;

function sightingsOf(
  ours: OurSheet,
  options: AlignCommandOptions,
  environment: Environment,
): Sightings {
  const { sheet } = ours;
  const names = sheet.marks.map(m => m.name);
  if (names.length === 0) {
    throw new InputError(`${sheet.id} has no register marks: it is not printed before it is cut.`);
  }
  if (options.scan === undefined) {
    const sightings = measured(ours, options, environment);
    const warnings = options.miss === undefined ? [] : sightings.flatMap(largeMiss);
    return { sightings, known: RULER_MM, told: [], warnings };
  }
  const { sightings, precision, words, warnings } = scanned({
    file: options.scan,
    cwd: environment.cwd,
    dpi: options.dpi,
    sheet,
    upright: options.upright ?? false,
  });
  return { sightings, known: precision, told: [`The scan: ${words}.`], warnings };
}

/** Printers are seldom farther off, mm: a decimal point may be in the wrong place. */
const LARGE_MM = 3;

function largeMiss({ name, at, seen }: Sighting): string[] {
  const [x, y] = [seen[0] - at[0], seen[1] - at[1]];
  if (Math.max(Math.abs(x), Math.abs(y)) <= LARGE_MM) return [];
  const by = (v: number, more: string, less: string) =>
    `${Number(Math.abs(v).toFixed(2))} mm ${v < 0 ? less : more}`;
  return [
    `${name} was read as ${by(x, 'right', 'left')} and ${by(y, 'up', 'down')}: is the decimal point in its place?`,
  ];
}

const givenBy = ({ miss, marks, scan }: AlignCommandOptions) =>
  miss !== undefined ? '--miss' : marks !== undefined ? `--marks ${marks}` : `--scan ${scan}`;

function measured(
  { sheet }: OurSheet,
  { miss, marks }: AlignCommandOptions,
  { cwd }: Environment,
): Sighting[] {
  const places = new Map(sheet.marks.map(m => [m.name, m.at as unknown as Point]));
  const names = [...places.keys()];
  if (miss === undefined && marks === undefined) {
    throw new InputError(
      `Nothing was measured. Give --miss, --marks or --scan; the marks are ${names.join(', ')}.`,
    );
  }
  const read =
    miss !== undefined ? readMisses(miss, names) : readPositions(textOf(marks!, cwd), names);
  if ('fault' in read) throw new InputError(`${givenBy({ miss, marks })}: ${read.fault}`);
  return read.value.map(({ name, by }: Measured): Sighting => {
    const at = places.get(name)!;
    return { name, at, seen: miss !== undefined ? [at[0] + by[0], at[1] + by[1]] : by };
  });
}

function drawnOf(ours: OurSheet): Drawing {
  const drawing = ours.whole();
  if (drawing) return drawing;
  throw new InputError(`${basename(ours.base)}.drawing.json is gone: make the batch again first.`);
}

function textOf(file: string, cwd: string): string {
  try {
    return readText(resolve(cwd, file));
  } catch (error) {
    if (error instanceof InputError) throw new InputError(`--marks ${file}: ${error.message}.`);
    throw error;
  }
}

function wordsOf(
  { why, residuals, warnings }: Alignment,
  how: string,
  tip: number | undefined,
  written: readonly string[],
): string {
  return [
    `The print: ${how}.`,
    `The move: ${why}.`,
    ...residuals.map(r => `  ${r.name.padEnd(12)} ${r.by.toFixed(2)} mm left over`),
    ...warnings.map(w => `warning: ${w}`),
    ...(tip === undefined
      ? []
      : [`The blade's tip stays within ${tip.toFixed(4)} mm of the moved drawing.`]),
    ...written.map(w => `wrote ${w}`),
  ].join('\n');
}
