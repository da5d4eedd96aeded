import { Command, InvalidArgumentError } from '@commander-js/extra-typings';
import type { Environment, Report } from './environment.js';
import { EXIT } from './environment.js';

const [LEAST_PX, MOST_PX] = [16, 8000];

/** A picture's width in pixels. */
export function pixels(text: string): number {
  const n = Number(text);
  if (!(Number.isInteger(n) && n >= LEAST_PX && n <= MOST_PX)) {
    throw new InvalidArgumentError(`Allowed: a whole number from ${LEAST_PX} to ${MOST_PX}.`);
  }
  return n;
}

/** What a picture is of; told the same wherever it is asked for. */
export const OF = 'folded, net, or the name of a sheet (as kraft-1)';
export const WIDTH_PX = 1200;

export const pictureCommand = (environment: Environment, report: Report) =>
  new Command('picture')
    .summary('a picture of one item, as large as you like')
    .description(
      'Draws one item of a job as PNG: folded and dressed, its net, or one of its sheets. `box` and `decor` take --png as well.',
    )
    .argument('<job>', 'a job file, or the name of a job or box preset')
    .argument('[item]', 'an item of the job; the first if not named')
    .requiredOption('--png <file>', 'the picture')
    .option('--of <what>', OF, 'folded')
    .option('--width <pixels>', 'how wide', pixels, WIDTH_PX)
    .addHelpText(
      'after',
      `
Examples:
  foldwright picture orchard-fair cider-caramels --png caramels.png
  foldwright picture orchard-fair plum-truffles --of net --width 600 --png net.png
  foldwright picture orchard-fair plum-truffles --of print-1 --png sheet.png
  foldwright box gable --inside 84x50x48mm --check --png gable.png
  foldwright decor snowflake --size 60mm --check --png flake.png --width 800`,
    )
    .action(async (job, item, options) => {
      const { readJobFile } = await import('./read-job.js');
      const { makePicture } = await import('./picture-run.js');
      await makePicture(readJobFile(job, environment), { ...options, item }, environment);
      report(EXIT.good);
    });
