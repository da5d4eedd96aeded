import { Command } from '@commander-js/extra-typings';
import type { Environment, Report } from './environment.js';

export const lookCommand = (environment: Environment, report: Report) =>
  new Command('look')
    .summary("a job's contact sheet, and where it is")
    .description(
      'Makes what is missing or has changed of a job, and says where its contact sheet is. Opens nothing.',
    )
    .argument('<job>', 'a job file, or the name of a job preset')
    .option('--out <folder>', 'folder that takes the results', 'out')
    .option('--force', 'replace files of ours that were changed by hand since')
    .addHelpText(
      'after',
      `
Examples:
  foldwright look orchard-fair
  foldwright look my-fair.yaml --out ~/fair`,
    )
    .action(async (job, options) => {
      const { readJobFile } = await import('./read-job.js');
      const { make } = await import('./make.js');
      const source = readJobFile(job, environment);
      report(await make(source, { ...options, look: true }, environment));
    });
