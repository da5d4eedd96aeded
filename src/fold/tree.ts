/** The tree of a net's hinges, looked up once. */
import { distanceToPath, flatten } from '../geom/index.js';
import type { Hinge, Net, Panel } from '../model.js';
import { FOLD_FACET_MM } from '../units/tolerances.js';
import { foldOrder, middleOf } from './pose.js';

export interface Tree {
  readonly net: Net;
  readonly order: readonly Hinge[];
  readonly above: ReadonlyMap<string, Hinge>;
  readonly panels: ReadonlyMap<string, Panel>;
  /** Of tuck flaps on a lid: how deep the lid is, in depths of the flap. */
  readonly reach: ReadonlyMap<string, number>;
  /** Panels whose hinges are part of a ring. */
  readonly ring: ReadonlySet<string>;
}

export function treeOf(net: Net): Tree {
  const order = foldOrder(net);
  const above = new Map(order.map(h => [h.child, h]));
  const panels = new Map(net.panels.map(p => [p.id, p]));
  const reach = net.joins.flatMap((j): [string, number][] => {
    const hinge = j.kind === 'tuck' ? above.get(j.a.panel) : undefined;
    const lid = hinge && above.get(hinge.parent);
    if (!hinge || !lid) return [];
    const deep = distanceToPath(middleOf(hinge.along).at, lid.along);
    return [[hinge.child, deep / depthOf(panels.get(hinge.child)!, hinge)]];
  });
  const ring = ringPanels({ net, above });
  return { net, order, above, panels, reach: new Map(reach), ring };
}

/** How far a panel reaches from its hinge, mm. */
export const depthOf = ({ outline }: Panel, { along }: Hinge): number =>
  Math.max(...flatten(outline, FOLD_FACET_MM).map(p => distanceToPath(p, along)));

/** Panels whose hinges are part of a ring. */
function ringPanels({ net, above }: Pick<Tree, 'net' | 'above'>): ReadonlySet<string> {
  const up = (id: string): string[] => {
    const h = above.get(id);
    return h ? [id, ...up(h.parent)] : [];
  };
  const out = new Set<string>();
  for (const { parent, child } of net.ringHinges ?? []) {
    const [p, q] = [up(parent), up(child)];
    for (const id of [...p.filter(i => !q.includes(i)), ...q.filter(i => !p.includes(i))])
      out.add(id);
  }
  return out;
}
