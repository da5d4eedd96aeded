/** Pieces as rectangles: quick, in tidy rows, and best for nets and labels. */
import { costOf, type FillOne, fillSheets, type Pattern, type Put } from './fill.js';
import type { PieceBox } from './footprint.js';
import { before, bestSpot, type FreeSpace, RULES, type Rule, without } from './free-space.js';
import { inOwnOrder, ORDERS } from './orders.js';

/** The best of several orders, rules and ways of turning. Every box must fit an empty sheet. */
export function arrangeBoxes(boxes: readonly PieceBox[], empty: FreeSpace): readonly Pattern[] {
  const base = inOwnOrder(boxes);
  const orders = boxes.length > 1 ? ORDERS : ORDERS.slice(0, 1);
  let best: { patterns: readonly Pattern[]; cost: readonly number[] } | undefined;
  for (const order of orders) {
    for (const rule of RULES) {
      for (const turns of ['either', 'straight', 'turned'] as const) {
        const ordered = [...base].sort(order);
        const patterns = fillSheets(
          ordered.map(b => b.piece.count),
          boxFiller(ordered.map(prefer(turns)), empty, rule),
        );
        const cost = costOf(patterns);
        if (!best || before(cost, best.cost)) best = { patterns, cost };
      }
    }
  }
  return best?.patterns ?? [];
}

/** Either way is often best for a mix; one way alone is often best for many of a kind. A piece that
 *  cannot lie the preferred way keeps the way it has. */
const prefer =
  (turns: 'either' | 'straight' | 'turned') =>
  (box: PieceBox): { readonly box: PieceBox; readonly first: PieceBox } => ({
    box,
    first:
      turns === 'either' || !box[turns]
        ? box
        : { ...box, straight: false, turned: false, [turns]: true },
  });

function boxFiller(
  candidates: readonly ReturnType<ReturnType<typeof prefer>>[],
  empty: FreeSpace,
  rule: Rule,
): FillOne {
  return left => {
    let free = empty;
    const puts: Put[] = [];
    const used = candidates.map(({ box, first }, i) => {
      let n = 0;
      // Free space only shrinks: a piece that does not fit now will not fit later.
      while (n < left[i]!) {
        const spot = bestSpot(free, first, rule) ?? bestSpot(free, box, rule);
        if (!spot) break;
        const { x, y, turned } = spot;
        const [w, h] = turned ? [box.height, box.width] : [box.width, box.height];
        free = without(free, { minX: x, minY: y, maxX: x + w, maxY: y + h });
        puts.push({ box, x, y, quarters: turned ? 1 : 0 });
        n++;
      }
      return n;
    });
    return { puts, used };
  };
}
