/** Regions joined, taken away from each other, and cut to what they share: curves kept as they are. */
import { arrange, type Loop } from './arrange.js';
import { regionArea } from './contain.js';
import { boxesMeet } from './crossing.js';
import { bounds } from './measure.js';
import { polygonBoolean } from './polygons.js';
import { loopsOf, regionsOf } from './regions.js';
import type { Path, Region } from './types.js';

type Operation = 'unite' | 'subtract' | 'intersect';

const INSIDE: Readonly<Record<Operation, (w: readonly number[]) => boolean>> = {
  unite: ([a, b]) => a! > 0 || b! > 0,
  subtract: ([a, b]) => a! > 0 && !(b! > 0),
  intersect: ([a, b]) => a! > 0 && b! > 0,
};

function combine(
  a: readonly Region[],
  b: readonly Region[],
  operation: Operation,
  across = false,
): Region[] {
  const [first, second] = [loopsOf(a), loopsOf(b)];
  const loops: Loop[] = [
    ...first.map(path => ({ path, operand: 0 })),
    ...second.map(path => ({ path, operand: 1 })),
  ];
  const borders = arrange(loops, 2, INSIDE[operation], { across });
  return borders ? regionsOf(borders) : polygonBoolean(first, second, operation);
}

/** Everything that is in any of the regions. Overlaps count once; regions that share an edge become
 *  one, those that only touch in a point stay two. */
export const uniteRegions = (regions: readonly Region[]): Region[] => combine(regions, [], 'unite');

/** What is in a region of `from` and in none of `less`. */
export const subtractRegions = (from: readonly Region[], less: readonly Region[]): Region[] =>
  combine(from, less, 'subtract');

/** What is in a region of `a` and in a region of `b`; where they only touch, nothing. */
export const intersectRegions = (a: readonly Region[], b: readonly Region[]): Region[] =>
  combine(a, b, 'intersect');

/** As `intersectRegions` for two regions whose own loops meet nothing of theirs: no search for that. */
export const intersectSound = (a: Region, b: Region): Region[] =>
  combine([a], [b], 'intersect', true);

/**
 * The regions that closed contours enclose by the nonzero rule, as fonts draw them: counter-clockwise and
 * clockwise contours cancel, those that run the same way weld.
 */
export function uniteContours(contours: readonly Path[]): Region[] {
  const borders = arrange(
    contours.map(path => ({ path, operand: 0 })),
    1,
    ([w]) => w !== 0,
  );
  return borders ? regionsOf(borders) : polygonBoolean(contours, [], 'weld');
}

/** Whether two closed paths share more than `tolerance` mm². Touching and shared edges are nothing. */
export function pathsOverlap(a: Path, b: Path, tolerance: number): boolean {
  if (!boxesMeet(bounds(a), bounds(b))) return false;
  const common = intersectRegions([{ outer: a, holes: [] }], [{ outer: b, holes: [] }]);
  return common.reduce((sum, r) => sum + regionArea(r), 0) > tolerance;
}
