/**
 * True shapes on a grid. A silhouette is the set of cells that a piece touches, grown by half of the
 * space between pieces; always a little too much and never too little, so that silhouettes which
 * share no cell belong to pieces that keep their distance.
 */
import { flatten } from '../geom/index.js';
import type { Bounds, Path, Point } from '../model.js';

/** Half of a cell's diagonal, in cells. */
const HALF_DIAGONAL = Math.SQRT1_2;
/** Cells that a silhouette may reach past the exact bounds it is aligned to. */
const RIM = 2;

export interface Silhouette {
  /** From each row's start to the first cell after each run: [from, to, from, to …], by rows upward.
   *  Cells count from the piece's lower left corner; rows start at `firstRow`. */
  readonly rows: readonly Int32Array[];
  readonly firstRow: number;
}

/** A closed outline and how far its cells reach past it, mm. */
export interface Grown {
  readonly outline: Path;
  readonly by: number;
}

/** The cells of an outline; `box` is its exact grown bounds, whose lower left corner is the corner of
 *  cell (0, 0). */
export function silhouette({ outline, by }: Grown, box: Bounds, cell: number): Silhouette {
  const width = Math.ceil((box.maxX - box.minX) / cell) + 2 * RIM;
  const height = Math.ceil((box.maxY - box.minY) / cell) + 2 * RIM;
  const filled = new Uint8Array(width * height);
  const flat = cell / 20;
  const points = flatten(outline, flat).map(
    ([x, y]): Point => [(x - box.minX) / cell, (y - box.minY) / cell],
  );
  fillInside(points, filled, width, height);
  fillNear(points, (by + flat) / cell + HALF_DIAGONAL, filled, width, height);
  const rows = Array.from({ length: height }, (_, row) => runs(filled, row * width, width));
  return { rows, firstRow: -RIM };
}

/** Cells whose middle is inside, by the even-odd rule along each row. */
function fillInside(points: readonly Point[], filled: Uint8Array, width: number, height: number) {
  for (let row = 0; row < height; row++) {
    const y = row - RIM + 0.5;
    const crossings: number[] = [];
    for (const [i, [x0, y0]] of points.entries()) {
      const [x1, y1] = points[(i + 1) % points.length]!;
      if (y0 <= y !== y1 <= y) crossings.push(x0 + ((y - y0) / (y1 - y0)) * (x1 - x0));
    }
    crossings.sort((a, b) => a - b);
    for (let k = 0; k + 1 < crossings.length; k += 2) {
      const from = Math.max(0, Math.ceil(crossings[k]! - 0.5) + RIM);
      const to = Math.min(width, Math.floor(crossings[k + 1]! - 0.5) + 1 + RIM);
      if (to > from) filled.fill(1, row * width + from, row * width + to);
    }
  }
}

/** Cells whose middle is within `reach` (in cells) of an edge. */
function fillNear(
  points: readonly Point[],
  reach: number,
  filled: Uint8Array,
  width: number,
  height: number,
) {
  const first = (a: number, b: number) => Math.max(0, Math.floor(Math.min(a, b) - reach) + RIM);
  const last = (a: number, b: number, n: number) =>
    Math.min(n - 1, Math.ceil(Math.max(a, b) + reach) + RIM);
  for (const [i, [x0, y0]] of points.entries()) {
    const [x1, y1] = points[(i + 1) % points.length]!;
    const dx = x1 - x0;
    const dy = y1 - y0;
    const l2 = dx * dx + dy * dy;
    for (let row = first(y0, y1); row <= last(y0, y1, height); row++) {
      const py = row - RIM + 0.5 - y0;
      for (let column = first(x0, x1); column <= last(x0, x1, width); column++) {
        const px = column - RIM + 0.5 - x0;
        const t = l2 > 0 ? Math.min(1, Math.max(0, (px * dx + py * dy) / l2)) : 0;
        const ex = px - t * dx;
        const ey = py - t * dy;
        if (ex * ex + ey * ey <= reach * reach) filled[row * width + column] = 1;
      }
    }
  }
}

function runs(filled: Uint8Array, start: number, width: number): Int32Array {
  const ends: number[] = [];
  for (let i = 0; i <= width; i++) {
    const now = i < width && filled[start + i] === 1;
    const before = i > 0 && filled[start + i - 1] === 1;
    if (now !== before) ends.push(i - RIM);
  }
  return Int32Array.from(ends);
}

/** The taken cells of one sheet, one bit a cell. */
export class Grid {
  readonly #words: number;
  readonly #bits: Uint32Array;

  constructor(
    /** Columns and rows that a piece's exact bounds may lie in; the rim past them is free. */
    readonly columns: number,
    readonly rows: number,
  ) {
    this.#words = Math.ceil((columns + 2 * RIM) / 32) + 1;
    this.#bits = new Uint32Array(this.#words * (rows + 2 * RIM));
  }

  copy(): Grid {
    const grid = new Grid(this.columns, this.rows);
    grid.#bits.set(this.#bits);
    return grid;
  }

  take(shape: Silhouette, x: number, y: number) {
    for (const [i, row] of shape.rows.entries()) {
      const at = (y + i + shape.firstRow + RIM) * this.#words;
      for (let k = 0; k < row.length; k += 2) {
        const to = row[k + 1]! + x + RIM;
        let c = row[k]! + x + RIM;
        while (c < to) {
          // As many as lie in this word.
          const n = Math.min(32 - (c & 31), to - c);
          this.#bits[at + (c >>> 5)]! |= n === 32 ? -1 : ((1 << n) - 1) << (c & 31);
          c += n;
        }
      }
    }
  }

  /** The first column from `x` on where the shape fits at row `y`, its columns up to `lastX`;
   *  −1 when there is none. Jumps past whatever is in the way. */
  firstFit(shape: Silhouette, x: number, y: number, lastX: number): number {
    let at = x;
    search: while (at <= lastX) {
      for (const [i, row] of shape.rows.entries()) {
        const start = (y + i + shape.firstRow + RIM) * this.#words;
        for (let k = 0; k < row.length; k += 2) {
          const taken = this.#lastTaken(start, row[k]! + at + RIM, row[k + 1]! + at + RIM);
          if (taken < 0) continue;
          at = taken - RIM - row[k]! + 1;
          continue search;
        }
      }
      return at;
    }
    return -1;
  }

  /** The last taken column in [from, to), −1 when all are free. */
  #lastTaken(start: number, from: number, to: number): number {
    for (let word = (to - 1) >>> 5; word >= from >>> 5; word--) {
      let bits = this.#bits[start + word]!;
      if (word === (to - 1) >>> 5) bits &= 0xffffffff >>> (31 - ((to - 1) & 31));
      if (word === from >>> 5) bits &= 0xffffffff << (from & 31);
      if (bits !== 0) return word * 32 + 31 - Math.clz32(bits);
    }
    return -1;
  }
}
