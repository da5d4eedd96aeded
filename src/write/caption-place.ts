/**
 * Where the captions and the scale bar of a printed sheet go: in white paper outside everything cut or
 * printed, as high on the sheet as possible; turned along a side where the sheet is narrow.
 */
import { bounds, transform } from '../geom/index.js';
import type { Bounds, PrintPage } from '../model.js';

/** A block to be placed, with what it holds. */
export interface Block<T> {
  readonly width: number;
  readonly height: number;
  readonly what: T;
}

/** A block's lower left corner, and whether it is turned a quarter counter-clockwise (it then grows
 *  upwards in reading direction and leftwards in height). */
export interface Place<T> {
  readonly block: Block<T>;
  readonly x: number;
  readonly y: number;
  readonly turned: boolean;
}

/** Kept free between the captions and anything else. */
const CLEAR_MM = 1;
/** Unprinted border assumed where there are no register marks to show what the printer reaches:
 *  a quarter inch (common practice, no source). */
const BORDER_MM = 6.35;
/** Bands are tried this far apart. */
const STEP_MM = 0.5;

/** Everything that must stay clear of words. */
function obstacles(page: PrintPage): Bounds[] {
  const paths = page.drawing.layers.flatMap(l => l.paths);
  const bleeds = page.arts.map(({ art, at }) => transform(art.bleed, at));
  const ink = page.ink.flatMap(({ lines, solids }) => [...lines, ...solids]);
  return [...paths, ...bleeds, ...ink].map(p => bounds(p));
}

/** The part of the sheet that words may use: what lies between the outermost marks is printable. */
function room({ drawing, ink }: PrintPage): Bounds {
  const marks = ink.flatMap(({ lines, solids }) => [...lines, ...solids]);
  if (marks.length > 0) return bounds(...marks);
  return {
    minX: BORDER_MM,
    minY: BORDER_MM,
    maxX: drawing.width - BORDER_MM,
    maxY: drawing.height - BORDER_MM,
  };
}

const swap = (b: Bounds): Bounds => ({
  minX: b.minY,
  minY: b.minX,
  maxX: b.maxY,
  maxY: b.maxX,
});

/** The lower left corner of the widest free stretch of the highest band that holds the block. */
function highest(
  block: Block<unknown>,
  area: Bounds,
  taken: readonly Bounds[],
): [number, number] | undefined {
  for (let y = area.maxY - block.height; y >= area.minY; y -= STEP_MM) {
    const beside = taken
      .filter(b => b.maxY + CLEAR_MM > y && b.minY - CLEAR_MM < y + block.height)
      .sort((a, b) => a.minX - b.minX);
    let x = area.minX;
    let best: [from: number, width: number] = [0, Number.NEGATIVE_INFINITY];
    for (const b of beside) {
      const gap = b.minX - CLEAR_MM - x;
      if (gap > best[1]) best = [x, gap];
      x = Math.max(x, b.maxX + CLEAR_MM);
    }
    if (area.maxX - x > best[1]) best = [x, area.maxX - x];
    if (best[1] >= block.width) return [best[0] + (best[1] - block.width) / 2, y];
  }
  return undefined;
}

/** Places the first block that fits: each is tried upright, then all are tried turned. `undefined`
 *  where the sheet has no room for any of them. */
export function placeCaptions<T>(
  page: PrintPage,
  blocks: readonly Block<T>[],
): Place<T> | undefined {
  const area = room(page);
  const taken = obstacles(page);
  for (const block of blocks) {
    const at = highest(block, area, taken);
    if (at) return { block, x: at[0], y: at[1], turned: false };
  }
  for (const block of blocks) {
    const at = highest(block, swap(area), taken.map(swap));
    // In the swapped frame the block's corner is its lower right one on the sheet.
    if (at) return { block, x: at[1] + block.height, y: at[0], turned: true };
  }
  return undefined;
}
