/** Loops sorted into regions: outlines counter-clockwise with their holes clockwise. */

import { contains, windingOf } from './contain.js';
import { signedArea } from './measure.js';
import { clockwise, counterClockwise, vertices } from './path.js';
import { pointAt, steps } from './step.js';
import type { Path, Point, Region } from './types.js';

/** Points to try of a hole: its own may lie on the outline it touches. */
function* pointsOf(path: Path): Generator<Point> {
  for (const step of steps(path)) yield pointAt(step, 0.5);
  yield* vertices(path);
}

/** Whether a loop that does not cross `outer` lies in it. */
export function liesIn(loop: Path, outer: Path): boolean {
  for (const p of pointsOf(loop)) {
    const where = contains(outer, p);
    if (where !== 'on') return where === 'in';
  }
  return windingOf(outer)(loop.start) !== 0;
}

/** Borders that do not cross, the inside on their left, as regions; each hole goes to the smallest
 *  outline around it. Throws when a hole has none. */
export function regionsOf(loops: readonly Path[]): Region[] {
  const sized = loops.map(path => ({ path, area: signedArea(path) }));
  const outers = sized
    .filter(l => l.area > 0)
    .sort((a, b) => a.area - b.area)
    .map(({ path, area }) => ({ path, area, holes: [] as Path[] }));
  for (const hole of sized.filter(l => l.area < 0)) {
    const owner = outers.find(o => o.area > -hole.area && liesIn(hole.path, o.path));
    if (!owner) throw new Error('a hole lies in no outline');
    owner.holes.push(hole.path);
  }
  return outers.reverse().map(({ path, holes }) => ({ outer: path, holes }));
}

/** The loops of regions, each running the right way round. */
export const loopsOf = (regions: readonly Region[]): Path[] =>
  regions.flatMap(({ outer, holes }) => [counterClockwise(outer), ...holes.map(clockwise)]);
