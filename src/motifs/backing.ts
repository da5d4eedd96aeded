/** Backings: larger layers behind a layer, each showing by its reveal. */
import {
  counterClockwise,
  type OffsetJoin,
  offsetExactly,
  offsetRegions,
  signedArea,
  uniteRegions,
} from '../geom/index.js';
import type { Layer, Path } from '../model.js';

/** `soft`: round, and clefts up to twice as deep as the reveal are filled in a round sweep as well. */
export type BackingJoin = OffsetJoin | 'soft';

/** How much farther out a soft outline goes before it comes back, as a part of the reveal. */
const SOFT = 1.6;

/**
 * An outline moved outward by `delta` mm, without holes: what it encloses is paper. Lines and arcs
 * stay so where the outline has only these. Round joins, or mitred ones (a mitre over three
 * offsets long is rounded: a spike of paper tears).
 */
export function outwardOf(outline: Path, delta: number, join: BackingJoin = 'round'): Path {
  const path = counterClockwise(outline);
  if (!(delta >= 0)) throw new RangeError(`not outward: ${delta} mm`);
  if (delta === 0) return path;
  if (join === 'soft') {
    const far = outwardOf(path, delta * (1 + SOFT));
    return largest(
      offsetRegions([{ outer: far, holes: [] }], -delta * SOFT, 'round').map(r => r.outer),
    );
  }
  const exact = offsetExactly(path, delta, join);
  if (exact) return exact;
  return largest(offsetRegions([{ outer: path, holes: [] }], delta, join).map(r => r.outer));
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
  return largest(united.map(r => r.outer));
}

function largest(paths: readonly Path[]): Path {
  const [first, ...others] = paths;
  if (!first) throw new RangeError('nothing is left of the outline');
  return others.reduce((a, b) => (signedArea(b) > signedArea(a) ? b : a), first);
}
