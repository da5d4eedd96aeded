import { Command, Option } from '@commander-js/extra-typings';
import type { Environment, Report } from './environment.js';
import { pixels } from './picture.js';

export const inspectCommand = (environment: Environment, report: Report) =>
  new Command('inspect')
    .summary('look at a cut file before you cut it')
    .description(
      "Reads SVG or DXF cut files, ours or anyone's, and tells size, operations, lengths and time, what is wrong and where: open, doubled, crossing or tiny cuts, places too narrow for the blade, what comes loose, what lies outside the sheet or the cutter's reach, and how near the blade's tip stays to the drawing.",
    )
    .argument('<file...>', 'cut files')
    .option(
      '--blade <offset>',
      "the blade's offset, as 0.25mm; the manifest's or the cutter's if not given",
    )
    .option('--cutter <name>', "for reach and time; the manifest's or mat-12x12 if not given")
    .option('--small <size>', 'tell parts smaller across than this', '3mm')
    .addOption(
      new Option(
        '--import-as <way>',
        'judge it as software does that takes it by its size, by units to the inch, or by its plain numbers',
      ).choices(['size', '96', '90', '72', 'mm', 'in'] as const),
    )
    .option('--strict', 'warnings fail it as well')
    .option('--json', 'print as JSON')
    .option('--picture <file>', 'draw it, with what is found marked; .svg or .png')
    .option('--width <pixels>', 'how wide a PNG is', pixels, 1600)
    .addHelpText(
      'after',
      '\nExamples:\n  foldwright inspect out/orchard-fair/**/*.svg\n  foldwright inspect drawing.dxf --blade 0.25mm --json\n  foldwright inspect tags.dxf --import-as in --cutter gantry\n  foldwright inspect drawing.svg --blade 0.25mm --picture look.png',
    )
    .action(async (files, options) => {
      const { inspectFiles } = await import('./inspect-files.js');
      report(await inspectFiles(files, options, environment));
    });
