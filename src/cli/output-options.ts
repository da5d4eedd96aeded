import { Command, InvalidArgumentError, Option } from '@commander-js/extra-typings';
import { GUIDE_PAPERS, type GuidePaper } from '../guide-model.js';
import { DXF_KINDS, type DxfKind, FORMATS, type FormatId } from '../model.js';

export function formats(text: string): FormatId[] {
  const wanted = text.split(',').map(s => s.trim().toLowerCase());
  const unknown = wanted.filter(w => !(FORMATS as readonly string[]).includes(w));
  if (unknown.length > 0 || wanted.length === 0) {
    throw new InvalidArgumentError(`Allowed: ${FORMATS.join(', ')}, with commas between.`);
  }
  return FORMATS.filter(f => wanted.includes(f));
}

function wholeNumber(text: string): number {
  const n = Number(text);
  if (!(Number.isInteger(n) && n >= 1 && n <= 64)) {
    throw new InvalidArgumentError('Allowed: a whole number from 1 to 64.');
  }
  return n;
}

/** `name=value`, gathered. */
export function assignment(text: string, all: Record<string, string>): Record<string, string> {
  const at = text.indexOf('=');
  if (at < 1) throw new InvalidArgumentError('Write it as name=value, for example tab=1/2in.');
  return { ...all, [text.slice(0, at).trim()]: text.slice(at + 1).trim() };
}

/** One of several. */
export const gathered = (text: string, all: readonly string[]): readonly string[] => [...all, text];

/** Whatever writes cut files takes it. */
export const dxfOption = () =>
  new Option(
    '--dxf <version>',
    'r12, which everything reads; r2000; or r2000-splines, which keeps curves',
  ).choices(DXF_KINDS);

/** The options that `batch`, `box` and `decor` share: where the files go and what they are. */
export const makingCommand = (name: string) =>
  new Command(name)
    .option('--out <folder>', 'folder that takes the results', 'out')
    .option('--formats <list>', `${FORMATS.join(', ')}, with commas between`, formats)
    .addOption(dxfOption())
    .option('--check', 'do everything but write files')
    .addOption(
      new Option(
        '--compensated-by <who>',
        "who allows for the blade's offset: this file, or your cutter's own software (never both)",
      ).choices(['file', 'cutter'] as const),
    )
    .addOption(
      new Option('--guide-paper <size>', 'paper of the guide; letter where units are in').choices(
        GUIDE_PAPERS,
      ),
    )
    .option('--workers <n>', 'threads to work on items at once', wholeNumber)
    .option('--force', 'replace files of ours that were changed by hand since')
    .option('--json', 'print the result as JSON');

/** What `makingCommand` parses to. */
export interface MakingOptions {
  readonly out: string;
  readonly formats?: readonly FormatId[] | undefined;
  readonly dxf?: DxfKind | undefined;
  readonly check?: true | undefined;
  readonly compensatedBy?: 'file' | 'cutter' | undefined;
  readonly guidePaper?: GuidePaper | undefined;
  readonly workers?: number | undefined;
  readonly force?: true | undefined;
  readonly json?: true | undefined;
}
