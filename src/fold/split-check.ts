import type { Net, Stands } from '../model.js';
import { checkNet, collisionFindings } from './check.js';
import { faceOf } from './face.js';
import { facetsOf } from './facets.js';
import type { Finding } from './finding.js';
import { closureFindings, joinFindings } from './joins.js';
import { pose } from './pose.js';
import { restFindings } from './rests.js';
import { after, type Point3, type Rigid, turned, undone } from './space.js';
import { type Split, splitsOf } from './split.js';
import { standing, upright } from './stand.js';

export type { Split };

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

/** The best split of which both parts fit; its parts stand where they stood in the whole. */
export function bestSplit(net: Net, fits: (part: Net) => boolean): Split | undefined {
  const found = splitsOf(net).find(s => s.parts.every(fits) && splitFindings(s).length === 0);
  return found && { ...found, parts: inPlace(net, found) };
}

/** Nets of one box, those too large cut in two. `parts` go by the net they come from. */
export interface SplitNets {
  readonly parts: readonly (readonly Net[])[];
  readonly splits: readonly Split[];
}

export function splitNets(nets: readonly Net[], fits: (net: Net) => boolean): SplitNets {
  const found = nets.map(net => (fits(net) ? undefined : bestSplit(net, fits)));
  const holder = (net: string, panel: string) => {
    const split = found[nets.findIndex(n => n.id === net)];
    return split?.parts.find(p => p.panels.some(own => own.id === panel))?.id ?? net;
  };
  const seated = (net: Net): Net => {
    if (!net.seats) return net;
    const seats = net.seats.map(s =>
      nets.some(n => n.id === s.onto.net)
        ? { ...s, onto: { ...s.onto, net: holder(s.onto.net, s.onto.panel) } }
        : s,
    );
    return { ...net, seats };
  };
  const parts = nets.map((net, i) => (found[i]?.parts ?? [net]).map(seated));
  return { parts, splits: found.filter(s => s !== undefined) };
}

function inPlace(net: Net, { parts, joined, flap, onto }: Split): readonly [Net, Net] {
  const whole = { ...joined, ...(net.stands && { stands: net.stands }) };
  const [first, second] = parts;
  const onFirst = first.panels.some(p => p.id === flap);
  const seat = { panel: flap, onto: { net: onFirst ? second.id : first.id, panel: onto } };
  const put = (part: Net, seats: Net['seats']): Net => ({
    ...part,
    ...placeIn(whole, part),
    ...(seats && { seats: [...(part.seats ?? []), ...seats] }),
    ...(net.rests && { rests: net.rests.filter(r => part.panels.some(p => p.id === r.panel)) }),
  });
  return [put(first, onFirst ? [seat] : undefined), put(second, onFirst ? undefined : [seat])];
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
