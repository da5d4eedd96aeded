/** Papers of broken and rounded stones: terrazzo and cells. */
import { definePattern } from '../../contracts.js';
import { closedSpline, polar, polygon, roundedPolygon, signedArea } from '../../geom/index.js';
import type { Path, Point } from '../../model.js';
import { ParamError } from '../../params.js';
import { between, pick } from '../random.js';
import { coats } from './fills.js';
import { inkOf, tintOf } from './inks.js';
import { type Painted, type Repeat, shapeOf, startIn, tiled } from './repeats.js';
import { apart, onTile, type Tile } from './torus.js';
import { poissonDisc, voronoiCells } from './voronoi.js';

const squareRepeat = ({ width, height }: Tile): Repeat => [
  [width, 0],
  [0, height],
];

/** A chip: a convex, angular polygon inside a circle, longer than wide. Corners lie on an ellipse, so
 *  none turns in. */
function chip(at: Point, radius: number, random: () => number): Path {
  const corners = 4 + Math.floor(random() * 3);
  const slim = between(0.52, 0.9, random);
  const turn = 2 * Math.PI * random();
  const points = Array.from({ length: corners }, (_, i): Point => {
    const angle = ((i + between(-0.3, 0.3, random)) * 2 * Math.PI) / corners;
    const [x, y] = polar(radius, angle);
    const [u, v] = [x, y * slim];
    return [
      at[0] + u * Math.cos(turn) - v * Math.sin(turn),
      at[1] + u * Math.sin(turn) + v * Math.cos(turn),
    ];
  });
  return polygon(points);
}

interface Disc {
  readonly at: Point;
  readonly radius: number;
}

/** Sizes of chips, as shares of the largest, and how many of each are strewn for every large one. */
const CLASSES = [
  { size: 1, share: 1 },
  { size: 0.62, share: 2.2 },
  { size: 0.36, share: 5 },
  { size: 0.17, share: 12 },
] as const;
/** Throws before a class is taken to be full. */
const THROWS = 25;

/** Discs thrown one class after another, that do not come nearer to each other than `gap`. */
function strewn(tile: Tile, largest: number, gap: number, amount: number, random: () => number) {
  const discs: Disc[] = [];
  // As many large ones as would cover a third of the tile.
  const large = ((tile.width * tile.height) / (Math.PI * largest * largest)) * 0.3 * amount;
  for (const { size, share } of CLASSES) {
    const count = Math.round(large * share);
    for (let n = 0; n < count; n++) {
      const radius = largest * size * between(0.75, 1, random);
      for (let k = 0; k < THROWS; k++) {
        const at: Point = [random() * tile.width, random() * tile.height];
        if (discs.some(d => apart(d.at, at, tile) < d.radius + radius + gap)) continue;
        discs.push({ at, radius });
        break;
      }
    }
  }
  return discs;
}

/** Largest chips along the side of a tile. */
const ACROSS = 9;
const terrazzoTile = (size: number): Tile => ({ width: ACROSS * size, height: ACROSS * size });

export const terrazzo = definePattern({
  id: 'terrazzo',
  summary: 'chips of stone of all sizes, in all inks, strewn over the ground',
  params: {
    size: { kind: 'length', default: 13, least: 3, most: 60, help: 'of the largest chips' },
    amount: {
      kind: 'number',
      default: 0.8,
      least: 0.1,
      most: 1,
      help: 'how thickly they are strewn',
    },
  },
  repeat: ({ size }) => squareRepeat(terrazzoTile(size)),
  build({ size, amount }, area, palette, random) {
    const tile = terrazzoTile(size);
    const repeat = squareRepeat(tile);
    const start = startIn(repeat, random);
    const inks = palette.length - 1;
    const chips = strewn(tile, size / 2, size * 0.03, amount, random).map(
      ({ at, radius }): Painted => {
        const ink = Math.floor(random() * inks);
        const colour = random() < 0.28 ? tintOf(palette, ink, 0.5) : inkOf(palette, ink);
        return [colour, shapeOf(chip(at, radius, random))];
      },
    );
    return coats(area, 0, () => [tiled(chips, repeat, start, area)]);
  },
});

