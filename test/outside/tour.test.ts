/**
 * The order search on TSPLIB95 (Reinelt, ORSA Journal on Computing 3, 1991, 376–384), whose optima are
 * proven. The data lies beside the repository, in shared/data/tsp.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { Point } from '../../src/geom/index.js';
import { type Stop, shortTour } from '../../src/tool/tour.js';

interface Instance {
  readonly name: string;
  readonly optimum: number;
  readonly coords: readonly (readonly [number, number])[];
  readonly optimal_tour: readonly number[];
}
const read = (name: string): Instance =>
  JSON.parse(
    readFileSync(new URL(`../../../shared/data/tsp/${name}.json`, import.meta.url), 'utf8'),
  );

/** Length of a closed tour as TSPLIB counts it: every distance rounded to a whole number. */
function lengthOf(tour: readonly Point[]): number {
  let total = 0;
  tour.forEach((p, i) => {
    const q = tour.at(i - 1)!;
    total += Math.floor(Math.hypot(p[0] - q[0], p[1] - q[1]) + 0.5);
  });
  return total;
}

describe.each(['eil51', 'berlin52', 'st70', 'kroA100'])('%s', name => {
  const { coords, optimum, optimal_tour } = read(name);
  it('is measured as its authors measure it', () => {
    expect(lengthOf(optimal_tour.map(i => coords[i]!))).toBe(optimum);
  });
  it('is toured within 1 % of the optimum', () => {
    const [home, ...others] = coords;
    const stops = others.map((p): Stop => ({ entries: [{ start: p, end: p }] }));
    const visits = shortTour(stops, { from: home!, to: home! });
    const tour = [home!, ...visits.map(v => others[v.stop]!)];
    expect(new Set(tour).size).toBe(coords.length);
    const length = lengthOf(tour);
    expect(length).toBeGreaterThanOrEqual(optimum);
    expect(length).toBeLessThanOrEqual(optimum * 1.01);
  });
});
