/** Pages that are stamped by hand, and the sheets that are cut when they have been scanned. */
import { bounds, transform, translation } from './geom/index.js';
import { STANDARD } from './job/standard.js';
import type {
  Convention,
  Cutter,
  Design,
  FormatId,
  Item,
  MarkStyle,
  Path,
  Piece,
  RegisterMark,
  Sheet,
  Stock,
} from './model.js';
import { PLAIN_IMPORT } from './model.js';
import { CUT_WRITERS } from './write/index.js';

/** What stamped pages are made with: the defaults of every other job. */
export interface StampKit {
  readonly stock: Stock;
  readonly cutter: Cutter;
  readonly convention: Convention;
  readonly marks: MarkStyle;
  readonly formats: readonly FormatId[];
}

/** The job that a stamped page belongs to. */
export const stampDesign = (name: string, kit: StampKit): Design => ({
  name,
  title: 'A page to stamp on',
  items: [],
  stocks: { [kit.stock.id]: kit.stock },
  cutter: kit.cutter,
  convention: kit.convention,
  marks: kit.marks,
  formats: kit.formats,
  unit: 'mm',
  bleed: 0,
  printMargin: STANDARD.printMargin,
  importing: PLAIN_IMPORT,
  dpi: STANDARD.dpi,
  guidePaper: 'a4',
});

export const stampItem = (name: string, title: string): Item => ({
  name,
  title,
  count: 1,
  decorations: [],
});

/** An image as it is to be cut, on its sheet. */
export interface CutImage {
  readonly outline: Path;
  readonly holes: readonly Path[];
}

/** One piece for each image, where it was stamped, named in the order of reading. */
export function stampedSheet(
  stock: Stock,
  marks: readonly RegisterMark[],
  images: readonly CutImage[],
): Sheet {
  const placements = images.map(({ outline, holes }, i) => {
    const { minX, minY, maxX, maxY } = bounds(outline);
    const middle = [(minX + maxX) / 2, (minY + maxY) / 2] as const;
    const own = translation(-middle[0], -middle[1]);
    const piece: Piece = {
      id: `image-${i + 1}`,
      title: `Image ${i + 1}`,
      name: { part: { title: `Image ${i + 1}` } },
      stock: stock.id,
      count: 1,
      outline: transform(outline, own),
      holes: holes.map(h => transform(h, own)),
      strokes: [],
    };
    return { piece, at: translation(...middle) };
  });
  return { id: `${stock.id}-1`, stock, placements, marks, copies: 1 };
}

/** White round a drawing of one image, mm. */
const ROUND_MM = 1;

/** An image's cut line alone, as a drawing that a job can name as a motif. */
export function imageDrawing({ id, outline, holes }: Piece, convention: Convention): string {
  const { minX, minY, maxX, maxY } = bounds(outline);
  const own = translation(ROUND_MM - minX, ROUND_MM - minY);
  const writer = CUT_WRITERS.find(w => w.id === 'svg');
  if (!writer) throw new Error('no writer of SVG');
  const layers = [
    { operation: 'cut', paths: [...holes, outline].map(p => transform(p, own)) } as const,
  ];
  const size = { width: maxX - minX + 2 * ROUND_MM, height: maxY - minY + 2 * ROUND_MM };
  return writer.write({ name: id, ...size, layers }, convention);
}
