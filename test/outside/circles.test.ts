/**
 * Rounds in a square against the proven optimum of every count up to 30 (Packomania; Szabó et al., New
 * Approaches to Circle Packing in a Square, Springer 2007). The data lies beside the repository, in
 * shared/data/circles.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { arrangementsFor, fullest } from '../../src/fit/index.js';
import { treat } from '../fit/treats.js';

interface Packing {
  readonly n: number;
  readonly radius: number;
}
const { radii } = JSON.parse(
  readFileSync(new URL('../../../shared/data/circles/square.json', import.meta.url), 'utf8'),
) as { readonly radii: readonly Packing[] };

const D = 30;
const disc = (count: number) =>
  treat({ kind: 'round', diameter: D, height: 10 }, count, { lie: 'flat' });
const sideOf = ({ radius }: Packing) => D / (2 * radius);

describe('rounds in a square', () => {
  it('the table has every count from 1 to 30', () => {
    expect(radii.map(r => r.n)).toEqual(Array.from({ length: 30 }, (_, i) => i + 1));
  });
  it.each(radii)('$n: no arrangement needs less than the optimum', packing => {
    const sides = arrangementsFor(disc(packing.n), { layers: 1 }).map(a =>
      Math.max(a.inside.length, a.inside.width),
    );
    expect(Math.min(...sides)).toBeGreaterThan(sideOf(packing) * (1 - 1e-9));
  });
  it.each(radii)('$n: a square a hair smaller is never said to hold them', packing => {
    const side = sideOf(packing) - 1e-5;
    expect(fullest(disc(1), { length: side, width: side, height: 10 }).count).toBeLessThan(
      packing.n,
    );
  });
  it('straight and staggered rows reach the optimum for eleven of the counts', () => {
    const reached = radii.filter(packing => {
      const side = sideOf(packing) + 1e-6;
      return fullest(disc(1), { length: side, width: side, height: 10 }).count >= packing.n;
    });
    expect(reached.map(r => r.n)).toEqual([1, 2, 4, 5, 6, 9, 12, 16, 18, 25, 27]);
  });
});
