import { Command, InvalidArgumentError, Option } from '@commander-js/extra-typings';
import { parseLength } from '../units/length.js';
import type { Environment, Report } from './environment.js';

const length = (least: number, most: number) => (text: string) => {
  const read = parseLength(text, 'mm');
  if ('fault' in read) throw new InvalidArgumentError(read.fault);
  if (read.mm >= least && read.mm <= most) return read.mm;
  throw new InvalidArgumentError(`Allowed: from ${least} mm to ${most} mm.`);
};

function area(text: string): number {
  const value = Number(text.replace(/\s*mm2$|\s*mm²$/, ''));
  if (value >= 0.5 && value <= 10_000) return value;
  throw new InvalidArgumentError('Allowed: from 0.5 to 10000, in mm², with a decimal point.');
}

function threshold(text: string): number | undefined {
  if (text === 'auto') return undefined;
  const [, digits] = /^(\d+(?:\.\d+)?)\s*%?$/.exec(text) ?? [];
  const share = Number(digits) / 100;
  if (share >= 0.02 && share <= 0.95) return share;
  throw new InvalidArgumentError('Allowed: auto, or how dark ink is at least, from 2% to 95%.');
}

export const traceCommand = (environment: Environment, report: Report) =>
  new Command('trace')
    .summary('cut lines round the stamped images of a scanned page')
    .description(
      'Finds the images on a scanned page of `foldwright stamp-sheet`, and writes cut files that go round each at a margin, a picture to check them by, and each outline as a drawing for your own jobs.',
    )
    .argument('<scan>', 'the scanned page, PNG or JPEG')
    .option('--sheet <file>', 'a file of the stamped sheet; the page of out/stamps if not given')
    .addOption(
      new Option('--ink <kind>', 'darker or lighter than the paper')
        .choices(['dark', 'light'] as const)
        .default('dark' as const),
    )
    .option('--margin <length>', 'from the ink to the cut', length(0, 30), 2)
    .option('--merge <length>', 'parts this near are one image', length(0, 30), 3)
    .option('--least-area <mm2>', 'less ink than this is dirt', area, 6)
    .option('--threshold <share>', 'how dark ink is at least, as 20%; or auto', threshold)
    .option('--smooth <length>', 'how far a smooth cut may leave the outline', length(0.02, 1), 0.1)
    .option('--holes', 'cut the openings of images out as well')
    .option('--upright', 'the scan shows the page upright, should no mark tell')
    .option('--cutter <name>', 'the cutter', 'mat-12x12')
    .option('--name <name>', "folder for the result; the scan's name if not given")
    .option('--out <folder>', 'folder that takes the results', 'out')
    .option('--formats <list>', 'svg, dxf, with commas between', 'svg,dxf')
    .option('--force', 'replace files of ours that were changed by hand since')
    .option('--check', 'tell, and write nothing')
    .option('--json', 'print as JSON')
    .addHelpText(
      'after',
      `
Images nearer to each other than twice the margin are cut as one. The cut files lie as the page's marks do:
use "foldwright align" with them as with any printed sheet.

Examples:
  foldwright trace scan.png
  foldwright trace scan.png --margin 1/8in --holes --name apples`,
    )
    .action(async (scan, options) => {
      const { traceScan } = await import('./trace-scan.js');
      report(await traceScan(scan, options, environment));
    });
