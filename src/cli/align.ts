import { Command, InvalidArgumentError, Option } from '@commander-js/extra-typings';
import type { Environment, Report } from './environment.js';
import { dxfOption } from './output-options.js';

const MODELS = ['rigid', 'similarity', 'affine', 'projective'] as const;

function precision(text: string): number {
  const mm = Number(text.replace(/\s*mm$/, ''));
  if (!(mm >= 0.001 && mm <= 5)) {
    throw new InvalidArgumentError('Allowed: from 0.001 to 5, in mm.');
  }
  return mm;
}

export function resolution(text: string): number {
  const dpi = Number(text.replace(/\s*dpi$/, ''));
  if (!(dpi >= 40 && dpi <= 5000)) {
    throw new InvalidArgumentError('Allowed: from 40 to 5000 dots an inch, as 300.');
  }
  return dpi;
}

export const alignCommand = (environment: Environment, report: Report) =>
  new Command('align')
    .summary('move a cut file onto a print that came out small, crooked or off')
    .description(
      'Works out from its register marks how a printed sheet lies, and writes cut files that fit it. SHEET is any file of a sheet that a batch made.',
    )
    .argument('<sheet>', 'a file of the sheet, as its .cut.svg')
    .addOption(
      new Option(
        '--miss <marks>',
        'how far each printed mark lies right of and above the cross the pen drew for it, mm',
      ).conflicts(['marks', 'scan']),
    )
    .addOption(
      new Option('--marks <file>', "YAML of where the marks are, in the machine's mm").conflicts(
        'scan',
      ),
    )
    .option('--scan <file>', 'a scan or a photo of the printed sheet, PNG or JPEG')
    .option('--dpi <n>', "the scan's resolution, where its file does not say it", resolution)
    .option('--upright', 'the picture shows the sheet upright, should no mark tell')
    .option(
      '--precision <mm>',
      'how exactly the marks are known: 0.1 if measured, 0.05 from a scan, if not given',
      precision,
    )
    .addOption(new Option('--model <model>', 'the only kind of move to be tried').choices(MODELS))
    .addOption(dxfOption())
    .option('--force', 'write over an earlier result')
    .option('--check', 'tell, and write nothing')
    .option('--json', 'print as JSON')
    .addHelpText(
      'after',
      `
With a pen in the cutter, cut only the register layer of the sheet's cut file, over the print. Measure
at each mark how far the printed cross lies to the right of the pen's (left: negative), and above it
(below: negative). Two marks tell where the sheet lies, how it is turned and its size; three also
tell a skew; with four or five a slip of the ruler shows.

Or scan the printed sheet, and load it into the machine by its edges: the paper's edges in the scan are
where the machine's millimetres begin. Lay it face down with something dark behind it, or crop the scan to
the sheet. A photo must show all four edges; it is less exact than a scan.

Examples:
  foldwright align out/fair/tags/card-1.cut.svg --miss "lower-left 0.4,-0.2; upper-right -0.5,0.1"
  foldwright align out/fair/tags/card-1.cut.svg --marks measured.yaml --check
  foldwright align out/fair/tags/card-1.cut.svg --scan tags.png`,
    )
    .action(async (sheet, options) => {
      const { alignSheet } = await import('./align-sheet.js');
      report(alignSheet(sheet, options, environment));
    });
