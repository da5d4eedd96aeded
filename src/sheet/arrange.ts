/**
 * Pieces onto sheets. One sheet is filled as well as the rule and the order allow; its pattern is
 * repeated while enough pieces of each kind are left; then the next. Several orders and rules are
 * tried and the best result kept, so a thousand copies cost no more than one full sheet.
 */
import type { Bounds, Piece, Placement, RegisterMark, Sheet, Stock } from '../model.js';
import {
  footprintArea,
  type PieceBox,
  pieceBox,
  placedAt,
  reservedZones,
  type SheetOptions,
} from './footprint.js';
import {
  before,
  bestSpot,
  type FreeSpace,
  freeSpace,
  RULES,
  type Rule,
  without,
} from './free-space.js';
import { printLayout } from './marks.js';
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
  const empty = freeSpace(footprintArea(stock, options), zones);
  const boxes = wanted.map(piece => pieceBox(piece, stock, options));
  const marks = options.printed
    ? (printLayout(stock, options.cutter, options.printMargin)?.marks ?? [])
    : [];
  return { sheets: toSheets(fewest(boxes, empty), stock, marks, options.printed) };
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

interface Put {
  readonly box: PieceBox;
  readonly x: number;
  readonly y: number;
  readonly turned: boolean;
}
/** One sheet's pieces, cut `copies` times. */
interface Pattern {
  readonly puts: readonly Put[];
  readonly copies: number;
}

type Order = (a: PieceBox, b: PieceBox) => number;
const longSide = (b: PieceBox) => Math.max(b.width, b.height);
const shortSide = (b: PieceBox) => Math.min(b.width, b.height);
const area = (b: PieceBox) => b.width * b.height;
const ORDERS: readonly Order[] = [
  (a, b) => area(b) - area(a),
  (a, b) => longSide(b) - longSide(a) || shortSide(b) - shortSide(a),
  (a, b) => shortSide(b) - shortSide(a) || longSide(b) - longSide(a),
  (a, b) => b.height - a.height || b.width - a.width,
  (a, b) => b.width - a.width || b.height - a.height,
];

function fewest(boxes: readonly PieceBox[], empty: FreeSpace): readonly Pattern[] {
  // The caller's order must not matter: ties in every order below fall back on this one.
  const base = [...boxes].sort(
    (a, b) => area(b) - area(a) || b.width - a.width || (a.piece.id < b.piece.id ? -1 : 1),
  );
  let best: { patterns: Pattern[]; cost: readonly number[] } | undefined;
  const orders = boxes.length > 1 ? ORDERS : ORDERS.slice(0, 1);
  for (const order of orders) {
    for (const rule of RULES) {
      for (const turns of ['either', 'straight', 'turned'] as const) {
        const patterns = fillSheets([...base].sort(order).map(prefer(turns)), empty, rule);
        const cost = costOf(patterns);
        if (!best || before(cost, best.cost)) best = { patterns, cost };
      }
    }
  }
  return best?.patterns ?? [];
}

/** Either way is often best for a mix; one way alone is often best for many of a kind. A piece that
 *  cannot lie the preferred way keeps the way it has. */
const prefer = (turns: 'either' | 'straight' | 'turned') => (box: PieceBox) => ({
  box,
  first:
    turns === 'either' || !box[turns]
      ? box
      : { ...box, straight: false, turned: false, [turns]: true },
});
type Candidate = ReturnType<ReturnType<typeof prefer>>;

function fillSheets(candidates: readonly Candidate[], empty: FreeSpace, rule: Rule): Pattern[] {
  const left = candidates.map(c => c.box.piece.count);
  const patterns: Pattern[] = [];
  while (left.some(n => n > 0)) {
    const { puts, used } = fillOne(candidates, left, empty, rule);
    if (puts.length === 0) throw new Error('a piece that fits an empty sheet was not placed');
    const copies = Math.min(
      ...left.map((n, i) => (used[i]! > 0 ? Math.floor(n / used[i]!) : Number.POSITIVE_INFINITY)),
    );
    for (const [i, n] of used.entries()) left[i]! -= n * copies;
    patterns.push({ puts, copies });
  }
  return patterns;
}

function fillOne(
  candidates: readonly Candidate[],
  left: readonly number[],
  empty: FreeSpace,
  rule: Rule,
): { puts: Put[]; used: number[] } {
  let free = empty;
  const puts: Put[] = [];
  const used = candidates.map((c, i) => {
    let n = 0;
    // Free space only shrinks: a piece that does not fit now will not fit later.
    while (n < left[i]!) {
      const spot = bestSpot(free, c.first, rule) ?? bestSpot(free, c.box, rule);
      if (!spot) break;
      const { x, y, turned } = spot;
      const [w, h] = turned ? [c.box.height, c.box.width] : [c.box.width, c.box.height];
      free = without(free, { minX: x, minY: y, maxX: x + w, maxY: y + h });
      puts.push({ box: c.box, x, y, turned });
      n++;
    }
    return n;
  });
  return { puts, used };
}

/** Fewest sheets; then the least paper touched on the least filled sheet (the rest is a scrap worth
 *  keeping); then the fewest different sheets to look after. */
function costOf(patterns: readonly Pattern[]): readonly number[] {
  const sheets = patterns.reduce((n, p) => n + p.copies, 0);
  return [sheets, Math.min(...patterns.map(touched)), patterns.length];
}

/** Area of the rectangle from the lower left that holds all the pieces. */
function touched({ puts }: Pattern): number {
  const extent = puts.reduce<Bounds>(
    (b, { box, x, y, turned }) => ({
      minX: Math.min(b.minX, x),
      minY: Math.min(b.minY, y),
      maxX: Math.max(b.maxX, x + (turned ? box.height : box.width)),
      maxY: Math.max(b.maxY, y + (turned ? box.width : box.height)),
    }),
    { minX: 0, minY: 0, maxX: 0, maxY: 0 },
  );
  return (extent.maxX - extent.minX) * (extent.maxY - extent.minY);
}

function toSheets(
  patterns: readonly Pattern[],
  stock: Stock,
  marks: readonly RegisterMark[],
  printed: boolean,
): Sheet[] {
  return patterns.map(({ puts, copies }, i) => ({
    id: `${stock.id}${printed ? '-print' : ''}-${i + 1}`,
    stock,
    placements: puts.map(
      ({ box, x, y, turned }): Placement => ({
        piece: box.piece,
        at: placedAt(box.box, x, y, turned),
      }),
    ),
    marks,
    copies,
  }));
}
