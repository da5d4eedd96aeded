/** Offsets of regions, exact for lines and arcs. */
import { ON_PATH_MM } from '../units/tolerances.js';
import { arrange } from './arrange.js';
import { uniteRegions } from './boolean.js';
import { fitArcs } from './fit-arcs.js';
import { nearSteps, reachOf } from './near.js';
import { type Join, offsetLoops } from './offset-loops.js';
import { polygonOffset } from './polygons.js';
import { loopsOf, regionsOf } from './regions.js';
import { pointAt, type Step, steps } from './step.js';
import type { Path, Point, Region } from './types.js';

export type { Join } from './offset-loops.js';

/** Loops to be moved, and by how much, mm. */
export interface Grown {
  readonly loops: readonly Path[];
  readonly delta: number;
}

/** The offset of sound loops by their windings; `undefined` where that does not come out right. Several
 *  are joined, each with an offset of its own. */
export function windingOffset(parts: readonly Grown[], join: Join): Region[] | undefined {
  const found = parts.map(({ loops, delta }) => ({
    raw: loops.flatMap(path => offsetLoops(path, delta, join)),
    isNear: nearSteps(loops.flatMap(path => [...steps(path)])),
    // What comes nearer to its source than this is no border.
    least: Math.abs(delta) - 10 * ON_PATH_MM,
  }));
  const isBuried = (step: Step) => {
    const { middle, reach } = reachOf(step);
    return found.some(({ isNear, least }) => least > reach && isNear(middle, least - reach));
  };
  const borders = arrange(
    found.flatMap(({ raw }, operand) => raw.map(path => ({ path, operand }))),
    found.length,
    windings => windings.some(w => w > 0),
    { isBuried },
  );
  const isClear = ({ isNear, least }: (typeof found)[number], p: Point) =>
    !(least > 0 && isNear(p, least));
  const keepsClear = (path: Path) =>
    [...steps(path)].every(s => found.every(part => isClear(part, pointAt(s, 0.5))));
  return borders?.every(keepsClear) ? regionsOf(borders) : undefined;
}

/**
 * Regions grown by `delta` mm on every side, shrunk when it is negative; regions that grow into each other
 * become one, those that shrink away are gone. Lines and arcs stay exact, cubics are fitted with arcs
 * first (within `FIT_MM`). Throws when `delta` is not finite.
 */
export function offsetRegions(regions: readonly Region[], delta: number, join: Join): Region[] {
  if (!Number.isFinite(delta)) throw new RangeError(`cannot offset by ${delta} mm`);
  const loops = loopsOf(regions).map(path => fitArcs(path));
  if (delta === 0) return regionsOf(loops);
  return windingOffset([{ loops, delta }], join) ?? polygonOffset(loops, delta, join);
}

/** Everything that is in any of several shapes, each grown by an amount of its own (mm, 0 or more), its
 *  corners rounded. As `offsetRegions` of each and their union, in one go. */
export function growRegions(
  parts: readonly { readonly regions: readonly Region[]; readonly by: number }[],
): Region[] {
  if (!parts.every(({ by }) => by >= 0 && Number.isFinite(by))) {
    throw new RangeError(`cannot grow by ${parts.map(p => p.by)} mm`);
  }
  const grown = parts.map(({ regions, by }) => ({
    loops: loopsOf(regions).map(path => fitArcs(path)),
    delta: by,
  }));
  const each = () => grown.flatMap(({ loops, delta }) => polygonOffset(loops, delta, 'round'));
  return windingOffset(grown, 'round') ?? uniteRegions(each());
}