/** A convex polygon moved in by `by` at every side; nothing where none of it is left. */
function inset(cell: readonly Point[], by: number): Point[] | undefined {
  let rest = [...cell];
  for (let i = 0; i < cell.length; i++) {
    const [p, q] = [cell[i]!, cell[(i + 1) % cell.length]!];
    const length = Math.hypot(q[0] - p[0], q[1] - p[1]);
    const [nx, ny] = [-(q[1] - p[1]) / length, (q[0] - p[0]) / length];
    const side = (r: Point) => nx * (r[0] - p[0]) + ny * (r[1] - p[1]) - by;
    const kept: Point[] = [];
    for (let k = 0; k < rest.length; k++) {
      const [a, b] = [rest[k]!, rest[(k + 1) % rest.length]!];
      const [s, t] = [side(a), side(b)];
      if (s >= 0) kept.push(a);
      if ((s > 0 && t < 0) || (s < 0 && t > 0)) {
        const f = s / (s - t);
        kept.push([a[0] + (b[0] - a[0]) * f, a[1] + (b[1] - a[1]) * f]);
      }
    }
    rest = kept;
  }
  return rest.length >= 3 ? rest : undefined;
}

/** A pebble: smooth through the middles of a cell's sides, which keeps it inside the cell. */
function pebble(cell: readonly Point[]): Path {
  const middles = cell.map((p, i): Point => {
    const q = cell[(i + 1) % cell.length]!;
    return [(p[0] + q[0]) / 2, (p[1] + q[1]) / 2];
  });
  return closedSpline(
    middles.map((point, i) => {
      const [p, q] = [cell[i]!, cell[(i + 1) % cell.length]!];
      return { point, into: [q[0] - p[0], q[1] - p[1]], out: [q[0] - p[0], q[1] - p[1]] };
    }),
  );
}

/** Sharp corners, each rounded as far as its sides allow. */
function softened(cell: readonly Point[], radius: number): Path {
  const n = cell.length;
  const radii = cell.map((p, i) => {
    const [a, b] = [cell[(i + n - 1) % n]!, cell[(i + 1) % n]!];
    const [ax, ay] = [p[0] - a[0], p[1] - a[1]];
    const [bx, by] = [b[0] - p[0], b[1] - p[1]];
    const turn = Math.atan2(ax * by - ay * bx, ax * bx + ay * by);
    const room = 0.45 * Math.min(Math.hypot(ax, ay), Math.hypot(bx, by));
    return Math.min(radius, room / Math.tan(Math.abs(turn) / 2));
  });
  return roundedPolygon(cell, radii);
}

/** The middle of a polygon's area, by the shoelace formula. */
function centroid(cell: readonly Point[]): Point {
  let [twice, x, y] = [0, 0, 0];
  for (const [i, p] of cell.entries()) {
    const q = cell[(i + 1) % cell.length]!;
    const c = p[0] * q[1] - q[0] * p[1];
    twice += c;
    x += c * (p[0] + q[0]);
    y += c * (p[1] + q[1]);
  }
  return [x / (3 * twice), y / (3 * twice)];
}

const cellsTile = (size: number): Tile => ({ width: 10 * size, height: 10 * size });

export const cells = definePattern({
  id: 'cells',
  summary: 'irregular cells side by side: pebbles, cracked glaze, a stained window',
  params: {
    size: { kind: 'length', default: 14, least: 4, most: 80, help: 'of a middling cell' },
    gap: { kind: 'length', default: 1.6, least: 0.2, most: 15, help: 'ground between two cells' },
    shape: {
      kind: 'choice',
      default: 'pebble',
      choices: ['pebble', 'pane'],
      help: 'round pebbles, or panes with straight sides',
    },
  },
  repeat: ({ size }) => squareRepeat(cellsTile(size)),
  build({ size, gap, shape }, area, palette, random) {
    if (!(gap <= size * 0.4)) {
      throw new ParamError(
        'gap',
        gap,
        `at most ${(size * 0.4).toFixed(2)} mm between cells of ${size} mm`,
        'make the gap narrower or the cells larger',
      );
    }
    const tile = cellsTile(size);
    const repeat = squareRepeat(tile);
    const start = startIn(repeat, random);
    const shades = palette
      .slice(1)
      .flatMap((_, ink) => [1, 0.72, 0.45].map(share => [ink, share] as const));
    // Moved once to the middles of their cells (Lloyd's step), which rounds the cells.
    const thrown = poissonDisc(tile, size * 0.8, random);
    const sites = voronoiCells(thrown, tile).map(cell => onTile(centroid(cell), tile));
    const stones = voronoiCells(sites, tile).flatMap((cell): Painted[] => {
      const [ink, share] = pick(shades, random);
      const rest = inset(cell, gap / 2);
      if (!rest) return [];
      const outline = shape === 'pebble' ? pebble(rest) : softened(rest, size * 0.06);
      return signedArea(outline) > 0 ? [[tintOf(palette, ink, share), shapeOf(outline)]] : [];
    });
    return coats(area, 0, () => [tiled(stones, repeat, start, area)]);
  },
});
