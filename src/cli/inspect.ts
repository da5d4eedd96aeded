import { Command } from '@commander-js/extra-typings';
import type { Environment, Report } from './environment.js';

export const inspectCommand = (environment: Environment, report: Report) =>
  new Command('inspect')
    .summary('look at a cut file before you cut it')
    .description(
      'Reads SVG or DXF cut files and tells size, operations, lengths, open cuts, duplicate lines, what lies outside the sheet and, for files of ours, how near the blade tip stays to the drawing.',
    )
    .argument('<file...>', 'cut files')
    .option('--blade <offset>', "the blade's offset, as 0.25mm; from the manifest if not given")
    .option('--json', 'print as JSON')
    .addHelpText(
      'after',
      '\nExamples:\n  foldwright inspect out/orchard-fair/**/*.svg\n  foldwright inspect drawing.dxf --blade 0.25mm --json',
    )
    .action(async (files, options) => {
      const { inspectFiles } = await import('./inspect-files.js');
      report(await inspectFiles(files, options, environment));
    });
