/** How many boxes a sheet gives, by the blanks around their nets. */
import type { Blank, Sheet, SheetYield } from '../fit/index.js';
import { rectangle } from '../geom/index.js';
import type { Cutter, Piece, Stock } from '../model.js';
import { arrange, cutterReach } from '../sheet/index.js';

/** More from one sheet are gift tags. */
const MOST_PER_SHEET = 200;

/** A blank fits what the cutter reaches of a sheet, straight or turned. */
export function sheetOf(stock: Stock, cutter: Cutter): Sheet {
  const reach = cutterReach(stock, cutter);
  const [w, h] = [reach.maxX - reach.minX, reach.maxY - reach.minY];
  return {
    thickness: stock.caliper,
    fits: ({ width, height }) => (width <= w && height <= h) || (width <= h && height <= w),
  };
}

/** Of one stock in one cutter; nothing of it is printed. */
export function yieldOn(stock: Stock, cutter: Cutter): (blanks: readonly Blank[]) => SheetYield {
  const options = { cutter };
  const sheetsFor = (blanks: readonly Blank[], count: number): number | undefined => {
    const pieces = blanks.map(
      ({ width, height }, i): Piece => ({
        id: `blank-${i}`,
        title: 'blank',
        name: { part: { title: 'blank' } },
        stock: stock.id,
        count,
        outline: rectangle(0, 0, width, height),
        holes: [],
        strokes: [],
      }),
    );
    return arrange(pieces, stock, options).sheets?.reduce((n, s) => n + s.copies, 0);
  };
  const reach = cutterReach(stock, cutter);
  const area = (reach.maxX - reach.minX) * (reach.maxY - reach.minY);
  return blanks => {
    const sheets = sheetsFor(blanks, 1);
    if (sheets !== 1) return { perSheet: 0, sheets };
    // Twice as many until they need a second sheet, then by halves: a box less always fits.
    // No more than there is paper for: most boxes need no try beyond the first.
    const paper = blanks.reduce((sum, b) => sum + b.width * b.height, 0);
    const cap = Math.min(MOST_PER_SHEET, Math.floor(area / paper));
    let fits = 1;
    let most = 2;
    while (most <= cap && sheetsFor(blanks, most) === 1) {
      fits = most;
      most *= 2;
    }
    most = Math.min(most, cap + 1);
    while (most - fits > 1) {
      const middle = Math.floor((fits + most) / 2);
      if (sheetsFor(blanks, middle) === 1) fits = middle;
      else most = middle;
    }
    return { perSheet: fits, sheets };
  };
}
