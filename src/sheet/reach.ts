/** Which part of a sheet the cutter's tools reach, and which part a printer prints. */
import type { Bounds, Cutter, Stock } from '../model.js';

/** What the tools reach of a sheet laid into the cutter's lower left corner: the smaller of sheet and
 *  cutter each way, less the cutter's margin all round. Empty (max below min) when nothing is left. */
export function cutterReach(stock: Stock, cutter: Cutter): Bounds {
  const { margin } = cutter;
  return {
    minX: margin,
    minY: margin,
    maxX: Math.min(stock.width, cutter.width) - margin,
    maxY: Math.min(stock.height, cutter.height) - margin,
  };
}

/** What a printer prints of the sheet: all but a border of `printMargin` mm. */
export const printable = (stock: Stock, printMargin: number): Bounds => ({
  minX: printMargin,
  minY: printMargin,
  maxX: stock.width - printMargin,
  maxY: stock.height - printMargin,
});

export const grow = (b: Bounds, by: number): Bounds => ({
  minX: b.minX - by,
  minY: b.minY - by,
  maxX: b.maxX + by,
  maxY: b.maxY + by,
});

export const overlap = (a: Bounds, b: Bounds): Bounds => ({
  minX: Math.max(a.minX, b.minX),
  minY: Math.max(a.minY, b.minY),
  maxX: Math.min(a.maxX, b.maxX),
  maxY: Math.min(a.maxY, b.maxY),
});
