/**
 * A place of its own for each piece: what an insert needs to know of an arrangement, as values for
 * its style's parameters. First space the treat by `spacedFor`, so that the even places of the insert
 * are the places of the arrangement; then take an arrangement with the choice that it gives, build
 * the insert with the box's own inside, and set these values.
 */
import type { Arrangement, ParamValues, Point, Treat } from '../model.js';
import type { Choice } from './arrange-treats.js';

export const INSERTS = ['divider', 'platform'] as const;
export type Insert = (typeof INSERTS)[number];

/** From a piece to the wall beside a platform, mm: half of the room of its hole, 1.5 mm of paper that
 *  does not tear, and 0.5 mm from the platform to the wall; the paper's thickness comes on top. */
const BESIDE_HOLE_MM = 2.5;
/** A ball sits in a hole of this share of its diameter, and so does a low round (common practice). */
const SEAT = 0.8;
/** A tall round goes through a hole with this much room, mm. */
const ROUND_ROOM = 1;

/** The treat with room for the insert's paper, `thickness` mm thick, and what to choose from. */
export function spacedFor(
  insert: Insert,
  treat: Treat,
  thickness: number,
): { readonly treat: Treat; readonly choice: Choice } {
  if (insert === 'divider') {
    // In its place a piece keeps the clearance on both sides, and the strip stands between.
    const clearance = Math.max(treat.clearance, (treat.apart - thickness) / 2);
    const apart = 2 * clearance + thickness;
    return { treat: { ...treat, clearance, apart }, choice: { straight: true } };
  }
  const clearance = Math.max(treat.clearance, treat.apart / 2, BESIDE_HOLE_MM + thickness);
  // A hole takes what stands in it: rounds and sticks on their ends, unless it is said how they lie.
  const { shape } = treat;
  const long = shape.kind === 'round' ? shape.height : shape.kind === 'stick' ? shape.length : 0;
  const onEnd = long > 0 && 'diameter' in shape && (long > shape.diameter ? 'upright' : 'flat');
  const lie = treat.lie === 'any' && onEnd ? onEnd : treat.lie;
  const spaced = { ...treat, clearance, apart: 2 * clearance, lie };
  return { treat: spaced, choice: { straight: true, layers: 1 } };
}

/** Values for the insert's parameters. Throws where the arrangement is not in straight rows. */
export function insertValues(insert: Insert, a: Arrangement): ParamValues {
  const { columns, rows } = cellsOf(a);
  if (insert === 'divider') return { columns, rows };
  const holes = holesOf(a);
  return { columns, rows, stagger: false, hole: Math.min(...holes.map(h => h.diameter)) };
}

/** Places along the length and across the width. Throws where there are no straight rows. */
export function cellsOf({ pattern, columns, rows }: Arrangement): {
  readonly columns: number;
  readonly rows: number;
} {
  if (pattern !== 'grid') throw new Error(`a ${pattern} arrangement has no straight rows`);
  return { columns, rows };
}

/** A hole for each piece of the lowest layer: its middle from the lower left corner of the clear
 *  space, seen from above. */
export function holesOf({ treat, places, up }: Arrangement): readonly {
  readonly at: Point;
  readonly diameter: number;
}[] {
  if (up !== 'height') throw new Error('a box that lies on a wall has no floor for a platform');
  return places
    .filter(p => p.layer === 0)
    .map(({ at, size, axis }) => {
      const across = Math.min(size[0], size[1]);
      const tall = axis === 'height' && treat.shape.kind !== 'ball' && size[2] > across;
      return { at: [at[0], at[1]], diameter: tall ? across + ROUND_ROOM : SEAT * across };
    });
}
