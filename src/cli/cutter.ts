import { Argument, Command, Option } from '@commander-js/extra-typings';
import type { Environment, Report } from './environment.js';

export const cutterCommand = (environment: Environment, report: Report) =>
  new Command('cutter')
    .summary('a preset of your own for your machine')
    .description(
      'Writes presets/cutters/NAME.yaml in the folder you work in. Jobs and commands there know it by its name. Without flags, on a terminal, it asks.',
    )
    .addArgument(new Argument('<what>', 'what to do with it').choices(['new'] as const))
    .argument('<name>', 'what to call it')
    .option(
      '--like <cutter>',
      'the cutter that it is like (see: foldwright list cutters)',
      'mat-12x12',
    )
    .option('--summary <text>', 'a line about it')
    .option('--width <length>', 'the widest sheet it takes')
    .option('--height <length>', 'the longest sheet it takes')
    .option('--margin <length>', 'the border its tools cannot reach')
    .option('--kind <kind>', 'of tool: swivel, fixed or beam')
    .option('--offset <length>', "the blade's, from testcard blade")
    .option('--overcut <length>', 'how far a closed cut runs on, from testcard blade')
    .option('--kerf <length>', "a beam's, from testcard kerf")
    .addOption(
      new Option('--compensated-by <who>', 'who allows for it, never both').choices([
        'file',
        'cutter',
      ] as const),
    )
    .option('--folds <how>', 'tool, pen, perforation or light-cut')
    .option('--dash <length>', 'of perforated folds, from testcard fold')
    .option('--gap <length>', 'paper left between the dashes')
    .option('--passes <n>', 'how often a fold is worked')
    .option('--setback <length>', 'left between a fold and the cut edge that it ends on')
    .option('--sides <which>', 'folds are scored from: face, or both (the sheet is turned over)')
    .option('--force', 'write over one that is there')
    .addHelpText(
      'after',
      `
Examples:
  foldwright cutter new mine
  foldwright cutter new mine --like mat-12x12 --offset 0.3mm --overcut 0.75mm
  foldwright cutter new mine --like mat-12x12-blade-only --dash 2mm --gap 1.5mm`,
    )
    .action(async (_new, name, options) => {
      const { newCutter } = await import('./cutter-run.js');
      report(await newCutter({ name, ...options }, environment));
    });
