/** Outlines moved outward: what an outline encloses is paper, whatever lay in it. */
import { signedArea } from './measure.js';
import { offsetRegions } from './offset.js';
import { type OffsetJoin, offsetExactly } from './offset-exactly.js';
import { counterClockwise } from './path.js';
import type { Path } from './types.js';

/**
 * An outline moved outward by `delta` mm, without holes. Lines and arcs stay so where the outline has
 * only these. Round joins, or mitred ones (a mitre over three offsets long is rounded: a spike of paper
 * tears). Throws when `delta` is negative or no number.
 */
export function outward(outline: Path, delta: number, join: OffsetJoin = 'round'): Path {
  const path = counterClockwise(outline);
  if (!(delta >= 0)) throw new RangeError(`not outward: ${delta} mm`);
  if (delta === 0) return path;
  const exact = offsetExactly(path, delta, join);
  if (exact) return exact;
  return largestLoop(offsetRegions([{ outer: path, holes: [] }], delta, join).map(r => r.outer));
}

/** The loop that encloses most, counter-clockwise ones counted. Throws where there is none. */
export function largestLoop(paths: readonly Path[]): Path {
  const [first, ...others] = paths;
  if (!first) throw new RangeError('nothing is left of the outline');
  return others.reduce((a, b) => (signedArea(b) > signedArea(a) ? b : a), first);
}
