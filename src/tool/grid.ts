/** Chords of one chain by the squares of a grid: which lie near a point. */

/** Who is told of each chord nearby, and how near the best is so far. */
interface Seer {
  readonly distance: number;
  see(j: number, x: number, y: number): void;
}

/** Squares for every chord, on average. */
const SQUARES_PER_CHORD = 2;
/** Squares that a chord runs through, on average at most: of long lines that lie dense there would be more
 *  than memory holds. */
const MOST_CROSSED = 32;

export class Grid {
  private readonly x0: number;
  private readonly y0: number;
  private readonly cell: number;
  private readonly columns: number;
  private readonly rows: number;
  /** Chords by square: `items` from `first[square]` until `first[square + 1]`. */
  private readonly first: Int32Array;
  readonly items: Int32Array;

  constructor(xy: Float64Array, n: number) {
    let [x0, y0, x1, y1] = [Infinity, Infinity, -Infinity, -Infinity];
    let total = 0;
    for (let i = 0; i < xy.length; i += 2) {
      const x = xy[i]!;
      const y = xy[i + 1]!;
      // The greater of both ways; NaN beside a break.
      const way = Math.max(Math.abs(x - xy[i - 2]!), Math.abs(y - xy[i - 1]!));
      if (way > 0) total += way;
      if (x < x0) x0 = x;
      if (x > x1) x1 = x;
      if (y < y0) y0 = y;
      if (y > y1) y1 = y;
    }
    this.x0 = x0;
    this.y0 = y0;
    const wide = x1 - x0;
    const high = y1 - y0;
    const squares = SQUARES_PER_CHORD * n;
    // Square cells; a chain that is almost a line gets a single row of them.
    const even = Math.max(Math.sqrt((wide * high) / squares), Math.max(wide, high) / squares);
    this.cell = Math.max(even, total / n / MOST_CROSSED) || 1;
    this.columns = Math.floor(wide / this.cell) + 1;
    this.rows = Math.floor(high / this.cell) + 1;
    const counts = new Int32Array(this.columns * this.rows + 1);
    this.visit(xy, n, square => counts[square + 1]!++);
    for (let i = 1; i < counts.length; i++) counts[i]! += counts[i - 1]!;
    this.first = counts;
    this.items = new Int32Array(counts.at(-1)!);
    const next = counts.slice();
    this.visit(xy, n, (square, j) => {
      this.items[next[square]!++] = j;
    });
  }

  /** Tells every square that a chord runs through, cut into pieces no longer than a square. */
  private visit(xy: Float64Array, n: number, tell: (square: number, j: number) => void): void {
    for (let j = 0; j < n; j++) {
      const ax = xy[2 * j]!;
      const ay = xy[2 * j + 1]!;
      const dx = xy[2 * j + 2]! - ax;
      const dy = xy[2 * j + 3]! - ay;
      const pieces = Math.ceil(Math.max(Math.abs(dx), Math.abs(dy)) / this.cell) || 1;
      // Beside a break (NaN) there is no chord.
      if (Number.isNaN(dx + dy)) continue;
      for (let k = 0; k < pieces; k++) {
        const c0 = this.column(ax + (dx * k) / pieces);
        const c1 = this.column(ax + (dx * (k + 1)) / pieces);
        const r0 = this.row(ay + (dy * k) / pieces);
        const r1 = this.row(ay + (dy * (k + 1)) / pieces);
        for (let r = Math.min(r0, r1); r <= Math.max(r0, r1); r++) {
          for (let c = Math.min(c0, c1); c <= Math.max(c0, c1); c++) tell(r * this.columns + c, j);
        }
      }
    }
  }

  private column(x: number): number {
    return Math.max(0, Math.min(this.columns - 1, Math.floor((x - this.x0) / this.cell)));
  }
  private row(y: number): number {
    return Math.max(0, Math.min(this.rows - 1, Math.floor((y - this.y0) / this.cell)));
  }

  /** Shows `seer` all chords that may lie within `reach` of a point: those of the squares it reaches
   *  where these are few, else ring by ring outwards until nothing nearer can come. */
  around(x: number, y: number, reach: number, seer: Seer): void {
    if (reach <= this.cell) {
      const c0 = this.column(x - reach);
      const c1 = this.column(x + reach);
      const r1 = this.row(y + reach);
      for (let r = this.row(y - reach); r <= r1; r++) {
        for (let c = c0; c <= c1; c++) this.show(r * this.columns + c, x, y, seer);
      }
      return;
    }
    const cx = this.column(x);
    const cy = this.row(y);
    const rings = Math.max(this.columns, this.rows);
    for (let ring = 0; ring <= rings; ring++) {
      if ((ring - 1) * this.cell > Math.min(reach, seer.distance)) return;
      for (let r = Math.max(0, cy - ring); r <= Math.min(this.rows - 1, cy + ring); r++) {
        // Whole rows at the top and bottom of the ring, between them only its two sides.
        const step = Math.abs(r - cy) === ring ? 1 : 2 * ring;
        for (let c = cx - ring; c <= cx + ring; c += step) {
          if (c >= 0 && c < this.columns) this.show(r * this.columns + c, x, y, seer);
        }
      }
    }
  }

  private show(square: number, x: number, y: number, seer: Seer): void {
    const end = this.first[square + 1]!;
    for (let i = this.first[square]!; i < end; i++) seer.see(this.items[i]!, x, y);
  }
}
