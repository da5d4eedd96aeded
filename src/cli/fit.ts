import { Command, InvalidArgumentError, Option } from '@commander-js/extra-typings';
import type { Environment, Report } from './environment.js';

const collect = (text: string, all: string[]) => [...all, text];

const LONGEST_LIST = 100;
function listLength(text: string): number {
  const n = Number(text);
  if (!(Number.isInteger(n) && n >= 1 && n <= LONGEST_LIST)) {
    throw new InvalidArgumentError(`Allowed: a whole number from 1 to ${LONGEST_LIST}.`);
  }
  return n;
}

export const fitCommand = (environment: Environment, report: Report) =>
  new Command('fit')
    .summary('boxes for a treat, the least paper first')
    .description(
      'Finds how treats lie in a box, and the boxes for them that take the least paper. TREAT is block, round, ball, pouch, stick, or a preset (foldwright list treats).',
    )
    .argument('<treat>', 'a shape, or a treat preset')
    .option('--size <LxWxH>', 'of a block or a pouch, as 75x25x16mm')
    .option('--length <length>', 'of a block, a pouch or a stick')
    .option('--width <length>', 'of a block or a pouch')
    .option('--height <length>', 'of a block or a round; how thick a pouch is as it lies')
    .option('--diameter <length>', 'of a round, a ball or a stick')
    .option('--squash <percent>', 'how much flatter a pouch may be pressed')
    .option('--count <n>', 'pieces in one box; 1, or the preset’s own')
    .option('--clearance <length>', 'room on every side of a piece; 1 mm')
    .option('--apart <length>', 'least distance between two pieces, where it is to be more')
    .option('--lie <how>', 'flat, side, upright, as-measured or any')
    .option('--stack <n>', 'the most layers on each other; 1 for what is crushed or smeared')
    .option('--columns <n>', 'only so many pieces in a row')
    .option('--rows <n>', 'only so many rows')
    .option('--layers <n>', 'only so many layers')
    .option('--straight', 'only straight rows, nothing staggered, turned or nested')
    .addOption(
      new Option('--insert <style>', 'with a place of its own for each piece: divider or platform'),
    )
    .option('--inside <LxWxH>', 'how many go into this box, in place of finding one')
    .option('--style <name>', 'only this style (may be repeated)', collect, [])
    .option('--stock <name>', 'the paper', 'cardstock-65lb-12x12')
    .option('--cutter <name>', 'the cutter', 'mat-12x12')
    .option('--most <n>', 'how many boxes to list', listLength, 10)
    .option('--pick <n>', 'the one to draw and to make', listLength, 1)
    .option('--out <file>', 'a picture of it, ending in .svg or .png')
    .option('--json', 'print as JSON, with the place of every piece')
    .addHelpText(
      'after',
      `
A piece lies flat as low as it can, and upright as tall as it can; side is a block on its long edge.
as-measured keeps its height up.

Examples:
  foldwright fit round --diameter 40mm --height 20mm --count 6
  foldwright fit block --size 3x1x5/8in --count 10 --style flip-lid --layers 1
  foldwright fit cider-caramel --count 20 --out caramels.png
  foldwright fit honey-jar --insert divider
  foldwright fit ball --diameter 25mm --inside 6x2x1in`,
    )
    .action(async (treat, options) => {
      const { runFit } = await import('./fit-run.js');
      report(await runFit({ treat, ...options }, environment));
    });
