/** Lines of equal darkness, to a part of a pixel. */
import type { Point } from '../model.js';
import type { Darkness } from './darkness.js';

/**
 * Closed lines round all that is darker than `level`, in pixels (y down), ink on their left as they are
 * drawn on the sheet with y up. Marching squares (W. Lorensen and H. Cline, "Marching cubes", SIGGRAPH 1987,
 * in the plane); where four pixels meet crosswise, the lighter two are joined. What runs over the border is
 * closed along it.
 */
export function contoursOf({ width, height, data }: Darkness, level: number): Point[][] {
  // One pixel of paper all round closes every line.
  const at = (i: number, j: number) =>
    i < 0 || j < 0 || i >= width || j >= height ? 0 : data[j * width + i]!;
  // Edges of cells: 2 k is the upper edge of cell k, 2 k + 1 its left one.
  const stride = width + 2;
  const next = new Map<number, number>();
  for (let j = -1; j < height; j++) {
    for (let i = -1; i < width; i++) {
      const inner = i >= 0 && j >= 0 && i + 1 < width && j + 1 < height;
      const k = j * width + i;
      const a = inner ? data[k]! : at(i, j);
      const b = inner ? data[k + 1]! : at(i + 1, j);
      const d = inner ? data[k + width]! : at(i, j + 1);
      const c = inner ? data[k + width + 1]! : at(i + 1, j + 1);
      const kind =
        (a >= level ? 1 : 0) | (b >= level ? 2 : 0) | (c >= level ? 4 : 0) | (d >= level ? 8 : 0);
      if (kind === 0 || kind === 15) continue;
      const cell = (j + 1) * stride + (i + 1);
      const [top, left] = [2 * cell, 2 * cell + 1];
      const [low, right] = [2 * (cell + stride), 2 * (cell + 1) + 1];
      for (const [from, to] of TURNS[kind]!) {
        const edges = [top, right, low, left];
        next.set(edges[from]!, edges[to]!);
      }
    }
  }
  const place = (edge: number): Point => {
    const cell = edge >> 1;
    const [i, j] = [(cell % stride) - 1, Math.floor(cell / stride) - 1];
    const upright = edge & 1;
    const [p, q] = [at(i, j), upright ? at(i, j + 1) : at(i + 1, j)];
    const t = (level - p) / (q - p);
    // Pixels stand for their middles.
    return upright ? [i + 0.5, j + 0.5 + t] : [i + 0.5 + t, j + 0.5];
  };
  const loops: Point[][] = [];
  for (const first of next.keys()) {
    if (!next.has(first)) continue;
    const loop: Point[] = [];
    let edge: number | undefined = first;
    while (edge !== undefined && next.has(edge)) {
      loop.push(place(edge));
      const after: number = next.get(edge)!;
      next.delete(edge);
      edge = after;
    }
    if (loop.length > 3) loops.push(loop);
  }
  return loops;
}

/** By which corners are dark (upper left 1, upper right 2, lower right 4, lower left 8): from which edge to
 *  which (top 0, right 1, low 2, left 3) the line runs, the dark on its left with y up. */
const TURNS: readonly (readonly (readonly [number, number])[])[] = [
  [],
  [[3, 0]],
  [[0, 1]],
  [[3, 1]],
  [[1, 2]],
  [
    [3, 0],
    [1, 2],
  ],
  [[0, 2]],
  [[3, 2]],
  [[2, 3]],
  [[2, 0]],
  [
    [0, 1],
    [2, 3],
  ],
  [[2, 1]],
  [[1, 3]],
  [[1, 0]],
  [[0, 3]],
  [],
];
