/** Loops sorted into regions: outlines counter-clockwise with their holes clockwise. */

import { placesIn, windingOf } from './contain.js';
import { signedArea } from './measure.js';
import { clockwise, counterClockwise, vertices } from './path.js';
import { pointAt, steps } from './step.js';
import type { Path, Point, Region } from './types.js';

/** Points to try of a hole: its own may lie on the outline it touches. */
function* pointsOf(path: Path): Generator<Point> {
  for (const step of steps(path)) yield pointAt(step, 0.5);
  yield* vertices(path);
}

/** An outline prepared for the holes that may be its own. */
interface Owner {
  readonly path: Path;
  readonly area: number;
  readonly holes: Path[];
  where?: (p: Point) => 'in' | 'on' | 'out';
}

/** Whether a loop that does not cross an outline lies in it. */
function liesIn(loop: Path, owner: Owner): boolean {
  owner.where ??= placesIn({ outer: owner.path, holes: [] });
  for (const p of pointsOf(loop)) {
    const where = owner.where(p);
    if (where !== 'on') return where === 'in';
  }
  return windingOf(owner.path)(loop.start) !== 0;
}

/** Borders that do not cross, the inside on their left, as regions; each hole goes to the smallest
 *  outline around it. Throws when a hole has none. */
export function regionsOf(loops: readonly Path[]): Region[] {
  const sized = loops.map(path => ({ path, area: signedArea(path) }));
  const outers = sized
    .filter(l => l.area > 0)
    .sort((a, b) => a.area - b.area)
    .map(({ path, area }): Owner => ({ path, area, holes: [] }));
  for (const hole of sized.filter(l => l.area < 0)) {
    const owner = outers.find(o => o.area > -hole.area && liesIn(hole.path, o));
    if (!owner) throw new Error('a hole lies in no outline');
    owner.holes.push(hole.path);
  }
  return outers.reverse().map(({ path, holes }) => ({ outer: path, holes }));
}

/** The loops of regions, each running the right way round. */
export const loopsOf = (regions: readonly Region[]): Path[] =>
  regions.flatMap(({ outer, holes }) => [counterClockwise(outer), ...holes.map(clockwise)]);
