/** A beam burns away a band as wide as its kerf: it is driven half of that off the line, in the waste. */
import { offsetRegions, outward, type Path } from '../geom/index.js';
import { holders } from './nesting.js';

export interface Kerfed {
  readonly driven: readonly Path[];
  /** Cut-outs narrower than the kerf, which the beam cannot enter. */
  readonly lost: number;
}

/**
 * The beam's paths for cut lines, mm. Outlines are driven outside, the cut-outs in them inside, and so
 * on inward: what a contour lies in tells which it is. Open lines are driven as they are. A cut-out
 * with a neck narrower than the kerf comes out in parts. Throws `RangeError` for a kerf that is negative
 * or NaN.
 */
export function kerfPaths(paths: readonly Path[], kerf: number): Kerfed {
  if (!(kerf >= 0 && kerf < Number.POSITIVE_INFINITY)) {
    throw new RangeError(`kerf ${kerf} mm: it must be 0 or more`);
  }
  if (kerf === 0) return { driven: paths, lost: 0 };
  const held = holders(paths);
  const depth = (i: number): number => (held[i]! < 0 ? 0 : 1 + depth(held[i]!));
  let lost = 0;
  const driven = paths.flatMap((path, i) => {
    if (!path.closed) return [path];
    if (depth(i) % 2 === 0) return [outward(path, kerf / 2)];
    const within = offsetRegions([{ outer: path, holes: [] }], -kerf / 2, 'round');
    if (within.length === 0) lost++;
    return within.map(r => r.outer);
  });
  return { driven, lost };
}
