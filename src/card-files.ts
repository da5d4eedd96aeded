/** A test card to its files: what the cutter does of its own accord is planned as any sheet is; what a card
 *  wants done its own way is driven as it says. */
import type { Card } from './cards/index.js';
import type {
  Convention,
  Cutter,
  Drawing,
  DrawingLayer,
  Importing,
  MarkStyle,
  Stock,
} from './model.js';
import { printLayout, sheetInk, sheetStrokes } from './sheet/index.js';
import { compensatePaths, dashesOf, driverOf, orderPaths, planSheet } from './tool/index.js';
import {
  CUT_WRITERS,
  cardPage,
  drawingPicture,
  type Letter,
  type PageKit,
  PRINT_WRITERS,
} from './write/index.js';

export interface CardSetup {
  readonly cutter: Cutter;
  readonly convention: Convention;
  readonly stock: Stock;
  /** What the printer leaves white, mm. */
  readonly printMargin: number;
  readonly marks: MarkStyle;
  readonly importing: Importing;
  readonly letter: Letter;
  readonly page: PageKit;
}

export interface CardFile {
  readonly ending: string;
  readonly bytes: Uint8Array;
}

/** `undefined` where a card that is printed finds no room for its register marks on the stock. */
export async function cardFiles(
  id: string,
  title: string,
  card: Card,
  setup: CardSetup,
): Promise<readonly CardFile[] | undefined> {
  const { cutter, convention, stock, letter } = setup;
  const size = { width: card.width, height: card.height };
  const layout = card.printed && printLayout(stock, cutter, setup.printMargin, setup.marks);
  if (card.printed && !layout) return undefined;
  const sheet = {
    id,
    stock: { ...stock, ...size },
    placements: [],
    marks: layout?.marks ?? [],
    ...(layout && { wedge: layout.wedge }),
    copies: 1,
  };
  const strokes = [...card.strokes, ...sheetStrokes(sheet)];
  const { passes } = planSheet(strokes, cutter, { sheet: size, simulate: false });
  const own = ownPasses(card, cutter);
  const drawn: DrawingLayer[] = [
    ...passes.map(p => ({ operation: p.operation, paths: p.drawn })),
    ...own.map(o => ({ operation: o.operation, paths: o.drawn })),
  ];
  const driven: DrawingLayer[] = [
    ...passes.map(p => ({ operation: p.operation, paths: p.driven })),
    ...own.map(o => ({ operation: o.operation, paths: o.driven })),
  ];
  const drawing: Drawing = { name: `test card ${id}`, ...size, layers: driven };
  const text = new TextEncoder();
  const files: CardFile[] = CUT_WRITERS.map(w => ({
    ending: `cut.${w.extension}`,
    bytes: text.encode(w.write(drawing, convention, setup.importing)),
  }));
  const printed = card.printed
    ? [{ lines: card.printed.lines, width: card.printed.width, solids: [] }]
    : [];
  if (card.printed) {
    const writer = PRINT_WRITERS[0]!(setup.page);
    const page = {
      drawing: { ...drawing, layers: drawn },
      arts: [],
      ink: [...sheetInk(sheet), ...printed],
      captions: [title],
    };
    files.push({ ending: 'print.pdf', bytes: await writer.write(page, convention) });
  }
  const seen = printed.length > 0 ? [{ operation: 'draw' as const, paths: printed[0]!.lines }] : [];
  // The numbers are to be read: no dashes in them.
  const { operations } = convention;
  const plain = {
    ...convention,
    operations: { ...operations, draw: { ...operations.draw, dash: [] } },
  };
  const picture = await drawingPicture(
    { drawing: { ...drawing, layers: [...drawn, ...seen] }, paper: stock.colour },
    plain,
    letter,
  );
  files.push({ ending: 'html', bytes: text.encode(cardPage(title, picture, card.read)) });
  return files;
}

/** Lines that a card wants done its own way, in its order; the blade keeps its heading from one to the
 *  next. */
function ownPasses({ own }: Card, cutter: Cutter) {
  const driver = driverOf(cutter.blade, 'tool');
  let heading: number | undefined;
  return own.map(({ operation, paths, blade, dashes }) => {
    if (dashes) {
      const drawn = orderPaths(paths).paths.flatMap(path => dashesOf(path, dashes));
      return { operation, drawn, driven: driver.drive(operation, drawn) };
    }
    if (!blade) return { operation, drawn: paths, driven: driver.drive(operation, paths) };
    if (blade.offset === 0 && blade.overcut === 0)
      return { operation, drawn: paths, driven: paths };
    const made = compensatePaths(paths, blade, heading);
    heading = made.headingAfter;
    return { operation, drawn: paths, driven: made.driven };
  });
}
