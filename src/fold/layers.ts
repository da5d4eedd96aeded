/** What lies under what in the closed box, and so is folded first. */
import type { Net } from '../model.js';
import { CLOSE_MM } from '../units/tolerances.js';
import { depthIn, type Face, faceOf, innerPoints } from './face.js';
import { nearestOn, type PanelPose, place, pose } from './pose.js';
import { add3, distance3, type Point3, scale3 } from './space.js';

/** Papers further apart than this many thicknesses do not lie on each other. */
const MOST_LAYERS = 4;

/**
 * How many panels of a list must be folded before each one, by panel: what lies nearer to the inside
 * of the box comes first, and a tuck flap after what it is tucked behind. All are 0 in a ring, where
 * each lies on the next, and where paper has no thickness.
 */
export function levelsOf(net: Net, list: readonly string[]): ReadonlyMap<string, number> {
  const closed = pose(net);
  const laid = new Map(list.map(id => [id, layOut(closed.get(id)!)]));
  const tucked = new Map(
    net.joins.flatMap(j => (j.kind === 'tuck' ? [[j.a.panel, j.b.panel]] : [])),
  );
  const first = (a: string, b: string) =>
    tucked.get(b) === a ||
    (tucked.get(a) !== b && liesUnder(laid.get(a)!, laid.get(b)!, net.thickness));
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

interface Laid {
  readonly posed: PanelPose;
  readonly face: Face;
  readonly points: readonly Point3[];
  /** A ball around the panel. */
  readonly middle: Point3;
  readonly radius: number;
}

function layOut(posed: PanelPose): Laid {
  const face = faceOf(posed.panel);
  const rim = face.loops[0]!.map(p => place(posed, p));
  const sum = rim.reduce<Point3>((s, p) => add3(s, p), [0, 0, 0]);
  const middle = scale3(sum, 1 / rim.length);
  return {
    posed,
    face,
    points: innerPoints(face).map(p => place(posed, p)),
    middle,
    radius: Math.max(...rim.map(p => distance3(p, middle))),
  };
}

/** Whether a lies on b, on the side of the inside. */
function liesUnder(a: Laid, b: Laid, thickness: number): boolean {
  const most = MOST_LAYERS * thickness + CLOSE_MM;
  if (distance3(a.middle, b.middle) > a.radius + b.radius + most) return false;
  return a.points.some(p => {
    const mate = nearestOn(b.posed, p);
    return mate.height > CLOSE_MM && mate.height <= most && depthIn(b.face, mate.at) > CLOSE_MM;
  });
}
