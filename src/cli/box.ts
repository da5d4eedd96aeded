import { Option } from '@commander-js/extra-typings';
import type { Environment, Report } from './environment.js';
import { assignment, gathered, makingCommand } from './output-options.js';
import { OF, pixels, WIDTH_PX } from './picture.js';

export const boxCommand = (environment: Environment, report: Report) =>
  makingCommand('box')
    .summary('one box, sized by its inside')
    .description(
      'Makes one box without a job file. `foldwright show style STYLE` tells its parameters.',
    )
    .argument('<style>', 'a box style (see: foldwright list styles)')
    .option('--inside <LxWxH>', 'clear space inside, as 6x2x1in or 150x50x25mm')
    .option('--outside <LxWxH>', 'or the size over all')
    .option('--creases <LxWxH>', 'or crease to crease, paper taken as having no thickness')
    .option(
      '--set <name=value>',
      'a parameter of the style (may be repeated); also by its own name, as --sides 6',
      assignment,
      {},
    )
    .option(
      '--feature <text>',
      'a window, a notch …: its name, on=PANEL and settings (may be repeated)',
      gathered,
      [] as readonly string[],
    )
    .addOption(
      new Option(
        '--split <how>',
        'what to do with a net larger than the sheet: cut it into parts to glue',
      ).choices(['no', 'auto'] as const),
    )
    .option('--stock <name>', 'the paper', 'cardstock-65lb-12x12')
    .option('--cutter <name>', 'the cutter', 'mat-12x12')
    .option('--count <n>', 'how many', '1')
    .option('--name <name>', 'folder for this box; made from the size if not given')
    .option('--round <length>', 'all folds on marks of a ruler, as 1/16in or 1mm')
    .option('--recipe', 'also print how to score and cut it by hand')
    .option('--net <file>', 'also write its nets as JSON, to fold with a program of your own')
    .option('--png <file>', 'also draw it')
    .option('--of <what>', `what is drawn: ${OF}`, 'folded')
    .option('--width <pixels>', 'how wide the picture is', pixels, WIDTH_PX)
    .addHelpText(
      'after',
      `
Examples:
  foldwright box flip-lid --inside 6x2x1in
  foldwright box flip-lid --inside 6x2x1in --feature "thumb-notch on=lid radius=10mm"
  foldwright box pillow --inside 110x70x25mm --notch 18mm --out out/try
  foldwright box straight-tuck --inside 3x2x4in --stock kraft-110lb-12x12 --count 12
  foldwright box flip-lid --inside 6x2x1in --check --net flip-lid.json
  foldwright box flip-lid --creases 6x2x1in --round 1/16in --check --recipe`,
    )
    .action(async (style, options) => {
      const { boxDocument } = await import('../job/index.js');
      const { make } = await import('./make.js');
      const document = boxDocument({ style, ...options });
      report(await make(document, { ...options, single: true }, environment));
      const { tellFacts } = await import('./box-facts.js');
      tellFacts(document, options, environment);
      const { png } = options;
      if (png === undefined) return;
      const { makePicture } = await import('./picture-run.js');
      await makePicture(document, { ...options, png }, environment);
    });
