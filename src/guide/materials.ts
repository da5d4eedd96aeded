/** What is cut, from how much paper, and what it is stuck together with: of all boxes of an item. */
import { bounds, pathLength, signedArea, stepLength, steps } from '../geom/index.js';
import { isFromBack, type Piece } from '../model.js';
import type { GuideAsk } from './ask.js';
import type { ClosureRow, CutRow, Materials, PaperRow } from './facts.js';
import { flapsOf } from './pattern.js';

/** A square of foam, some 6 mm wide, holds about this much of a layer (common practice, no source). */
const FOAM_PATCH_MM2 = 400;
/** Ribbon for a bow beside what goes round the box, mm (common practice, no source). */
const BOW_MM = 450;

export function cutRows({ design, sheets }: GuideAsk): CutRow[] {
  const pieces = new Map<string, { piece: Piece; count: number }>();
  for (const { placements, copies } of sheets) {
    for (const { piece } of placements) {
      const key = `${piece.stock} ${piece.id}`;
      const known = pieces.get(key);
      pieces.set(key, { piece, count: (known?.count ?? 0) + copies });
    }
  }
  return [...pieces.values()].map(({ piece, count }): CutRow => {
    const b = bounds(piece.outline);
    const stock = design.stocks[piece.stock]!;
    const { folds } = design.cutter;
    // What is printed is scored from its face.
    const back = !piece.art && piece.strokes.some(s => isFromBack(s, folds));
    const has = (operation: string) => piece.strokes.some(s => s.operation === operation);
    return {
      piece,
      count,
      paper: stock.id,
      colour: stock.colour,
      size: [b.maxX - b.minX, b.maxY - b.minY],
      print: piece.art !== undefined,
      score: piece.strokes.some(s => s.operation === 'score' && !(back && isFromBack(s, folds))),
      back,
      draw: has('draw'),
    };
  });
}

export function materialsOf(ask: GuideAsk): Materials {
  const { item, folded, seats, decals } = ask;
  const papers = paperRows(ask);
  const prices = papers.flatMap(p => (p.cost === undefined ? [] : [p.cost]));
  const longest = (path: GuideAsk['seats'][number]['area']['area']) =>
    Math.max(...[...steps(path)].map(stepLength));
  const flaps = folded.flatMap(({ net, glue }) => [
    ...flapsOf(net, glue),
    ...flapsOf(
      net,
      seats.filter(s => s.net === net.id).map(s => s.area),
    ),
  ]);
  const flat = decals.filter(d => !(d.lift > 0));
  const lifted = new Map<number, number>();
  for (const { lift, piece } of decals) {
    if (!(lift > 0)) continue;
    const squares = Math.max(1, Math.ceil(Math.abs(signedArea(piece.outline)) / FOAM_PATCH_MM2));
    lifted.set(lift, (lifted.get(lift) ?? 0) + squares);
  }
  return {
    papers,
    ...(prices.length > 0 && { cost: prices.reduce((a, b) => a + b, 0) }),
    priced: prices.length === papers.length,
    flaps: item.count * flaps.reduce((sum, g) => sum + longest(g.area), 0),
    layers: item.count * flat.reduce((sum, d) => sum + pathLength(d.piece.outline), 0),
    foam: [...lifted].map(([height, n]) => ({ height, squares: n * item.count })),
    closures: closureRows(ask, item.count),
    ribbon: ribbonOf(ask),
  };
}

function paperRows({ sheets }: GuideAsk): PaperRow[] {
  const areas = new Map<Piece, number>();
  const areaOf = (piece: Piece): number => {
    const known = areas.get(piece) ?? Math.abs(signedArea(piece.outline));
    areas.set(piece, known);
    return known;
  };
  const rows = new Map<string, PaperRow & { readonly area: number }>();
  for (const { stock, placements, copies } of sheets) {
    const own = placements.reduce((sum, p) => sum + areaOf(p.piece), 0);
    const before = rows.get(stock.id);
    const count = (before?.sheets ?? 0) + copies;
    const area = (before?.area ?? 0) + copies * own;
    const { width, height, price } = stock;
    rows.set(stock.id, {
      id: stock.id,
      paper: stock.summary,
      sheets: count,
      width,
      height,
      area,
      used: area / (count * width * height),
      ...(price !== undefined && { cost: count * price }),
    });
  }
  return [...rows.values()].map(({ area: _, ...row }) => row);
}

/** The closures of so many pieces: of all in the list of materials, of one in a step. */
export function closureRows({ closures }: GuideAsk, pieces: number): ClosureRow[] {
  const rows = new Map<string, ClosureRow>();
  for (const { means = 'hook-and-loop', diameter } of closures) {
    const key = `${means} ${diameter}`;
    rows.set(key, { means, diameter, count: (rows.get(key)?.count ?? 0) + pieces });
  }
  return [...rows.values()];
}

/** The ribbon that a style is tied with, and the one for which slots were asked. */
export const ribbonsOf = ({ item, folded }: GuideAsk): (readonly string[])[] => [
  ...folded.flatMap(({ net: { tied } }) => (tied ? [tied] : [])),
  ...(item.box?.features?.some(f => f.feature.startsWith('ribbon')) ? [[]] : []),
];

/** A bow for each, beside what goes round the box the short way where the ribbon does. */
function ribbonOf(ask: GuideAsk): number {
  const { item, outside } = ask;
  const ribbons = ribbonsOf(ask);
  const [a, b] = [...(outside ?? [])].sort((p, q) => p - q);
  const round = a !== undefined && b !== undefined ? 2 * (a + b) : 0;
  const each = ribbons.map(tied => BOW_MM + (tied.length > 0 ? 0 : round));
  return item.count * each.reduce((sum, r) => sum + r, 0);
}
