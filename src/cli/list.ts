import { Argument, Command } from '@commander-js/extra-typings';
import type { Environment, Report } from './environment.js';
import { KINDS, singular } from './kinds.js';

export const listCommand = (environment: Environment, _report: Report) =>
  new Command('list')
    .summary('what there is to choose from')
    .description('Lists the names of one kind, with a line about each.')
    .addArgument(new Argument('<kind>', KINDS.join(', ')).choices(KINDS))
    .option('--json', 'print as JSON')
    .addHelpText('after', '\nExamples:\n  foldwright list styles\n  foldwright list stocks --json')
    .action(async (kind, options) => {
      const { listing } = await import('./catalogue.js');
      const entries = listing(kind, environment);
      if (options.json) return environment.out(JSON.stringify(entries, null, 2));
      const wide = Math.max(...entries.map(e => e.id.length));
      for (const e of entries) {
        const tags = e.tags && e.tags.length > 0 ? `  [${e.tags.join(', ')}]` : '';
        environment.out(`${e.id.padEnd(wide)}  ${e.summary}${tags}`);
      }
    });

export const showCommand = (environment: Environment, _report: Report) =>
  new Command('show')
    .summary('all about one of them')
    .description(
      'Shows one entry: its parameters with unit, default and bounds, or its preset file.',
    )
    .addArgument(new Argument('<kind>', KINDS.map(singular).join(', ')))
    .argument('<name>', 'its name, from `foldwright list`')
    .option('--json', 'print as JSON')
    .addHelpText(
      'after',
      '\nExamples:\n  foldwright show style flip-lid\n  foldwright show cutter mat-12x12\n  foldwright show job orchard-fair > my-fair.yaml',
    )
    .action(async (kind, name, options) => {
      const { details, detailText } = await import('./catalogue.js');
      const entry = details(kind, name, environment);
      environment.out(options.json ? JSON.stringify(entry, null, 2) : detailText(entry));
    });
