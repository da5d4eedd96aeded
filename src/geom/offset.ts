/** Offsets of regions, exact for lines and arcs. */
import { ON_PATH_MM } from '../units/tolerances.js';
import { arrange } from './arrange.js';
import { boxOf } from './crossing.js';
import { distanceToStep } from './distance.js';
import { fitArcs } from './fit-arcs.js';
import { type Join, offsetLoops } from './offset-loops.js';
import { polygonOffset } from './polygons.js';
import { loopsOf, regionsOf } from './regions.js';
import { pointAt, steps } from './step.js';
import type { Path, Point, Region } from './types.js';

export type { Join } from './offset-loops.js';

/** Whether no point tried of the offset is nearer to the source than it may be. */
function keepsClear(found: readonly Region[], loops: readonly Path[], delta: number): boolean {
  const source = loops.flatMap(path => [...steps(path)]).map(step => ({ step, box: boxOf(step) }));
  const least = Math.abs(delta) - 10 * ON_PATH_MM;
  const near = ([x, y]: Point) =>
    source.some(
      ({ step, box }) =>
        x > box.minX - least &&
        x < box.maxX + least &&
        y > box.minY - least &&
        y < box.maxY + least &&
        distanceToStep([x, y], step) < least,
    );
  return !loopsOf(found).some(path => [...steps(path)].some(s => near(pointAt(s, 0.5))));
}

/** The offset of sound loops by their windings; `undefined` where that does not come out right. */
export function windingOffset(
  loops: readonly Path[],
  delta: number,
  join: Join,
): Region[] | undefined {
  const raw = loops.flatMap(path => offsetLoops(path, delta, join));
  const borders = arrange(
    raw.map(path => ({ path, operand: 0 })),
    1,
    ([w]) => w! > 0,
  );
  const found = borders && regionsOf(borders);
  return found && keepsClear(found, loops, delta) ? found : undefined;
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
  return windingOffset(loops, delta, join) ?? polygonOffset(loops, delta, join);
}
