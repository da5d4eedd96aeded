import { Command } from '@commander-js/extra-typings';
import type { Environment, Report } from './environment.js';
import { formats } from './output-options.js';

export const stampSheetCommand = (environment: Environment, report: Report) =>
  new Command('stamp-sheet')
    .summary('a page to stamp on, whose images are then cut out by machine')
    .description(
      'Makes a page with register marks and a light grid. Print it at actual size, stamp on it inside the grid, scan it, and give the scan to `foldwright trace`.',
    )
    .option('--stock <name>', 'the paper', 'printable-65lb-letter')
    .option('--cutter <name>', 'the cutter', 'mat-12x12')
    .option('--marks <name>', 'how the register marks look', 'ring-and-cross')
    .option('--no-grid', 'marks alone')
    .option('--name <name>', 'folder for the page', 'page')
    .option('--out <folder>', 'folder that takes the results', 'out')
    .option('--formats <list>', 'svg, dxf, pdf, print-svg, print-png, with commas between', formats)
    .option('--force', 'replace files of ours that were changed by hand since')
    .addHelpText(
      'after',
      '\nExamples:\n  foldwright stamp-sheet\n  foldwright stamp-sheet --stock cardstock-160gsm-a4 --marks disc --name cards',
    )
    .action(async options => {
      const { makeStampSheet } = await import('./stamp-page.js');
      report(await makeStampSheet(options, environment));
    });
