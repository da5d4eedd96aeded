/** From "fill one sheet" to all sheets: one full sheet's pattern is repeated while enough pieces of
 *  each kind are left, so a thousand copies cost no more than one full sheet. */
import type { PieceBox } from './footprint.js';

/** One piece on a sheet: the lower left of its footprint, after so many quarter turns. */
export interface Put {
  readonly box: PieceBox;
  readonly x: number;
  readonly y: number;
  readonly quarters: Quarters;
}
export type Quarters = 0 | 1 | 2 | 3;

/** One sheet's pieces, cut `copies` times. */
export interface Pattern {
  readonly puts: readonly Put[];
  readonly copies: number;
}

/** Places as many of each kind as fit an empty sheet, at most `left[i]` of kind i. */
export type FillOne = (left: readonly number[]) => {
  readonly puts: readonly Put[];
  readonly used: readonly number[];
};

/** Throws when a sheet stays empty although pieces are left: `fillOne` must place at least one. */
export function fillSheets(counts: readonly number[], fillOne: FillOne): Pattern[] {
  const left = [...counts];
  const patterns: Pattern[] = [];
  while (left.some(n => n > 0)) {
    const { puts, used } = fillOne(left);
    if (puts.length === 0) throw new Error('a piece that fits an empty sheet was not placed');
    const copies = Math.min(
      ...left.map((n, i) => (used[i]! > 0 ? Math.floor(n / used[i]!) : Number.POSITIVE_INFINITY)),
    );
    for (const [i, n] of used.entries()) left[i]! -= n * copies;
    patterns.push({ puts, copies });
  }
  return patterns;
}

export const sheetCount = (patterns: readonly Pattern[]): number =>
  patterns.reduce((n, p) => n + p.copies, 0);

/** Fewest sheets; then the least paper touched on the least filled sheet (the rest is a scrap worth
 *  keeping); then the fewest different sheets to look after. */
export const costOf = (patterns: readonly Pattern[]): readonly number[] => [
  sheetCount(patterns),
  Math.min(...patterns.map(touched)),
  patterns.length,
];

/** Area of the rectangle that holds all the footprints. */
function touched({ puts }: Pattern): number {
  let [minX, minY] = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
  let [maxX, maxY] = [Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const { box, x, y, quarters } of puts) {
    const across = quarters % 2 === 1;
    minX = Math.min(minX, x);
    minY = Math.min(minY, y);
    maxX = Math.max(maxX, x + (across ? box.height : box.width));
    maxY = Math.max(maxY, y + (across ? box.width : box.height));
  }
  return (maxX - minX) * (maxY - minY);
}
