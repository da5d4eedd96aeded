import { Command, Option } from '@commander-js/extra-typings';
import type { Environment, Report } from './environment.js';
import { assignment, dxfOption } from './output-options.js';

export const testcardCommand = (environment: Environment, report: Report) =>
  new Command('testcard')
    .summary('a small sheet to cut that tells what to put in your presets')
    .description(
      'Makes a test card: cut it from a scrap, look at it with the page that comes with it, and write what you see into your cutter.',
    )
    .argument('<card>', 'a test card (see: foldwright list cards)')
    .option('--set <name=value>', 'a parameter of the card (may be repeated)', assignment, {})
    .option('--cutter <name>', 'the cutter', 'mat-12x12')
    .option('--stock <name>', 'the paper', 'cardstock-65lb-12x12')
    .option('--marks <name>', 'register marks of the card that is printed', 'ring-and-cross')
    .option('--out <folder>', 'folder that takes the files', 'out/cards')
    .addOption(dxfOption())
    .option('--force', 'write over an earlier one')
    .addOption(
      new Option(
        '--compensated-by <who>',
        "who allows for the blade's offset, as for any sheet; the cards blade and kerf try it themselves",
      ).choices(['file', 'cutter'] as const),
    )
    .addHelpText(
      'after',
      `
Examples:
  foldwright testcard blade --out out/cards
  foldwright testcard blade --set from=0.1mm --set to=0.4mm --set step=0.02mm
  foldwright testcard registration --stock printable-65lb-letter`,
    )
    .action(async (card, options) => {
      const { makeCard } = await import('./testcard-run.js');
      report(await makeCard({ card, ...options }, environment));
    });
