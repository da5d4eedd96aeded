/** Points strewn evenly, and Voronoi cells, against their definitions and published bounds. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Point } from '../../src/model.js';
import { apart, bridson, type Tile } from '../../src/motifs/patterns/torus.js';
import { poissonDisc, voronoiCells } from '../../src/motifs/patterns/voronoi.js';
import { seeded } from '../../src/motifs/random.js';

const SEED = 41;

/** The least distance of two points of a set, counting their images a tile away. */
function closest(points: readonly Point[], tile: Tile): number {
  let least = Number.POSITIVE_INFINITY;
  for (const [i, p] of points.entries())
    for (const q of points.slice(i + 1)) least = Math.min(least, apart(p, q, tile));
  return least;
}
/** How far the emptiest place of a fine grid is from its nearest point. */
function emptiest(points: readonly Point[], tile: Tile, step: number): number {
  let most = 0;
  for (let x = 0; x < tile.width; x += step) {
    for (let y = 0; y < tile.height; y += step) {
      most = Math.max(most, Math.min(...points.map(p => apart(p, [x, y], tile))));
    }
  }
  return most;
}

describe('points strewn evenly', () => {
  it.each([1, 2, 3, 4, 5, 6])('keep apart and leave no gap (seed %i)', seed => {
    const tile = { width: 90 + seed, height: 60 };
    const radius = 5 + seed;
    const points = poissonDisc(tile, radius, seeded(seed));
    expect(closest(points, tile)).toBeGreaterThanOrEqual(radius - 1e-9);
    expect(emptiest(points, tile, radius / 12)).toBeLessThan(radius);
    // Between the thinnest covering by discs of the radius (R. Kershner, "The number of circles covering
    // a set", Amer. J. Math. 61, 1939) and the densest packing of discs of half of it (A. Thue, 1910).
    const area = tile.width * tile.height;
    expect(points.length).toBeGreaterThanOrEqual((2 * area) / (3 * Math.sqrt(3) * radius ** 2));
    expect(points.length).toBeLessThanOrEqual((2 * area) / (Math.sqrt(3) * radius ** 2));
  });

  it('Bridson alone keeps apart; the measures see a set that does neither', () => {
    const tile = { width: 80, height: 80 };
    const points = bridson(tile, 6, seeded(3));
    expect(closest(points, tile)).toBeGreaterThanOrEqual(6 - 1e-9);
    const fewer = points.slice(1);
    expect(emptiest(fewer, tile, 0.5)).toBeGreaterThan(6 - 0.5);
    expect(closest([...points, [points[0]![0] + 1, points[0]![1]]], tile)).toBeCloseTo(1, 9);
  });

  it('stay on a tile that holds but one or two', () => {
    const tile = { width: 10, height: 10 };
    expect(poissonDisc(tile, 9, seeded(1)).length).toBeGreaterThanOrEqual(1);
  });
});

describe('Voronoi cells', () => {
  const tile: Tile = { width: 70, height: 50 };
  const sites = fc
    .array(fc.tuple(fc.integer({ min: 0, max: 6999 }), fc.integer({ min: 0, max: 4999 })), {
      minLength: 4,
      maxLength: 60,
    })
    .map(list => [...new Map(list.map(p => [p.join(), p])).values()])
    .map(list => list.map(([x, y]): Point => [x / 100, y / 100]));
  const area = (cell: readonly Point[]) =>
    cell.reduce((sum, p, i) => {
      const q = cell[(i + 1) % cell.length]!;
      return sum + (p[0] * q[1] - q[0] * p[1]) / 2;
    }, 0);
  /** How far inside a convex cell a point lies; negative outside. */
  const depth = (cell: readonly Point[], p: Point) =>
    Math.min(
      ...cell.map((a, i) => {
        const b = cell[(i + 1) % cell.length]!;
        const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
        return (dx * (p[1] - a[1]) - dy * (p[0] - a[0])) / Math.hypot(dx, dy);
      }),
    );

  it('hold the points that are nearest to their site, and fill the tile', () => {
    fc.assert(
      fc.property(sites, fc.integer({ min: 1, max: 1e6 }), (all, seed) => {
        const cells = voronoiCells(all, tile);
        const sum = cells.reduce((s, c) => s + area(c), 0);
        expect(sum).toBeCloseTo(tile.width * tile.height, 6);
        const random = seeded(seed);
        for (let k = 0; k < 20; k++) {
          const p: Point = [random() * tile.width, random() * tile.height];
          const far = all.map(site => apart(site, p, tile));
          const nearest = far.indexOf(Math.min(...far));
          const images = [-1, 0, 1].flatMap(i =>
            [-1, 0, 1].map((j): Point => [p[0] + i * tile.width, p[1] + j * tile.height]),
          );
          const inside = Math.max(...images.map(q => depth(cells[nearest]!, q)));
          expect(inside).toBeGreaterThan(-1e-7);
        }
      }),
      { seed: SEED, numRuns: 60 },
    );
  });

  it('have six sides on the average: V − E + F = 0 on a torus, three sides to a corner', () => {
    const random = seeded(12);
    const many = Array.from({ length: 200 }, (): Point => [70 * random(), 50 * random()]);
    const sides = voronoiCells(many, tile).reduce((sum, c) => sum + c.length, 0);
    expect(sides).toBe(6 * many.length);
  });

  it('of a square lattice are its squares', () => {
    const square = { width: 40, height: 40 };
    const lattice = [0, 1, 2, 3].flatMap(i => [0, 1, 2, 3].map((j): Point => [10 * i, 10 * j]));
    for (const cell of voronoiCells(lattice, square)) expect(area(cell)).toBeCloseTo(100, 6);
  });
});
