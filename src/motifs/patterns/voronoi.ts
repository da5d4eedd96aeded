/** Voronoi cells on a tile that goes round, and point sets that leave no gap. */
import type { Point } from '../../model.js';
import { SAME_POINT_MM } from '../../units/tolerances.js';
import { Boxes, bridson, onTile, type Tile } from './torus.js';

/** The part of a convex polygon that is at least as near to `a` as to `b`. */
function nearerTo(polygon: readonly Point[], a: Point, b: Point): Point[] {
  const [nx, ny] = [b[0] - a[0], b[1] - a[1]];
  const level = (nx * (a[0] + b[0]) + ny * (a[1] + b[1])) / 2;
  const side = (p: Point) => nx * p[0] + ny * p[1] - level;
  const kept: Point[] = [];
  for (let i = 0; i < polygon.length; i++) {
    const [p, q] = [polygon[i]!, polygon[(i + 1) % polygon.length]!];
    const [s, t] = [side(p), side(q)];
    if (s <= 0) kept.push(p);
    if ((s < 0 && t > 0) || (s > 0 && t < 0)) {
      const k = s / (s - t);
      kept.push([p[0] + (q[0] - p[0]) * k, p[1] + (q[1] - p[1]) * k]);
    }
  }
  return kept;
}

/**
 * The cell of each site: all that is nearer to it than to any other, counter-clockwise and as it lies about
 * the site. Sites lie on the tile; their images a tile away count as sites. A cell is cut by neighbours in
 * rings of boxes, until none farther out can reach it: a site cuts only what is more than half its distance
 * away.
 */
export function voronoiCells(sites: readonly Point[], tile: Tile): Point[][] {
  const boxes = new Boxes(tile, Math.sqrt((tile.width * tile.height) / Math.max(sites.length, 1)));
  for (const p of sites) boxes.add(p);
  return sites.map(site => {
    // A site's own images bound its cell to half a tile on every side.
    const [w, h] = [tile.width / 2, tile.height / 2];
    let cell: Point[] = [
      [site[0] - w, site[1] - h],
      [site[0] + w, site[1] - h],
      [site[0] + w, site[1] + h],
      [site[0] - w, site[1] + h],
    ];
    const far = () => Math.max(...cell.map(p => Math.hypot(p[0] - site[0], p[1] - site[1])));
    for (let ring = 0; ring === 0 || (ring - 1) * boxes.side < 2 * far(); ring++) {
      for (const other of boxes.ring(site, ring)) {
        if (other[0] !== site[0] || other[1] !== site[1]) cell = nearerTo(cell, site, other);
      }
    }
    return withoutTwins(cell);
  });
}

/** Four sites on one circle leave corners that lie on each other. */
const withoutTwins = (cell: readonly Point[]): Point[] =>
  cell.filter((p, i) => {
    const q = cell[(i + 1) % cell.length]!;
    return Math.hypot(p[0] - q[0], p[1] - q[1]) > SAME_POINT_MM;
  });

/** More rounds are never needed: each leaves far fewer gaps than the one before. */
const MOST_ROUNDS = 40;

/**
 * Points at least `radius` apart with no room for one more: Bridson's, and then a point at every corner
 * of a Voronoi cell that is farther off than the radius. The points that are farthest from all sites are
 * such corners, so when none is left there is no gap.
 */
export function poissonDisc(tile: Tile, radius: number, random: () => number): Point[] {
  const points = bridson(tile, radius, random);
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const boxes = new Boxes(tile, radius / Math.SQRT2);
    for (const p of points) boxes.add(p);
    const before = points.length;
    const cells = voronoiCells(points, tile);
    for (const [i, cell] of cells.entries()) {
      const site = points[i]!;
      for (const p of cell) {
        if (Math.hypot(p[0] - site[0], p[1] - site[1]) < radius || boxes.near(p, radius)) continue;
        const q = onTile(p, tile);
        points.push(q);
        boxes.add(q);
      }
    }
    if (points.length === before) break;
  }
  return points;
}
