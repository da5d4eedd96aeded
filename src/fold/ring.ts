/** Whether the folds that close a ring of panels stay folds when the box is closed. */
import { endOf, wrapAngle } from '../geom/index.js';
import type { Hinge } from '../model.js';
import { CLOSE_MM, SAME_ANGLE } from '../units/tolerances.js';
import type { Finding } from './finding.js';
import { type Closed, mm } from './joins.js';
import { middleOf, normalAt, place } from './pose.js';
import { cross3, distance3, dot3, length3, sub3 } from './space.js';

/** Both panels must be at every point of the fold, and stand to each other at its angle. */
export function ringFindings(box: Closed): Finding[] {
  return (box.net.ringHinges ?? []).flatMap(h => [...partedAt(box, h), ...turnedAt(box, h)]);
}

function partedAt({ pose }: Closed, { parent, child, along }: Hinge): Finding[] {
  const [a, b] = [pose.get(parent)!, pose.get(child)!];
  const ends = [along.start, endOf(along)].map(at => ({
    at,
    by: distance3(place(a, at), place(b, at)),
  }));
  const worst = ends.reduce((w, e) => (e.by <= w.by ? w : e));
  if (worst.by <= CLOSE_MM) return [];
  return [
    {
      law: 'ring',
      panels: [parent, child],
      where: worst.at,
      measured: worst.by,
      allowed: CLOSE_MM,
      message: `${parent} and ${child} come apart along their fold by ${mm(worst.by)}`,
    },
  ];
}

function turnedAt({ pose }: Closed, { parent, child, along, angle }: Hinge): Finding[] {
  const [a, b] = [pose.get(parent)!, pose.get(child)!];
  const { at } = middleOf(along);
  const [m, n] = [normalAt(a, at), normalAt(b, at)];
  const run = sub3(place(a, endOf(along)), place(a, along.start));
  const sine = -dot3(cross3(m, n), run) / length3(run);
  const off = Math.abs(wrapAngle(Math.atan2(sine, dot3(m, n)) - angle));
  if (off <= SAME_ANGLE) return [];
  const said = ((angle * 180) / Math.PI).toFixed(2);
  return [
    {
      law: 'ring',
      panels: [parent, child],
      where: at,
      measured: off,
      allowed: SAME_ANGLE,
      message: `the fold ${parent}–${child} is said to be ${said}° and is out by ${off.toFixed(5)} rad`,
    },
  ];
}
