/** A square of known size in the waste of a sheet: drawn with everything else, it tells on paper whether the
 *  sheet was imported true to size. */
import { bounds, rectangle, transform } from '../geom/index.js';
import type { Bounds, Cutter, Sheet, Stroke } from '../model.js';
import { markPaths } from './marks.js';
import { cutterReach, grow } from './reach.js';

/** Between the square and anything else, mm. */
const CLEAR_MM = 1;
/** Places are tried this far apart. */
const STEP_MM = 2;

/** The square with its place found, as low and then as far left as there is room; a warning where there is
 *  none. Nothing at all for a side of 0. */
export function scaleSquare(
  { placements, marks, wedge, stock }: Sheet,
  cutter: Cutter,
  side: number,
): { readonly strokes: readonly Stroke[]; readonly warnings: readonly string[] } {
  if (!(side > 0)) return { strokes: [], warnings: [] };
  const reach = cutterReach(stock, cutter);
  const marked = marks.flatMap(markPaths).map(p => bounds(p));
  const taken = [
    ...placements.map(({ piece, at }) => bounds(transform(piece.art?.bleed ?? piece.outline, at))),
    ...marked,
    ...(wedge ? [bounds(wedge)] : []),
    // The captions' strip, between the upper marks.
    ...(marks.length > 0 ? [strip(marked, reach)] : []),
  ].map(b => grow(b, CLEAR_MM));
  for (let y = reach.minY; y + side <= reach.maxY; y += STEP_MM) {
    for (let x = reach.minX; x + side <= reach.maxX; x += STEP_MM) {
      const free = taken.every(
        b => b.maxX <= x || b.minX >= x + side || b.maxY <= y || b.minY >= y + side,
      );
      if (free) {
        const path = rectangle(x, y, side, side);
        return { strokes: [{ operation: 'draw', path }], warnings: [] };
      }
    }
  }
  return {
    strokes: [],
    warnings: [`no room for the square of ${side} mm to measure the import by`],
  };
}

const strip = (marked: readonly Bounds[], reach: Bounds): Bounds => {
  const high = Math.max(...marked.map(b => b.maxY));
  const low = Math.min(...marked.filter(b => b.maxY > high - 1).map(b => b.minY));
  return { ...reach, minY: low };
};
