/** Writes a cutter preset of the person's own, asking for what was not said. */
import { existsSync, mkdirSync, renameSync, writeFileSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import { answerCutter, type CutterCommand, cutterText, formatFaults } from '../job/index.js';
import { PRESET_FOLDERS } from '../job/presets.js';
import type { Cutter } from '../model.js';
import { type Environment, EXIT, type ExitCode, InputError } from './environment.js';
import { OWN_PRESETS, readPresets } from './preset-files.js';

export type CutterOptions = CutterCommand & { readonly force?: true | undefined };

/** What is asked on a terminal, in the order in which the test cards tell it. */
const QUESTIONS: readonly {
  readonly key: keyof CutterCommand;
  readonly ask: string;
  readonly now: (cutter: Cutter) => string;
}[] = [
  { key: 'width', ask: 'The widest sheet it takes', now: c => `${c.width}mm` },
  { key: 'height', ask: 'The longest sheet it takes', now: c => `${c.height}mm` },
  { key: 'offset', ask: "The blade's offset (testcard blade)", now: c => `${c.blade.offset}mm` },
  { key: 'overcut', ask: 'The overcut (testcard blade)', now: c => `${c.blade.overcut}mm` },
  {
    key: 'compensatedBy',
    ask: 'Who allows for the offset: file, or cutter (its own software)',
    now: c => c.blade.compensatedBy,
  },
  {
    key: 'folds',
    ask: 'How folds are made: tool, pen, perforation or light-cut',
    now: c => c.folds?.by ?? 'tool',
  },
];

export async function newCutter(
  options: CutterOptions,
  environment: Environment,
): Promise<ExitCode> {
  const presets = readPresets(environment);
  const library = { styles: [], motifs: [], patterns: [], presets };
  const first = answerCutter(options, library);
  if ('faults' in first) throw new InputError(formatFaults(first.faults));
  const said = QUESTIONS.some(q => options[q.key] !== undefined) || options.kind !== undefined;
  const answers =
    environment.ask && !said && first.cutter.blade.kerf === undefined
      ? await askFor(first.cutter, environment.ask)
      : {};
  const answer = answerCutter({ ...options, ...answers }, library);
  if ('faults' in answer) throw new InputError(formatFaults(answer.faults));
  const { cutter } = answer;
  const file = join(environment.cwd, OWN_PRESETS, PRESET_FOLDERS.cutter, `${cutter.id}.yaml`);
  const shown = relative(environment.cwd, file);
  if (existsSync(file) && !options.force) {
    throw new InputError(`${shown} is there already. Add --force to write over it.`);
  }
  try {
    mkdirSync(dirname(file), { recursive: true });
    writeFileSync(`${file}.part`, cutterText(cutter));
    renameSync(`${file}.part`, file);
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    throw new InputError(`${shown} cannot be written: ${why}`);
  }
  environment.out(
    `wrote ${shown}\nUse it in this folder: --cutter ${cutter.id}, or  cutter: ${cutter.id}  in a job.`,
  );
  return EXIT.good;
}

async function askFor(
  cutter: Cutter,
  ask: NonNullable<Environment['ask']>,
): Promise<Partial<CutterCommand>> {
  const answers: Partial<Record<keyof CutterCommand, string>> = {};
  for (const { key, ask: question, now } of QUESTIONS) {
    const given = (await ask(`${question} [${now(cutter)}]: `)).trim();
    if (given !== '') answers[key] = given;
  }
  return answers;
}
