import type { Environment, Report } from './environment.js';
import { assignment, makingCommand } from './output-options.js';
import { OF, pixels, WIDTH_PX } from './picture.js';

const collect = (text: string, all: string[]) => [...all, text];

export const decorCommand = (environment: Environment, report: Report) =>
  makingCommand('decor')
    .summary('one decoration, with its backings')
    .description(
      'Makes one decoration without a box. `foldwright show motif MOTIF` tells its parameters.',
    )
    .argument('<motif>', 'a motif (see: foldwright list motifs)')
    .option('--size <length>', 'how wide it is, as 40mm or 1 1/2in')
    .option('--set <name=value>', 'a parameter of the motif (may be repeated)', assignment, {})
    .option(
      '--backing <reveal>',
      'a backing that shows by this much (may be repeated)',
      collect,
      [],
    )
    .option('--least-width <length>', 'refuse necks, holes and slots narrower than this')
    .option('--pattern <name>', 'printed pattern on the front (see: foldwright list patterns)')
    .option('--palette <name>', 'its colours (see: foldwright list palettes)')
    .option('--marks <name>', 'register marks of printed sheets (see: foldwright list marks)')
    .option('--stock <name>', 'the paper', 'cardstock-65lb-12x12')
    .option('--cutter <name>', 'the cutter', 'mat-12x12')
    .option('--count <n>', 'how many', '1')
    .option('--name <name>', 'folder for it; made from the size if not given')
    .option('--png <file>', 'also draw it')
    .option('--of <what>', `what is drawn: ${OF}`, 'folded')
    .option('--width <pixels>', 'how wide the picture is', pixels, WIDTH_PX)
    .addHelpText(
      'after',
      `
Examples:
  foldwright decor heart --size 40mm --backing 3mm
  foldwright decor label --size 2 1/2in --set text="Thank you" --count 20
  foldwright decor scalloped-disc --size 50mm --pattern dots --palette windfall`,
    )
    .action(async (motif, options) => {
      const { decorDocument } = await import('../job/index.js');
      const { make } = await import('./make.js');
      const document = decorDocument({ motif, ...options });
      report(await make(document, { ...options, single: true }, environment));
      const { png } = options;
      if (png === undefined) return;
      const { makePicture } = await import('./picture-run.js');
      await makePicture(document, { ...options, png }, environment);
    });
