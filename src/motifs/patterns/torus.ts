/** Points strewn over a tile that goes round: what leaves on the right comes in on the left. */
import type { Point } from '../../model.js';

export interface Tile {
  readonly width: number;
  readonly height: number;
}

/** The nearest way from one point to another on the tile. */
export function way(a: Point, b: Point, { width, height }: Tile): Point {
  const [x, y] = [b[0] - a[0], b[1] - a[1]];
  return [x - width * Math.round(x / width), y - height * Math.round(y / height)];
}

export const apart = (a: Point, b: Point, tile: Tile): number => Math.hypot(...way(a, b, tile));

const wrapped = (n: number, period: number) => {
  const rest = n - period * Math.floor(n / period);
  return rest < period ? rest : 0;
};

/** The point of the tile itself that a point stands for. */
export const onTile = ([x, y]: Point, { width, height }: Tile): Point => [
  wrapped(x, width),
  wrapped(y, height),
];

/** Points of a tile in square-like boxes, to find neighbours without asking all. */
export class Boxes {
  readonly columns: number;
  readonly rows: number;
  private readonly boxes: Point[][];
  constructor(
    readonly tile: Tile,
    side: number,
  ) {
    this.columns = Math.max(1, Math.floor(tile.width / side));
    this.rows = Math.max(1, Math.floor(tile.height / side));
    this.boxes = Array.from({ length: this.columns * this.rows }, () => []);
  }
  /** The shorter side of a box. */
  get side(): number {
    return Math.min(this.tile.width / this.columns, this.tile.height / this.rows);
  }
  private column = (x: number) =>
    Math.floor((wrapped(x, this.tile.width) / this.tile.width) * this.columns);
  private row = (y: number) =>
    Math.floor((wrapped(y, this.tile.height) / this.tile.height) * this.rows);

  add(point: Point): void {
    const p = onTile(point, this.tile);
    this.boxes[this.column(p[0]) + this.columns * this.row(p[1])]!.push(p);
  }

  /** Points of the boxes that are `ring` boxes away from the box of `p`, which lies on the tile: a
   *  point is met again a whole tile away, where the ring reaches so far. */
  ring(p: Point, ring: number): Point[] {
    const { columns, rows, tile } = this;
    const [c, r] = [this.column(p[0]), this.row(p[1])];
    const found: Point[] = [];
    for (let j = r - ring; j <= r + ring; j++) {
      const step = Math.abs(j - r) === ring ? 1 : Math.max(1, 2 * ring);
      for (let i = c - ring; i <= c + ring; i += step) {
        const [overX, overY] = [Math.floor(i / columns), Math.floor(j / rows)];
        const box = this.boxes[i - overX * columns + columns * (j - overY * rows)]!;
        for (const [x, y] of box) found.push([x + overX * tile.width, y + overY * tile.height]);
      }
    }
    return found;
  }

  /** Whether a point lies nearer to `p` than `radius`. */
  near(point: Point, radius: number): boolean {
    const p = onTile(point, this.tile);
    const far = Math.ceil(radius / this.side);
    for (let ring = 0; ring <= far; ring++) {
      if (this.ring(p, ring).some(q => Math.hypot(q[0] - p[0], q[1] - p[1]) < radius)) return true;
    }
    return false;
  }
}

/** Tries round a point before it is given up: Bridson's own figure. */
const TRIES = 30;

/**
 * Points at least `radius` apart: R. Bridson, "Fast Poisson disk sampling in arbitrary dimensions",
 * SIGGRAPH 2007 sketches. Near a point of the front up to 30 others are tried, from one to two radii
 * away; a point round which none fits leaves the front. Chance may leave a gap that one more would fit:
 * see `poissonDisc`.
 */
export function bridson(tile: Tile, radius: number, random: () => number): Point[] {
  const boxes = new Boxes(tile, radius / Math.SQRT2);
  const first: Point = [random() * tile.width, random() * tile.height];
  const points = [first];
  const front = [first];
  boxes.add(first);
  while (front.length > 0) {
    const index = Math.floor(random() * front.length);
    const [x, y] = front[index]!;
    let placed = false;
    for (let k = 0; k < TRIES && !placed; k++) {
      const turn = 2 * Math.PI * random();
      // Even by area over the ring from one radius to two.
      const far = radius * Math.sqrt(1 + 3 * random());
      const p = onTile([x + far * Math.cos(turn), y + far * Math.sin(turn)], tile);
      if (boxes.near(p, radius)) continue;
      points.push(p);
      front.push(p);
      boxes.add(p);
      placed = true;
    }
    if (!placed) {
      front[index] = front.at(-1)!;
      front.pop();
    }
  }
  return points;
}
