/** A cutter preset of the person's own, from flags or answers: read by the code that reads presets. */
import { BY_TOOL, type Cutter, OPERATIONS } from '../model.js';
import { commandText, given, map } from './command-line.js';
import { type Library, presetOf } from './context.js';
import type { Document, Pair } from './document.js';
import { type Fault, inOrder } from './fault.js';
import { readCutter } from './preset-kinds.js';
import { safeName, startReading } from './reading.js';

/** Each as written, with its unit; what is left out is as the cutter's that it is like. */
export interface CutterCommand {
  readonly name: string;
  readonly like: string;
  readonly summary?: string | undefined;
  readonly width?: string | undefined;
  readonly height?: string | undefined;
  readonly margin?: string | undefined;
  readonly kind?: string | undefined;
  readonly offset?: string | undefined;
  readonly overcut?: string | undefined;
  readonly kerf?: string | undefined;
  readonly compensatedBy?: string | undefined;
  readonly folds?: string | undefined;
  readonly dash?: string | undefined;
  readonly gap?: string | undefined;
  readonly passes?: string | undefined;
  readonly setback?: string | undefined;
  readonly sides?: string | undefined;
}

/** The cutter, named; or all that is wrong. */
export function answerCutter(
  command: CutterCommand,
  library: Library,
): { readonly cutter: Cutter } | { readonly faults: readonly Fault[] } {
  const line = commandText('foldwright cutter new');
  const name = line.entry(command.name);
  const [like] = line.option('like', command.like);
  const sizes = (['summary', 'width', 'height', 'margin'] as const).flatMap(k =>
    line.option(k, command[k]),
  );
  const blade = [
    ...line.option('kind', command.kind),
    ...line.option('offset', command.offset),
    ...line.option('overcut', command.overcut),
    ...line.option('kerf', command.kerf),
    ...line.option('compensated-by', command.compensatedBy),
  ];
  const folds = [
    ...line.option('by', command.folds, 'folds'),
    ...(['dash', 'gap', 'passes', 'setback', 'sides'] as const).flatMap(k =>
      line.option(k, command[k]),
    ),
  ];
  const document: Document = { file: 'command line', text: line.text(), root: map([], name.at) };
  const r = startReading(document, 'mm');
  const id = safeName(r, name, 'cutter');
  const base = presetOf(r, library, 'cutter', like!.value);
  const told = () => ({ faults: inOrder(r.faults) });
  if (id === undefined || !base || !('value' in base)) return told();
  const group = (key: string, pairs: readonly Pair[]): Pair[] =>
    pairs.length > 0 ? [{ key, keyAt: pairs[0]!.keyAt, value: map(pairs, pairs[0]!.keyAt) }] : [];
  const title = sizes.some(p => p.key === 'summary')
    ? []
    : [given('summary', `${base.value.summary}, as measured with test cards`)];
  const root = map(
    [...title, ...sizes, ...group('blade', blade), ...group('folds', folds)],
    name.at,
  );
  const cutter = readCutter(r, root, id, base.value);
  return cutter && r.faults.length === 0 ? { cutter } : told();
}

/** A preset file that reads back as the cutter. */
export function cutterText({
  summary,
  width,
  height,
  margin,
  blade,
  folds,
  speed,
}: Cutter): string {
  const mm = (n: number) => `${Number(n.toFixed(4))}mm`;
  const tool =
    blade.kerf !== undefined
      ? ['  kind: beam', `  kerf: ${mm(blade.kerf)}`]
      : [
          ...(blade.offset > 0 ? [] : ['  kind: fixed']),
          `  offset: ${mm(blade.offset)}`,
          `  overcut: ${mm(blade.overcut)}`,
        ];
  const { by, dash, gap, passes, setback, sides } = folds ?? BY_TOOL;
  return [
    '# Changing the blade: switch the machine off first, and keep fingers off the edge. An adult does this;',
    "# the machine's own notes and local rules come first.",
    '',
    `summary: ${JSON.stringify(summary)}`,
    `width: ${mm(width)}`,
    `height: ${mm(height)}`,
    '# The tools cannot reach this border.',
    `margin: ${mm(margin)}`,
    '',
    'blade:',
    ...tool,
    '  # Who allows for it. Exactly one may: file is Foldwright, cutter the machine and its software.',
    `  compensated-by: ${blade.compensatedBy}`,
    '',
    'folds:',
    '  # tool, pen, perforation or light-cut',
    `  by: ${by}`,
    `  dash: ${mm(dash)}`,
    `  gap: ${mm(gap)}`,
    `  passes: ${passes}`,
    `  setback: ${mm(setback)}`,
    '  # face, or both: valleys then come in a file for the sheet turned over',
    `  sides: ${sides}`,
    '',
    '# Millimetres a second, for the estimate of time only.',
    'speed:',
    ...[...OPERATIONS, 'travel' as const].map(key => `  ${key}: ${speed[key]}`),
    '',
  ].join('\n');
}
