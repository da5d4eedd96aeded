/** Arrangements against published packings and tables. */
import { describe, expect, it } from 'vitest';
import { densestIn } from '../../src/fit/circles.js';
import { arrangementsFor, fullest } from '../../src/fit/index.js';
import { treat } from './treats.js';

/**
 * Side of the least square for n circles of diameter 1, proven optimal (Packomania; Szabó, Markót,
 * Csendes, Specht, Casado and García, New Approaches to Circle Packing in a Square, Springer 2007).
 */
const LEAST_SQUARE: Readonly<Record<number, number>> = {
  1: 1,
  2: 1.707106781,
  3: 1.965925826,
  4: 2,
  5: 2.414213562,
  6: 2.664100589,
  7: 2.866025404,
  8: 2.931851653,
  9: 3,
  10: 3.373720762,
  11: 3.511254752,
  12: 3.572478777,
  13: 3.731523914,
  14: 3.866025404,
  15: 3.931851653,
  16: 4,
  17: 4.266330174,
  18: 4.328201177,
  19: 4.45373047,
  20: 4.489041676,
  25: 5,
  30: 5.454284,
};
/** Straight rows, and the ones whose d has a closed form that two unequal sides of a rhombic grid
 *  give: √2, √2/2, √13/6, √34/15, √13/12. */
const OPTIMAL_IN_ROWS = [1, 2, 4, 5, 6, 9, 12, 16, 18, 25];
const NS = Object.keys(LEAST_SQUARE).map(Number);
const D = 40;

const disc = (count: number) =>
  treat({ kind: 'round', diameter: D, height: 10 }, count, { lie: 'flat' });

describe('rounds in a square', () => {
  const leastSide = (n: number) =>
    Math.min(
      ...arrangementsFor(disc(n), { layers: 1 }).map(a =>
        Math.max(a.inside.length, a.inside.width),
      ),
    );

  it.each(NS)('%i rounds never need less than the proven optimum', n => {
    // Given to 9 decimals: half of the last one, and our sums.
    expect(leastSide(n) / D).toBeGreaterThan(LEAST_SQUARE[n]! - 2e-6);
  });
  it.each(OPTIMAL_IN_ROWS)('%i rounds need just the optimum', n => {
    expect(leastSide(n) / D).toBeCloseTo(LEAST_SQUARE[n]!, 8);
  });
  it('the others need more, by less than a tenth', () => {
    for (const n of NS.filter(k => !OPTIMAL_IN_ROWS.includes(k)))
      expect(leastSide(n) / D / LEAST_SQUARE[n]!, `${n}`).toBeLessThan(1.1);
  });
  it('no square a hair under the optimum is said to hold so many', () => {
    for (const n of NS) {
      const side = (LEAST_SQUARE[n]! - 1e-5) * D;
      const { count } = fullest(disc(1), { length: side, width: side, height: 10 });
      expect(count, `${n} in ${side}`).toBeLessThan(n);
    }
  });
  it.each(OPTIMAL_IN_ROWS)('the optimum for %i is said to hold them', n => {
    const side = (LEAST_SQUARE[n]! + 1e-8) * D;
    expect(fullest(disc(1), { length: side, width: side, height: 10 }).count).toBe(n);
  });
  // The same table's worked example: 40 mm treats.
  it.each([
    [5, 96.5685],
    [12, 142.8992],
  ])('%i treats of 40 mm need a square of %f mm', (n, side) => {
    expect(leastSide(n)).toBeCloseTo(side, 3);
  });
});

/** Elementary: grid = ⌊W/D⌋·⌊H/D⌋; staggered rows = 1 + ⌊(H − D)/(D·√3/2)⌋, by turns ⌊W/D⌋ and
 *  ⌊(W − D/2)/D⌋ long. */
const ROWS = [
  { w: 8, h: 8, d: 1, grid: 64, along: 68, across: 68 },
  { w: 10, h: 10, d: 1, grid: 100, along: 105, across: 105 },
  { w: 7, h: 7, d: 1, grid: 49, along: 46, across: 46 },
  { w: 120, h: 80, d: 25, grid: 12, along: 12, across: 13 },
  { w: 100, h: 100, d: 32, grid: 9, along: 8, across: 8 },
  { w: 200, h: 140, d: 45, grid: 12, along: 11, across: 10 },
  { w: 152.4, h: 101.6, d: 38, grid: 8, along: 7, across: 8 },
];

