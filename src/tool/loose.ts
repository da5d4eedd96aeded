/** What comes loose of a sheet while it is cut. */
import { bounds, type Path } from '../geom/index.js';
import type { FoundPlace } from '../model.js';
import { holders } from './nesting.js';

/** Of more closed cuts than this it is not asked which lies in which: it takes their square. */
const MOST_NESTED = 3000;

export interface Loose {
  /** Whether it was asked what lies in what. */
  readonly looked: boolean;
  /** Openings in parts: what falls out of them is waste. */
  readonly openings: readonly FoundPlace[];
  /** Parts inside openings of other parts. */
  readonly parts: readonly FoundPlace[];
  /** Of all that is cut out whole, what is smaller across than the least; the smallest first. */
  readonly small: readonly FoundPlace[];
}

/** Closed cuts by what they lie in; each place is the middle of one, its size the lesser side of the
 *  rectangle about it, mm. */
export function looseParts(paths: readonly Path[], least: number): Loose {
  const rings = paths.filter(p => p.closed);
  const looked = rings.length <= MOST_NESTED;
  const held = looked ? holders(rings) : new Int32Array(rings.length).fill(-1);
  const depth = (i: number): number => (held[i]! < 0 ? 0 : 1 + depth(held[i]!));
  const placed = rings.map((ring, i) => {
    const { minX, minY, maxX, maxY } = bounds(ring);
    const at = [(minX + maxX) / 2, (minY + maxY) / 2] as const;
    return { at, size: Math.min(maxX - minX, maxY - minY), depth: depth(i) };
  });
  const smallest = (some: typeof placed) =>
    some.map(({ at, size }) => ({ at, size })).sort((a, b) => a.size - b.size);
  return {
    looked,
    openings: smallest(placed.filter(p => p.depth % 2 === 1)),
    parts: smallest(placed.filter(p => p.depth > 0 && p.depth % 2 === 0)),
    small: smallest(placed.filter(p => p.size < least)),
  };
}
