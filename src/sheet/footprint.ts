/** The room a piece takes on a sheet: its bounds with half of the space between pieces all round. */
import { bounds } from '../geom/index.js';
import type { Affine, Bounds, Cutter, MarkStyle, Piece, Stock } from '../model.js';
import type { Footprint } from './free-space.js';
import { printLayout } from './marks.js';
import { cutterReach, grow, overlap, printable } from './reach.js';
import type { Grown } from './silhouette.js';

/** Between cut pieces: paper bridges of 3 mm stay flat under the blade (common practice, no source). */
const DEFAULT_GAP_MM = 3;

export interface SheetOptions {
  readonly cutter: Cutter;
  /** Least distance between two pieces' outlines, mm; `DEFAULT_GAP_MM` if not given. */
  readonly gap?: number;
  /** Of sheets that are printed before they are cut: marks are placed, and art stays where the printer
   *  prints. Lengths in mm. */
  readonly print?: {
    readonly margin: number;
    readonly bleed: number;
    readonly marks: MarkStyle;
  };
  /** Parts of the sheet to keep clear of, beside the marks. */
  readonly reserve?: readonly Bounds[];
}

/** Half of the space between two outlines. Printed pieces share it: where they are neighbours the
 *  bleed of both meets in the middle, half of a full bleed wide or more. */
export const sideRoom = ({ gap = DEFAULT_GAP_MM, print }: SheetOptions): number =>
  Math.max(gap, print?.bleed ?? 0) / 2;

/** Where footprints may lie, so that outlines stay in the cutter's reach and art is printed to its full
 *  bleed. */
export function footprintArea(stock: Stock, options: SheetOptions): Bounds {
  const { cutter, print } = options;
  const side = sideRoom(options);
  const reach = grow(cutterReach(stock, cutter), side);
  if (!print) return reach;
  return overlap(reach, grow(printable(stock, print.margin), side - print.bleed));
}

/** What a sheet's footprints keep clear of: its marks and captions, by a full bleed, and what the caller
 *  asked for. `undefined` where a printed sheet cannot hold its marks. */
export function reservedZones(stock: Stock, options: SheetOptions): readonly Bounds[] | undefined {
  const { cutter, print, reserve = [] } = options;
  if (!print) return reserve;
  const layout = printLayout(stock, cutter, print.margin, print.marks);
  const more = Math.max(0, print.bleed - sideRoom(options));
  return layout && [...layout.reserve.map(zone => grow(zone, more)), ...reserve];
}

export interface PieceBox extends Footprint {
  readonly piece: Piece;
  /** What must not overlap another piece's: the outline, grown. */
  readonly shape: Grown;
  /** In the piece's own frame. */
  readonly box: Bounds;
}

export function pieceBox(piece: Piece, stock: Stock, options: SheetOptions): PieceBox {
  const shape = { outline: piece.outline, by: sideRoom(options) };
  const box = grow(bounds(shape.outline), shape.by);
  const along = stock.grain === 'unknown' ? undefined : stock.grain === 'width' ? 'x' : 'y';
  const free = piece.grain === undefined || along === undefined;
  return {
    piece,
    shape,
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
