import type { Net, Stands } from '../model.js';
import { checkNet, collisionFindings } from './check.js';
import { faceOf } from './face.js';
import { facetsOf } from './facets.js';
import type { Finding } from './finding.js';
import { closureFindings, joinFindings } from './joins.js';
import { pose } from './pose.js';
import { restFindings } from './rests.js';
import { after, type Point3, type Rigid, turned, undone } from './space.js';
import type { Split } from './split.js';
import { standing, upright } from './stand.js';

/** Every law of the parts, and of the closed box they are glued to. */
export function splitFindings({ parts, joined }: Split): Finding[] {
  const faces = joined.panels.map(faceOf);
  const folded = pose(joined);
  const box = { net: joined, faces: new Map(faces.map(f => [f.panel.id, f])), pose: folded };
  return [
    ...parts.flatMap(checkNet),
    ...joinFindings(box),
    ...closureFindings(box),
    ...restFindings(box),
    ...collisionFindings(joined, folded, faces, true),
  ];
}

/** The parts of a split where they stood in the whole, with what they are glued to and rest on. */
export function inPlace(net: Net, { parts, joined, flap, onto }: Split): readonly [Net, Net] {
  const { up, stands, seats, rests } = net;
  const whole = { ...joined, ...(up && { up }), ...(stands && { stands }) };
  const [first, second] = parts;
  const put = (part: Net, other: Net): Net => {
    const own = (id: string) => part.panels.some(p => p.id === id);
    const seat = own(flap) ? [{ panel: flap, onto: { net: other.id, panel: onto } }] : [];
    const kept = seats?.filter(s => own(s.panel)) ?? [];
    return {
      ...part,
      ...placeIn(whole, part),
      ...(kept.length + seat.length > 0 && { seats: [...kept, ...seat] }),
      ...(rests && { rests: rests.filter(r => own(r.panel)) }),
    };
  };
  return [put(first, second), put(second, first)];
}

/** How a part must stand so that its panels are where they are in the whole. */
function placeIn(whole: Net, part: Net): { up: Point3; stands: Stands } {
  const placed = standing(whole).filter(p => part.panels.some(own => own.id === p.panel.id));
  const root = placed.find(p => p.panel.id === part.root)!;
  const move: Rigid = after(root.frame, undone(pose(part).get(part.root)!.frame));
  const up: Point3 = [move.x[2], move.y[2], move.z[2]];
  const x = turned(after(move, undone(upright({ ...part, up }))), [1, 0, 0]);
  const points = (list: typeof placed) =>
    list.flatMap(p => facetsOf(faceOf(p.panel), p)).flatMap(f => f.loops.flat());
  const middle = (axis: 0 | 1) => {
    const values = points([root]).map(p => p[axis]);
    return (Math.min(...values) + Math.max(...values)) / 2;
  };
  const height = Math.min(...points(placed).map(p => p[2]));
  const stands = { at: [middle(0), middle(1)], height, turn: Math.atan2(x[1], x[0]) } as const;
  return { up, stands };
}
