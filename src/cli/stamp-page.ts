/** Makes a page to stamp on. */
import type { FormatId } from '../model.js';
import { GRID_MM } from '../scan/index.js';
import { stampSheet } from '../sheet/index.js';
import { stampDesign, stampItem } from '../stamp-pages.js';
import { type Environment, EXIT, type ExitCode, InputError } from './environment.js';
import { checkName, STAMPS, stampKit, storeStamped } from './stamp-files.js';

export interface StampSheetOptions {
  readonly stock: string;
  readonly cutter: string;
  readonly marks: string;
  readonly grid: boolean;
  readonly name: string;
  readonly out: string;
  readonly formats?: readonly FormatId[] | undefined;
  readonly force?: true | undefined;
}

export async function makeStampSheet(
  options: StampSheetOptions,
  environment: Environment,
): Promise<ExitCode> {
  checkName(options.name);
  const kit = stampKit(options, ['svg', 'dxf', 'pdf'], environment);
  const { printMargin } = stampDesign(STAMPS, kit);
  const pitch = options.grid ? GRID_MM : 0;
  const sheet = stampSheet(kit.stock, kit.cutter, printMargin, kit.marks, pitch);
  if (!sheet) {
    const { id, width, height } = kit.stock;
    throw new InputError(
      `${id} (${width.toFixed(1)} × ${height.toFixed(1)} mm) has no room for register marks with a page between them. Choose a larger paper or cutter, or smaller marks.`,
    );
  }
  const item = stampItem(options.name, 'Stamp inside the grid, 4 mm apart or more');
  const { out, force } = options;
  const run = { item, sheet, kit, out, force, more: () => [] };
  const { files } = await storeStamped(run, environment);
  environment.out(
    [
      ...files.map(f => `wrote ${f}`),
      'Print the page at actual size, stamp inside its grid, scan it whole at 300 dpi, then: foldwright trace SCAN',
    ].join('\n'),
  );
  return EXIT.good;
}