describe('rounds in a rectangle', () => {
  it.each(ROWS)(
    '$w x $h, $d: tight rows as the formula counts them',
    ({ w, h, d, along, across }) => {
      expect([densestIn(w, h, d)?.total, densestIn(h, w, d)?.total]).toEqual([along, across]);
    },
  );
  it.each(ROWS)('$w x $h, $d: never fewer than the best of the three', row => {
    const { w, h, d } = row;
    const one = treat({ kind: 'round', diameter: d, height: d / 4 }, 1, { lie: 'flat' });
    const { count } = fullest(one, { length: w, width: h, height: d / 4 });
    expect(count).toBeGreaterThanOrEqual(Math.max(row.grid, row.along, row.across));
    // Groemer's bound for middles at least 1 apart in a convex area (Math. Z. 73, 1960; from
    // memory): N ≤ 2/√3·A + P/2 + 1.
    const [x, y] = [w / d - 1, h / d - 1];
    expect(count).toBeLessThanOrEqual(Math.floor((2 / Math.sqrt(3)) * x * y + (x + y) + 1));
  });
});

/** Blocks in a box: the counts of straight grids are floor products, the best of six; upper limits
 *  are by volume, or as published (de Bruijn, Amer. Math. Monthly 76, 1969, 37–40; 26 from memory). */
const BRICKS = [
  { brick: [30, 20, 10], box: [100, 60, 40], grid: 40, most: 40 },
  { brick: [49, 33, 24], box: [150, 100, 50], grid: 18, most: 19 },
  { brick: [32, 32, 32], box: [70, 70, 35], grid: 4, most: 5 },
  { brick: [1, 2, 4], box: [6, 6, 6], grid: 18, most: 26 },
  { brick: [1, 2, 4], box: [10, 10, 10], grid: 100, most: 124 },
  { brick: [1, 2, 4], box: [7, 7, 7], grid: 21, most: 41 },
  { brick: [1, 2, 2], box: [3, 3, 3], grid: 3, most: 6 },
  { brick: [1, 2, 3], box: [6, 5, 1], grid: 4, most: 5 },
] as const;

describe('blocks in a box', () => {
  const of = ([length, width, height]: readonly [number, number, number]) => ({
    length,
    width,
    height,
  });
  const gridOf = (brick: readonly number[], box: readonly number[]) => {
    const orders = [
      [0, 1, 2],
      [0, 2, 1],
      [1, 0, 2],
      [1, 2, 0],
      [2, 0, 1],
      [2, 1, 0],
    ];
    return Math.max(
      ...orders.map(o => o.reduce((n, i, k) => n * Math.floor(box[k]! / brick[i]!), 1)),
    );
  };
  it.each(BRICKS)('$brick in $box: at least the grid, never more than is possible', b => {
    const { count } = fullest(treat({ kind: 'block', ...of(b.brick) }), of(b.box));
    expect(gridOf(b.brick, b.box)).toBe(b.grid);
    expect(count).toBeGreaterThanOrEqual(b.grid);
    expect(count).toBeLessThanOrEqual(b.most);
  });
  it('mixed layers beat the grid where they can: five 1x2x3 in 1x5x6 (de Bruijn), 24 of 1x2x4 in 6x6x6', () => {
    const count = (b: (typeof BRICKS)[number]) =>
      fullest(treat({ kind: 'block', ...of(b.brick) }), of(b.box)).count;
    expect(count(BRICKS[7])).toBe(5);
    expect(count(BRICKS[3])).toBe(24);
  });
  it('a harmonic brick fills its multiples: 1x2x4 in 2x6x20 and 3x4x8 (de Bruijn)', () => {
    const brick = treat({ kind: 'block', length: 1, width: 2, height: 4 });
    expect(fullest(brick, { length: 2, width: 6, height: 20 }).count).toBe(30);
    expect(fullest(brick, { length: 8, width: 4, height: 3 }).count).toBe(12);
  });
});

describe('balls', () => {
  it('lie in hollows as tight as the face-centred lattice: rise d/√2 (Kepler)', () => {
    const ball = treat({ kind: 'ball', diameter: 20 }, 13);
    const nested = arrangementsFor(ball).filter(a => a.pattern === 'nested');
    const cube = nested.find(a => a.columns === 3 && a.rows === 3);
    expect(cube?.inside.height).toBeCloseTo(20 + 20 / Math.SQRT2, 9);
    // Eleven layers, of 25 and 16 by turns, where eight straight ones of 25 would stand.
    const high = { length: 100, width: 100, height: 20 + 10 * (20 / Math.SQRT2) };
    expect(fullest(ball, high).count).toBe(6 * 25 + 5 * 16);
  });
});

describe('lying rounds', () => {
  it('three sticks in a groove: the third rests on two, d·√3/2 above them', () => {
    const sticks = treat({ kind: 'stick', length: 120, diameter: 10 }, 3, { lie: 'flat' });
    const groove = arrangementsFor(sticks, { layers: 2 }).find(a => a.pattern === 'staggered');
    expect(groove?.inside).toMatchObject({ length: 120, width: 20 });
    expect(groove?.inside.height).toBeCloseTo(10 + 5 * Math.sqrt(3), 9);
  });
});
