/** The room a piece takes on a sheet: its bounds with half of the space between pieces all round. */
import { bounds } from '../geom/index.js';
import type { Affine, Bounds, Cutter, Piece, Stock } from '../model.js';
import type { Footprint } from './free-space.js';
import { printLayout } from './marks.js';
import { cover, cutterReach, grow, overlap, printable } from './reach.js';
import type { Grown } from './silhouette.js';

/** Between cut pieces: paper bridges of 3 mm stay flat under the blade (common practice, no source). */
const DEFAULT_GAP_MM = 3;

export interface SheetOptions {
  readonly cutter: Cutter;
  /** Least distance between two pieces' outlines, mm; `DEFAULT_GAP_MM` if not given. */
  readonly gap?: number;
  /** Printed before it is cut: marks are placed, and art stays where the printer prints. */
  readonly printed: boolean;
  readonly printMargin: number;
  readonly bleed: number;
  /** Parts of the sheet to keep clear of, beside the marks. */
  readonly reserve?: readonly Bounds[];
}

/** Half of the space between two outlines: on a printed sheet room for both pieces' bleed. */
export const sideRoom = ({ gap = DEFAULT_GAP_MM, printed, bleed }: SheetOptions): number =>
  printed ? Math.max(gap / 2, bleed) : gap / 2;

/** Where footprints may lie, so that outlines stay in the cutter's reach and art is printed. */
export function footprintArea(stock: Stock, options: SheetOptions): Bounds {
  const side = sideRoom(options);
  const reach = grow(cutterReach(stock, options.cutter), side);
  if (!options.printed) return reach;
  return overlap(reach, grow(printable(stock, options.printMargin), side - options.bleed));
}

/** What a sheet keeps clear for its marks and captions, and what the caller asked for. `undefined`
 *  where a printed sheet cannot hold its marks. */
export function reservedZones(stock: Stock, options: SheetOptions): readonly Bounds[] | undefined {
  const asked = options.reserve ?? [];
  if (!options.printed) return asked;
  const layout = printLayout(stock, options.cutter, options.printMargin);
  return layout && [...layout.reserve, ...asked];
}

export interface PieceBox extends Footprint {
  readonly piece: Piece;
  /** What must not overlap another piece's: the outline, and the bleed of printed art, each grown. */
  readonly parts: readonly Grown[];
  /** In the piece's own frame. */
  readonly box: Bounds;
}

export function pieceBox(piece: Piece, stock: Stock, options: SheetOptions): PieceBox {
  const side = sideRoom(options);
  const parts: Grown[] = [{ outline: piece.outline, by: side }];
  if (options.printed && piece.art) {
    parts.push({ outline: piece.art.bleed, by: side - options.bleed });
  }
  const box = parts.map(p => grow(bounds(p.outline), p.by)).reduce(cover);
  const along = stock.grain === 'unknown' ? undefined : stock.grain === 'width' ? 'x' : 'y';
  const free = piece.grain === undefined || along === undefined;
  return {
    piece,
    parts,
    box,
    width: box.maxX - box.minX,
    height: box.maxY - box.minY,
    straight: free || piece.grain === along,
    turned: free || piece.grain !== along,
  };
}

/** From the piece's frame to the sheet's, so that the lower left of its footprint lies at (x, y) after
 *  `quarters` quarter turns. Written exactly, without the rounding of a cosine. */
export function turning(box: Bounds, x: number, y: number, quarters: 0 | 1 | 2 | 3): Affine {
  switch (quarters) {
    case 0:
      return [1, 0, 0, 1, x - box.minX, y - box.minY];
    case 1:
      return [0, 1, -1, 0, x + box.maxY, y - box.minX];
    case 2:
      return [-1, 0, 0, -1, x + box.maxX, y + box.maxY];
    case 3:
      return [0, -1, 1, 0, x - box.minY, y + box.maxX];
  }
}
