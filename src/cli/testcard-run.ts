/** Makes a test card's files. */
import { existsSync, mkdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { join, relative, resolve } from 'node:path';
import { cardFiles } from '../card-files.js';
import { answerCard, type CardCommand, formatFaults, STANDARD } from '../job/index.js';
import { type DxfKind, PLAIN_IMPORT } from '../model.js';
import { makeMotifTools } from '../motifs/index.js';
import { type Environment, EXIT, type ExitCode, InputError } from './environment.js';
import { readFonts, readPresets } from './preset-files.js';

export type CardOptions = CardCommand & {
  readonly out: string;
  readonly force?: true | undefined;
  readonly compensatedBy?: 'file' | 'cutter' | undefined;
  readonly dxf?: DxfKind | undefined;
};

const FACE = 'nunito-bold';

export async function makeCard(options: CardOptions, environment: Environment): Promise<ExitCode> {
  const presets = readPresets(environment);
  const fonts = readFonts(environment);
  const tools = makeMotifTools({ fonts });
  const library = { styles: [], motifs: [], patterns: [], presets, tools };
  const answer = answerCard(options, library);
  if ('faults' in answer) throw new InputError(formatFaults(answer.faults));
  const { kind, card, stock, marks } = answer;
  const { compensatedBy = answer.cutter.blade.compensatedBy } = options;
  const cutter = { ...answer.cutter, blade: { ...answer.cutter.blade, compensatedBy } };
  const convention = presets.get('convention', STANDARD.convention);
  const font = fonts.get(FACE);
  if (!('value' in convention) || !font) throw new Error('a preset of the program is missing');
  const title = `Test card: ${kind.summary}`;
  const files = await cardFiles(kind.id, title, card, {
    cutter,
    convention: convention.value,
    stock,
    printMargin: STANDARD.printMargin,
    marks,
    importing: { ...PLAIN_IMPORT, dxf: options.dxf ?? PLAIN_IMPORT.dxf },
    letter: (text, height) => tools.letter(text, FACE, height),
    page: { font, dpi: STANDARD.dpi },
  });
  if (!files) {
    throw new InputError(
      `--stock ${stock.id}: too small for the register marks ${marks.id}. Choose a larger sheet, or other marks.`,
    );
  }
  const folder = resolve(environment.cwd, options.out);
  const targets = files.map(f => ({ ...f, path: join(folder, `${kind.id}.${f.ending}`) }));
  const shown = (path: string) => relative(environment.cwd, path);
  const other = targets.find(t => existsSync(t.path) && !readFileSync(t.path).equals(t.bytes));
  if (other && !options.force) {
    throw new InputError(
      `${shown(other.path)} is there already, and another one. Add --force to write over it.`,
    );
  }
  try {
    mkdirSync(folder, { recursive: true });
    for (const { path, bytes } of targets) writeFileSync(`${path}.part`, bytes);
    for (const { path } of targets) renameSync(`${path}.part`, path);
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    throw new InputError(`--out ${options.out}: cannot be written: ${why}`);
  }
  const mm = (n: number) => n.toFixed(0);
  environment.out(
    [
      `${title}: ${mm(card.width)} × ${mm(card.height)} mm.`,
      ...targets.map(t => `wrote ${shown(t.path)}`),
      `How to read it: open ${shown(targets.at(-1)!.path)}`,
    ].join('\n'),
  );
  return EXIT.good;
}
