/**
 * Free space of one sheet as the set of all largest empty rectangles, which may overlap each other.
 * The method is "maximal rectangles": J. Jylänki, "A Thousand Ways to Pack the Bin", 2010,
 * section 2.3 (from memory). Nothing random: equal choices go to the lowest, then leftmost.
 */
import type { Bounds } from '../model.js';
import { SAME_POINT_MM } from '../units/tolerances.js';

/** How a free rectangle is chosen for a piece; each is best for some mix of pieces. */
export type Rule = 'short-side' | 'lowest' | 'leftmost' | 'area';
export const RULES: readonly Rule[] = ['short-side', 'lowest', 'leftmost', 'area'];

export interface Spot {
  readonly x: number;
  readonly y: number;
  readonly turned: boolean;
  /** Smaller is better, first number first. */
  readonly score: readonly [number, number, number, number];
}

export interface Footprint {
  readonly width: number;
  readonly height: number;
  /** May lie as it is; may lie turned by a quarter. */
  readonly straight: boolean;
  readonly turned: boolean;
}

export type FreeSpace = readonly Bounds[];

/** The space of `area` with `reserved` taken out of it. Empty when the area is. */
export function freeSpace(area: Bounds, reserved: readonly Bounds[]): FreeSpace {
  if (!(area.maxX > area.minX && area.maxY > area.minY)) return [];
  return reserved.reduce<FreeSpace>(without, [area]);
}

/** What is left when `used` is taken out: each free rectangle it cuts into gives up to four. */
export function without(free: FreeSpace, used: Bounds): FreeSpace {
  const kept: Bounds[] = [];
  const cut: Bounds[] = [];
  for (const f of free) {
    const apart =
      used.minX >= f.maxX - SAME_POINT_MM ||
      used.maxX <= f.minX + SAME_POINT_MM ||
      used.minY >= f.maxY - SAME_POINT_MM ||
      used.maxY <= f.minY + SAME_POINT_MM;
    if (apart) {
      kept.push(f);
      continue;
    }
    if (used.minX > f.minX + SAME_POINT_MM) cut.push({ ...f, maxX: used.minX });
    if (used.maxX < f.maxX - SAME_POINT_MM) cut.push({ ...f, minX: used.maxX });
    if (used.minY > f.minY + SAME_POINT_MM) cut.push({ ...f, maxY: used.minY });
    if (used.maxY < f.maxY - SAME_POINT_MM) cut.push({ ...f, minY: used.maxY });
  }
  // A part of an old rectangle can lie in a kept one or in another part, never the other way round.
  const parts = cut.filter(
    (part, i) =>
      !kept.some(k => inside(part, k)) &&
      !cut.some((other, j) => i !== j && inside(part, other) && (j < i || !inside(other, part))),
  );
  return [...kept, ...parts];
}

const inside = (a: Bounds, b: Bounds) =>
  a.minX >= b.minX && a.maxX <= b.maxX && a.minY >= b.minY && a.maxY <= b.maxY;

/** The best place for a footprint, or `undefined` when it fits nowhere. */
export function bestSpot(free: FreeSpace, piece: Footprint, rule: Rule): Spot | undefined {
  let best: Spot | undefined;
  for (const f of free) {
    for (const turned of [false, true]) {
      if (turned ? !piece.turned : !piece.straight) continue;
      const w = turned ? piece.height : piece.width;
      const h = turned ? piece.width : piece.height;
      const dx = f.maxX - f.minX - w;
      const dy = f.maxY - f.minY - h;
      if (!(dx >= -SAME_POINT_MM && dy >= -SAME_POINT_MM)) continue;
      const spot = { x: f.minX, y: f.minY, turned, score: score(rule, f, w, h) };
      if (!best || before(spot.score, best.score)) best = spot;
    }
  }
  return best;
}

function score(rule: Rule, f: Bounds, w: number, h: number): Spot['score'] {
  const dx = f.maxX - f.minX - w;
  const dy = f.maxY - f.minY - h;
  switch (rule) {
    case 'short-side':
      return [Math.min(dx, dy), Math.max(dx, dy), f.minY, f.minX];
    case 'lowest':
      return [f.minY + h, f.minX, Math.min(dx, dy), f.minY];
    case 'leftmost':
      return [f.minX + w, f.minY, Math.min(dx, dy), f.minX];
    case 'area':
      return [(dx + w) * (dy + h) - w * h, Math.min(dx, dy), f.minY, f.minX];
  }
}

/** Lexicographic; differences below the size of a point do not count, so that rounding cannot
 *  choose between two places that are equal. */
export function before(a: readonly number[], b: readonly number[]): boolean {
  for (let i = 0; i < a.length; i++) {
    const d = a[i]! - b[i]!;
    if (d < -SAME_POINT_MM) return true;
    if (d > SAME_POINT_MM) return false;
  }
  return false;
}
