/** Lines as short straight pieces that can be looked up by where they are. */
import Flatbush from 'flatbush';
import type { Path } from '../geom/index.js';
import { chordsOf } from './chords.js';

/** No piece is longer than this, so that a place is told and not a line, mm; unless there would be more
 *  than so many. */
const PIECE_MM = 1;
const MOST_PIECES = 200_000;

export type Piece = readonly [x0: number, y0: number, x1: number, y1: number];

export class Pieces {
  readonly count: number;
  /** The longest that a piece may be, mm. */
  readonly longest: number;
  /** Length of each path, mm. */
  readonly lengths: readonly number[];
  /** x0, y0, x1, y1 of each. */
  private readonly xy: number[] = [];
  /** The path of each piece, and how far along it the piece begins. */
  private readonly owner: number[] = [];
  private readonly begins: number[] = [];

  /** Curves within `tolerance`, mm. */
  constructor(paths: readonly Path[], tolerance: number) {
    const chains = paths.map(path => chordsOf(path, tolerance));
    const total = chains.reduce((sum, c) => sum + lengthOf(c), 0);
    this.longest = Math.max(PIECE_MM, total / MOST_PIECES);
    this.lengths = chains.map((c, i) => this.take(c, i));
    this.count = this.owner.length;
  }

  at(i: number): Piece {
    const { xy } = this;
    return [xy[4 * i]!, xy[4 * i + 1]!, xy[4 * i + 2]!, xy[4 * i + 3]!];
  }
  path(i: number): number {
    return this.owner[i]!;
  }
  along(i: number): number {
    return this.begins[i]!;
  }

  /** `undefined` where there are none. */
  index(): Flatbush | undefined {
    if (this.count === 0) return undefined;
    const index = new Flatbush(this.count);
    for (let i = 0; i < this.count; i++) {
      const [x0, y0, x1, y1] = this.at(i);
      index.add(Math.min(x0, x1), Math.min(y0, y1), Math.max(x0, x1), Math.max(y0, y1));
    }
    index.finish();
    return index;
  }

  private take(c: Float64Array, path: number): number {
    let along = 0;
    for (let i = 2; i < c.length; i += 2) {
      const [x0, y0, dx, dy] = [c[i - 2]!, c[i - 1]!, c[i]! - c[i - 2]!, c[i + 1]! - c[i - 1]!];
      const length = Math.hypot(dx, dy);
      if (!(length > 0 && length < Number.POSITIVE_INFINITY)) continue;
      const n = Math.ceil(length / this.longest);
      for (let k = 0; k < n; k++) {
        const [a, b] = [k / n, (k + 1) / n];
        this.xy.push(x0 + a * dx, y0 + a * dy, x0 + b * dx, y0 + b * dy);
        this.owner.push(path);
        this.begins.push(along + a * length);
      }
      along += length;
    }
    return along;
  }
}

function lengthOf(c: Float64Array): number {
  let sum = 0;
  for (let i = 2; i < c.length; i += 2) {
    const length = Math.hypot(c[i]! - c[i - 2]!, c[i + 1]! - c[i - 1]!);
    if (length < Number.POSITIVE_INFINITY) sum += length;
  }
  return sum;
}
