import type { Environment, Report } from './environment.js';
import { makingCommand } from './output-options.js';

const collect = (name: string, names: string[]) => [...names, ...name.split(',')];

export const batchCommand = (environment: Environment, report: Report) =>
  makingCommand('batch')
    .summary('everything a job file asks for')
    .description(
      'Reads a job file (or a job preset by its name), checks all of it, and writes the files of every item.',
    )
    .argument('<job>', 'a job file, or the name of a job preset')
    .option('--only <item>', 'make only this item (may be repeated)', collect, [])
    .addHelpText(
      'after',
      `
Examples:
  foldwright batch orchard-fair                      the demo job, into out/orchard-fair
  foldwright batch fair.yaml --check                 find every fault, write nothing
  foldwright batch fair.yaml --only cider-caramels   one item again, the rest left alone
  foldwright batch fair.yaml --formats svg,pdf --out ~/fair`,
    )
    .action(async (job, options) => {
      const { readJobFile } = await import('./read-job.js');
      const { make } = await import('./make.js');
      const source = readJobFile(job, environment);
      report(await make(source, options, environment));
    });
