/** The order search on instances whose optima are proven. */
import { describe, expect, it } from 'vitest';
import { shortTour } from '../../src/tool/tour.js';
import { readTsplib, TSPLIB, tourOf, tsplibLength } from '../support/tsplib.js';

describe.each(TSPLIB)('%s', name => {
  const instance = readTsplib(name);
  const { coords, optimum, optimal_tour } = instance;
  it('is measured as its authors measure it', () => {
    expect(tsplibLength(optimal_tour.map(i => coords[i]!))).toBe(optimum);
  });
  it('is toured within 1 % of the optimum', () => {
    const tour = tourOf(instance, shortTour);
    expect(new Set(tour).size).toBe(coords.length);
    const length = tsplibLength(tour);
    expect(length).toBeGreaterThanOrEqual(optimum);
    expect(length).toBeLessThanOrEqual(optimum * 1.01);
  });
});
