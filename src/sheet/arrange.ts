/** Pieces onto sheets: by their boxes, and by their true shapes where that saves a sheet. */
import type { Piece, Placement, Sheet, Stock } from '../model.js';
import { arrangeBoxes } from './by-boxes.js';
import { arrangeShapes } from './by-shapes.js';
import { type Pattern, sheetCount } from './fill.js';
import {
  footprintArea,
  pieceBox,
  reservedZones,
  type SheetOptions,
  sideRoom,
  turning,
} from './footprint.js';
import { freeSpace } from './free-space.js';
import { type PrintLayout, printLayout } from './marks.js';
import { type TooBig, tooBig, tooBigMessage } from './too-big.js';

export interface ArrangeFault {
  readonly piece: Piece;
  readonly tooBig: TooBig;
  readonly message: string;
}
export type Arrangement =
  | { readonly sheets: readonly Sheet[]; readonly faults?: undefined }
  | { readonly faults: readonly ArrangeFault[]; readonly sheets?: undefined };

/** Every piece, as often as its count says, on as few sheets of `stock` as we find; the same input
 *  gives the same sheets. All pieces that fit no sheet are told at once. */
export function arrange(
  pieces: readonly Piece[],
  stock: Stock,
  options: SheetOptions,
): Arrangement {
  const wanted = pieces.filter(isWanted(stock));
  const faults = wanted.flatMap((piece): ArrangeFault[] => {
    const t = tooBig(piece, stock, options);
    return t ? [{ piece, tooBig: t, message: tooBigMessage(piece, stock, options, t) }] : [];
  });
  if (faults.length > 0) return { faults };
  if (wanted.length === 0) return { sheets: [] };
  const zones = reservedZones(stock, options) ?? [];
  const area = footprintArea(stock, options);
  const boxes = wanted.map(piece => pieceBox(piece, stock, options));
  const byBoxes = arrangeBoxes(boxes, freeSpace(area, zones));
  const side = sideRoom(options);
  const byShapes = arrangeShapes(boxes, area, zones, side, sheetCount(byBoxes));
  const { cutter, print } = options;
  const layout = print && printLayout(stock, cutter, print.margin, print.marks);
  return { sheets: toSheets(byShapes ?? byBoxes, stock, layout) };
}

/** Throws for what the stages before must never hand over. */
const isWanted = (stock: Stock) => (piece: Piece) => {
  if (piece.stock !== stock.id) {
    throw new Error(`piece ${piece.id} is of ${piece.stock}, not of ${stock.id}`);
  }
  if (!(Number.isSafeInteger(piece.count) && piece.count >= 0)) {
    throw new RangeError(`piece ${piece.id}: a count of ${piece.count}`);
  }
  return piece.count > 0;
};

function toSheets(
  patterns: readonly Pattern[],
  stock: Stock,
  layout: PrintLayout | undefined,
): Sheet[] {
  return patterns.map(({ puts, copies }, i) => ({
    id: `${stock.id}${layout ? '-print' : ''}-${i + 1}`,
    stock,
    placements: puts.map(
      ({ box, x, y, quarters }): Placement => ({
        piece: box.piece,
        at: turning(box.box, x, y, quarters),
      }),
    ),
    marks: layout?.marks ?? [],
    ...(layout && { wedge: layout.wedge }),
    copies,
  }));
}
