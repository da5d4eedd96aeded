/** What of a blank is no part of its net: rectangles to cut away. */
import type { Point } from '../model.js';
import { LEAST_WIDTH_MM, SAME_POINT_MM } from '../units/tolerances.js';

/** A rectangle on the blank, from its lower left corner, mm. */
export interface Cell {
  readonly x: readonly [from: number, to: number];
  readonly y: readonly [from: number, to: number];
}

/** A panel by the corners of its outline, on the blank. */
interface Face {
  readonly corners: readonly Point[];
}

/** A net with more lines than this is none for scissors. */
const MOST_LINES = 200;

/**
 * The rectangles between the edges of the panels' bounds in which no panel has any paper, joined along
 * rows and then down. Leaning sides and round corners are trimmed afterwards.
 */
export function wasteOf(
  blank: { readonly width: number; readonly height: number },
  faces: readonly Face[],
): Cell[] {
  const boxes = faces.map(({ corners }) => ({
    x: [Math.min(...corners.map(c => c[0])), Math.max(...corners.map(c => c[0]))] as const,
    y: [Math.min(...corners.map(c => c[1])), Math.max(...corners.map(c => c[1]))] as const,
  }));
  const lines = (axis: 'x' | 'y', end: number) =>
    apart([0, end, ...boxes.flatMap(b => b[axis])].filter(v => v >= 0 && v <= end));
  const [xs, ys] = [lines('x', blank.width), lines('y', blank.height)];
  if (xs.length > MOST_LINES || ys.length > MOST_LINES) return [];
  const isWaste = (x: number, y: number) =>
    !boxes.some(b => x > b.x[0] && x < b.x[1] && y > b.y[0] && y < b.y[1]);

  const rows: Cell[][] = [];
  for (let j = 0; j + 1 < ys.length; j++) {
    const row: Cell[] = [];
    for (let i = 0; i + 1 < xs.length; i++) {
      const [x0, x1, y0, y1] = [xs[i]!, xs[i + 1]!, ys[j]!, ys[j + 1]!];
      if (!isWaste((x0 + x1) / 2, (y0 + y1) / 2)) continue;
      const last = row.at(-1);
      if (last && last.x[1] === x0) row[row.length - 1] = { ...last, x: [last.x[0], x1] };
      else row.push({ x: [x0, x1], y: [y0, y1] });
    }
    rows.push(row);
  }
  const out: Cell[] = [];
  for (const cell of rows.flat()) {
    const below = out.findIndex(
      c => c.x[0] === cell.x[0] && c.x[1] === cell.x[1] && c.y[1] === cell.y[0],
    );
    if (below >= 0) out[below] = { ...out[below]!, y: [out[below]!.y[0], cell.y[1]] };
    else out.push(cell);
  }
  return out.filter(c => wide(c.x) && wide(c.y));
}

/** A sliver goes with the trimming. */
const wide = ([from, to]: readonly [number, number]) => to - from >= LEAST_WIDTH_MM;

/** Sorted, each once. */
function apart(values: readonly number[]): number[] {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted.filter((v, i) => i === 0 || v - sorted[i - 1]! > SAME_POINT_MM);
}
