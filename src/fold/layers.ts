/** What lies under what in the closed box, and so is folded first. */
import type { Net } from '../model.js';
import { CLOSE_MM } from '../units/tolerances.js';
import { depthIn, faceOf, innerPoints } from './face.js';
import { nearestOn, type Pose, place, pose } from './pose.js';

/** Papers further apart than this many thicknesses do not lie on each other. */
const MOST_LAYERS = 4;

/**
 * How many panels of a list must be folded before each one, by panel: what lies nearer to the inside
 * of the box comes first, and a tuck flap after what it is tucked behind. All are 0 in a ring, where
 * each lies on the next, and where paper has no thickness.
 */
export function levelsOf(net: Net, list: readonly string[]): ReadonlyMap<string, number> {
  const closed = pose(net);
  const tucked = new Map(
    net.joins.flatMap(j => (j.kind === 'tuck' ? [[j.a.panel, j.b.panel]] : [])),
  );
  const first = (a: string, b: string) =>
    tucked.get(b) === a || (tucked.get(a) !== b && liesUnder(closed, a, b, net.thickness));
  const before = new Map(list.map(b => [b, list.filter(a => a !== b && first(a, b))]));
  const levels = new Map<string, number>();
  const open = new Set<string>();
  let ring = false;
  const level = (id: string): number => {
    const known = levels.get(id);
    if (known !== undefined) return known;
    if (open.has(id)) {
      ring = true;
      return 0;
    }
    open.add(id);
    const found = Math.max(-1, ...before.get(id)!.map(level)) + 1;
    open.delete(id);
    levels.set(id, found);
    return found;
  };
  for (const id of list) level(id);
  return ring ? new Map(list.map(id => [id, 0])) : levels;
}

/** Whether a lies on b, on the side of the inside. */
function liesUnder(closed: Pose, a: string, b: string, thickness: number): boolean {
  const [p, q] = [closed.get(a)!, closed.get(b)!];
  const most = MOST_LAYERS * thickness + CLOSE_MM;
  const over = faceOf(q.panel);
  return innerPoints(faceOf(p.panel)).some(at => {
    const mate = nearestOn(q, place(p, at));
    return mate.height > CLOSE_MM && mate.height <= most && depthIn(over, mate.at) > CLOSE_MM;
  });
}
