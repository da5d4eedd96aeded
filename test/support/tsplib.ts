/**
 * TSPLIB95 (Reinelt, ORSA Journal on Computing 3, 1991, 376–384), whose optima are proven. The data lies
 * beside the repository, in shared/data/tsp, and is no part of it.
 */
import { existsSync, readFileSync } from 'node:fs';
import type { Point } from '../../src/geom/index.js';
import type { shortTour, TourOptions } from '../../src/tool/tour.js';

export const TSPLIB = ['eil51', 'berlin52', 'st70', 'kroA100'] as const;

export interface Instance {
  readonly name: string;
  readonly optimum: number;
  readonly coords: readonly Point[];
  readonly optimal_tour: readonly number[];
}

const fileOf = (name: string) => new URL(`../../../shared/data/tsp/${name}.json`, import.meta.url);

export const hasTsplib = (): boolean => TSPLIB.every(name => existsSync(fileOf(name)));

export const readTsplib = (name: string): Instance =>
  JSON.parse(readFileSync(fileOf(name), 'utf8')) as Instance;

/** Length of a closed tour as TSPLIB counts it: every distance rounded to a whole number. */
export function tsplibLength(tour: readonly Point[]): number {
  let total = 0;
  tour.forEach((p, i) => {
    const q = tour.at(i - 1)!;
    total += Math.floor(Math.hypot(p[0] - q[0], p[1] - q[1]) + 0.5);
  });
  return total;
}

/** Our round tour of an instance's places, from its first and back to it. */
export function tourOf(
  { coords }: Instance,
  search: typeof shortTour,
  options: Partial<TourOptions> = {},
): readonly Point[] {
  const [home, ...others] = coords;
  const stops = others.map(p => ({ entries: [{ start: p, end: p }] }));
  const visits = search(stops, { from: home!, to: home!, ...options });
  return [home!, ...visits.map(v => others[v.stop]!)];
}
