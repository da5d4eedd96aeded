/** Backings: larger layers behind a layer, each showing by its reveal. */
import {
  counterClockwise,
  largestLoop,
  type OffsetJoin,
  offsetRegions,
  outward,
  uniteRegions,
} from '../geom/index.js';
import type { Layer, Path } from '../model.js';

/** `soft`: round, and clefts up to twice as deep as the reveal are filled in a round sweep as well. */
export type BackingJoin = OffsetJoin | 'soft';

/** How much farther out a soft outline goes before it comes back, as a part of the reveal. */
const SOFT = 1.6;

/** An outline moved outward by `delta` mm, as `outward` does, or softly. */
export function outwardOf(outline: Path, delta: number, join: BackingJoin = 'round'): Path {
  if (join !== 'soft') return outward(outline, delta, join);
  const far = outward(outline, delta * (1 + SOFT));
  return largestLoop(
    offsetRegions([{ outer: far, holes: [] }], -delta * SOFT, 'round').map(r => r.outer),
  );
}

/** Outlines of the backings behind an outline, the nearest first. Each shows by its own reveal
 *  beyond the one in front of it. */
export function backingOutlines(
  outline: Path,
  backings: readonly { readonly reveal: number; readonly join?: BackingJoin }[],
): Path[] {
  let total = 0;
  return backings.map(({ reveal, join }) => {
    total += reveal;
    // From the motif each time, so that rounding does not gather.
    return outwardOf(outline, total, join);
  });
}

/** What a motif covers: the outline round all its layers together. */
export function footprint(layers: readonly Layer[]): Path {
  const [first, ...others] = layers.map(l => counterClockwise(l.outline));
  if (!first) throw new RangeError('a motif needs at least one layer');
  if (others.length === 0) return first;
  const united = uniteRegions([first, ...others].map(outer => ({ outer, holes: [] })));
  return largestLoop(united.map(r => r.outer));
}
