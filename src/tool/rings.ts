/** Rings of chords (x, y, x, y, …), each ending where it begins. */
import type { Point } from '../geom/index.js';

export type Rings = readonly Float64Array[];

/** Inside of an odd number of rings. */
export function insideOf(rings: Rings, [x, y]: Point): boolean {
  let odd = false;
  for (const ring of rings) {
    for (let i = 2; i < ring.length; i += 2) {
      const y0 = ring[i - 1]!;
      const y1 = ring[i + 1]!;
      if (y0 > y === y1 > y) continue;
      const x0 = ring[i - 2]!;
      if (x < x0 + ((ring[i]! - x0) * (y - y0)) / (y1 - y0)) odd = !odd;
    }
  }
  return odd;
}
