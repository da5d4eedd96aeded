/** What a person would fold next: panels sorted by role, by what lies under what, and in groups. */
import type { PanelRole } from '../model.js';
import { SAME_ANGLE } from '../units/tolerances.js';
import { levelsOf } from './layers.js';
import type { Tree } from './tree.js';

/** What is creased and folded first. */
const TURN: Readonly<Record<PanelRole, number>> = {
  'glue-flap': 0,
  gusset: 1,
  wall: 2,
  insert: 3,
  'dust-flap': 4,
  flap: 5,
  'tuck-flap': 6,
  base: 7,
  roof: 8,
  handle: 9,
  lid: 10,
};
/** What stands before the roof is folded. */
const STANDS: ReadonlySet<PanelRole> = new Set(['wall', 'base', 'insert']);
/** A hem is folded right over before anything else, what rolls over other papers when those stand. */
const HEM = -1;
const ROLLED = 5.5;

/** A lift of more thicknesses than this leaves room for other papers. */
const ROLLS_OVER = 1.5;

export interface Turns {
  /** Which panels could be folded next of those that are flat: groups of one role after the other, the
   *  best guess first. */
  next(flat: readonly string[]): readonly (readonly (readonly string[])[])[];
  /** These first, from now on. */
  sooner(panels: readonly string[]): void;
}

export function turnsOf(tree: Tree): Turns {
  const { net, order, above, panels, ring } = tree;
  const all = [net.root, ...order.map(h => h.child)];
  const depths = new Map([[net.root, 0]]);
  for (const h of order) depths.set(h.child, depths.get(h.parent)! + 1);
  const turns = new Map(all.map(id => [id, turnOf(id)]));
  const levels = new Map<string, number>();
  for (const t of new Set(turns.values())) {
    const same = all.filter(id => turns.get(id) === t);
    for (const [id, level] of levelsOf(net, same)) levels.set(id, level);
  }
  let soonest = HEM;

  const kinds = [
    (id: string) => levels.get(id)!,
    () => 0,
    (id: string) => depths.get(id)!,
    (id: string) => above.get(id)?.parent ?? net.root,
    (id: string) => id,
  ];
  return {
    next(flat) {
      const present = [...new Set(flat.map(id => turns.get(id)!))].sort((a, b) => a - b);
      const groups = present.map(t => {
        const same = flat.filter(id => turns.get(id) === t);
        const sorted = same.sort((p, q) => levels.get(p)! - levels.get(q)!);
        // Panels of a ring fold together or not at all.
        const whole = same.some(id => id !== net.root && ring.has(id) && t === TURN.roof);
        return [...(whole ? [sorted] : []), ...kinds.flatMap(kind => grouped(sorted, kind))];
      });
      for (let n = 2; n <= present.length; n++) {
        for (let i = 0; i + n <= present.length; i++) {
          const some = present.slice(i, i + n);
          groups.push([flat.filter(id => some.includes(turns.get(id)!))]);
        }
      }
      const seen = new Set<string>();
      return groups.map(g => g.filter(c => !seen.has(c.join(' ')) && seen.add(c.join(' '))));
    },
    sooner(list) {
      soonest--;
      for (const id of list) turns.set(id, soonest);
    },
  };

  function turnOf(id: string): number {
    const { angle = 0, lift = 0 } = above.get(id) ?? {};
    // A gusset in a ring folds with the roof that it is part of, and what hangs on either too.
    const { role } = panels.get(id)!;
    const stands = (panel: string) => STANDS.has(panels.get(panel)!.role);
    const inRoof = (panel: string | undefined) => {
      if (panel === undefined || !ring.has(panel) || stands(panel)) return false;
      // The strip that closes a tube of walls stands as they do.
      return panels.get(panel)!.role !== 'glue-flap' || !stands(above.get(panel)!.parent);
    };
    if (inRoof(id) || inRoof(above.get(id)?.parent)) return TURN.roof;
    if (Math.abs(angle) < Math.PI - SAME_ANGLE) return TURN[role];
    return lift > ROLLS_OVER * net.thickness ? ROLLED : HEM;
  }
}

function grouped(list: readonly string[], by: (id: string) => number | string): string[][] {
  const groups = new Map<number | string, string[]>();
  for (const id of list) groups.set(by(id), [...(groups.get(by(id)) ?? []), id]);
  return [...groups.values()];
}
