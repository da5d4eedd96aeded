/** What moves in one step of assembly, and where every panel is on the way. */
import type { Hinge, Net, Panel } from '../model.js';
import { foldOrder, isStraight, type Partwise } from './pose.js';

/** How far each hinge has come, by its child, and the root's own curl by the root: 0, or nothing, is
 *  flat and 1 is closed. */
export type Progress = ReadonlyMap<string, number>;

export interface Move {
  /** Hinges folded from flat to closed, by their child. The root among them stands for its curl. */
  readonly panels: readonly string[];
  /** Flaps that are bent in further while they go in behind another panel, by their panel; see
   *  `bentIn`. */
  readonly bentIn: readonly string[];
  /** How early the flaps are bent in; 0 with none. */
  readonly lead: number;
}

export const FLAT: Progress = new Map();

export const afterMove = (from: Progress, { panels }: Move): Progress =>
  new Map([...from, ...panels.map(p => [p, 1] as const)]);

/** The tree of a net, looked up once. */
export interface Tree {
  readonly net: Net;
  readonly order: readonly Hinge[];
  readonly above: ReadonlyMap<string, Hinge>;
  readonly panels: ReadonlyMap<string, Panel>;
}

export function treeOf(net: Net): Tree {
  const order = foldOrder(net);
  return {
    net,
    order,
    above: new Map(order.map(h => [h.child, h])),
    panels: new Map(net.panels.map(p => [p.id, p])),
  };
}

/** The folding when a share of the move is done. */
export function onTheWay(tree: Tree, from: Progress, move: Move, share: number): Partwise {
  const moving = new Set(move.panels);
  const bent = new Set(move.bentIn);
  const fraction = (panel: string): number => {
    const before = from.get(panel) ?? 0;
    if (moving.has(panel)) return before + (1 - before) * share;
    if (!bent.has(panel)) return before;
    const { parent, angle } = tree.above.get(panel)!;
    const swing = Math.abs(tree.above.get(parent)!.angle / angle);
    return before + bentIn(share, move.lead) * swing;
  };
  return partwise(tree, fraction);
}

/** A moment at which every hinge has come as far as it says. */
export const resting = (tree: Tree, at: Progress): Partwise =>
  partwise(tree, panel => at.get(panel) ?? 0);

/**
 * How much further a tuck flap is bent while what it hangs on closes, as a share of that swing: it
 * leads by `lead` at first, then stands upright as it goes down, and ends where it belongs.
 */
const bentIn = (share: number, lead: number): number =>
  lead > 0 ? Math.min(share * lead, 1 - share) : 0;

/**
 * Curls. A panel on a straight hinge curls as it folds. Across a curved crease there are only two
 * ways to lie, with the curl of the parent or against it (Fuchs & Tabachnikov, Amer. Math. Monthly
 * 106, 1999): an unfolded flap goes on along its parent's cylinder, a folded one is its mirror
 * image, and what is between is not paper that keeps its length: it is taken evenly.
 */
function partwise(tree: Tree, fraction: (panel: string) => number): Partwise {
  const curl = (panel: Panel): number => {
    const h = tree.above.get(panel.id);
    const own = Math.min(1, fraction(panel.id));
    if (!h || isStraight(h.along)) return own;
    const parent = tree.panels.get(h.parent)!;
    const p = parent.bend ? curl(parent) : 0;
    return p > 0 ? p * (2 * Math.min(1, own / p) - 1) : own;
  };
  return { hinge: h => fraction(h.child), curl };
}
