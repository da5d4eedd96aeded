/** Writes a cutter preset of the person's own, asking for what was not said. */
import { existsSync, mkdirSync, renameSync, writeFileSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import {
  answerCutter,
  type CutterCommand,
  cutterText,
  formatFaults,
  type Library,
  toolKind,
} from '../job/index.js';
import { PRESET_FOLDERS } from '../job/presets.js';
import { BY_TOOL, type Cutter } from '../model.js';
import { type Environment, EXIT, type ExitCode, InputError } from './environment.js';
import { OWN_PRESETS, readPresets } from './preset-files.js';

export type CutterOptions = CutterCommand & { readonly force?: true | undefined };

interface Question {
  readonly key: keyof CutterCommand;
  readonly ask: string;
  /** What no answer means; nothing where the cutter that it is like has no such thing. */
  readonly now: (cutter: Cutter) => string | undefined;
  /** Whether it is asked after what was answered before. */
  readonly when?: (said: (key: keyof CutterCommand) => string) => boolean;
}

const ofKind = (kind: string): Pick<Question, 'when'> => ({ when: said => said('kind') === kind });
const foldedBy = (...ways: readonly string[]): Pick<Question, 'when'> => ({
  when: said => ways.includes(said('folds')),
});
const mm = (n: number | undefined) => (n === undefined ? undefined : `${n}mm`);
const swivel = (c: Cutter, n: number) => (toolKind(c.blade) === 'swivel' ? mm(n) : undefined);
const folding = (c: Cutter) => c.folds ?? BY_TOOL;

/** What is asked on a terminal. A group is checked as soon as it is answered, and asked again if need be. */
const QUESTIONS: readonly (readonly Question[])[] = [
  [
    { key: 'width', ask: 'The widest sheet it takes', now: c => mm(c.width) },
    { key: 'height', ask: 'The longest sheet it takes', now: c => mm(c.height) },
    { key: 'margin', ask: 'The border its tools cannot reach', now: c => mm(c.margin) },
  ],
  [
    { key: 'kind', ask: 'Its tool: swivel, fixed or beam', now: c => toolKind(c.blade) },
    {
      key: 'offset',
      ask: "The blade's offset (testcard blade)",
      now: c => swivel(c, c.blade.offset),
      ...ofKind('swivel'),
    },
    {
      key: 'overcut',
      ask: 'The overcut (testcard blade)',
      now: c => swivel(c, c.blade.overcut),
      ...ofKind('swivel'),
    },
    {
      key: 'kerf',
      ask: 'The width that the beam burns away (testcard kerf)',
      now: c => mm(c.blade.kerf),
      ...ofKind('beam'),
    },
    {
      key: 'compensatedBy',
      ask: 'Who allows for it: file, or cutter (its own software)',
      now: c => c.blade.compensatedBy,
      when: said => said('kind') !== 'fixed',
    },
  ],
  [
    {
      key: 'folds',
      ask: 'How folds are made: tool, pen, perforation or light-cut',
      now: c => folding(c).by,
    },
    {
      key: 'dash',
      ask: 'The dashes cut along a fold (testcard fold)',
      now: c => mm(folding(c).dash),
      ...foldedBy('perforation'),
    },
    {
      key: 'gap',
      ask: 'The paper left between them',
      now: c => mm(folding(c).gap),
      ...foldedBy('perforation'),
    },
    {
      key: 'passes',
      ask: 'How often a fold is worked',
      now: c => `${folding(c).passes}`,
      ...foldedBy('tool', 'light-cut'),
    },
    {
      key: 'setback',
      ask: 'What is left between a fold and the cut edge it ends on',
      now: c => mm(folding(c).setback),
      ...foldedBy('tool', 'pen', 'light-cut'),
    },
    {
      key: 'sides',
      ask: 'From which sides folds are scored: face, or both (the sheet is turned over)',
      now: c => folding(c).sides,
      ...foldedBy('tool', 'light-cut'),
    },
  ],
];

export async function newCutter(
  options: CutterOptions,
  environment: Environment,
): Promise<ExitCode> {
  const presets = readPresets(environment);
  const library = { styles: [], motifs: [], patterns: [], presets };
  const first = answerCutter(options, library);
  if ('faults' in first) throw new InputError(formatFaults(first.faults));
  const { id } = first.cutter;
  const file = join(environment.cwd, OWN_PRESETS, PRESET_FOLDERS.cutter, `${id}.yaml`);
  const shown = relative(environment.cwd, file);
  // Before anything is asked: answers are not to be given for nothing.
  if (existsSync(file) && !options.force) {
    throw new InputError(`${shown} is there already. Add --force to write over it.`);
  }
  const told = QUESTIONS.flat().some(q => options[q.key] !== undefined);
  const cutter =
    environment.ask && !told
      ? await answered(options, first.cutter, library, environment)
      : first.cutter;
  try {
    mkdirSync(dirname(file), { recursive: true });
    writeFileSync(`${file}.part`, cutterText(cutter));
    renameSync(`${file}.part`, file);
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    throw new InputError(`${shown} cannot be written: ${why}`);
  }
  environment.out(
    `wrote ${shown}\nUse it in this folder: --cutter ${id}, or  cutter: ${id}  in a job.`,
  );
  return EXIT.good;
}

/** Asks group by group; a group with a fault is told it and asked again. */
async function answered(
  options: CutterOptions,
  like: Cutter,
  library: Library,
  environment: Environment,
): Promise<Cutter> {
  let answers: CutterCommand = options;
  let cutter = like;
  for (const group of QUESTIONS) {
    for (;;) {
      const given = { ...answers, ...(await askGroup(group, like, environment)) };
      const answer = answerCutter(given, library);
      if ('cutter' in answer) {
        answers = given;
        cutter = answer.cutter;
        break;
      }
      environment.out(`${formatFaults(answer.faults)}\n\nOnce more:`);
    }
  }
  return cutter;
}

async function askGroup(
  group: readonly Question[],
  like: Cutter,
  environment: Environment,
): Promise<Partial<Record<keyof CutterCommand, string>>> {
  const answers: Partial<Record<keyof CutterCommand, string>> = {};
  const now = (key: keyof CutterCommand) => group.find(q => q.key === key)?.now(like);
  const said = (key: keyof CutterCommand) => answers[key] ?? now(key) ?? '';
  for (const { key, ask, when } of group) {
    if (when && !when(said)) continue;
    const meant = now(key);
    const given = await environment.ask!(`${ask}${meant === undefined ? '' : ` [${meant}]`}: `);
    if (given === undefined) throw new InputError('Stopped at a question; nothing was written.');
    if (given.trim() !== '') answers[key] = given.trim();
  }
  return answers;
}
