import type { FoldManner, Panel } from '../model.js';
import { isStraight, type Partwise } from './pose.js';
import { ringWay } from './rings.js';
import type { Tree } from './tree.js';

/** How far each hinge has come, by its child, and the root's own curl by the root: 0, or nothing, is
 *  flat and 1 is closed. */
export type Progress = ReadonlyMap<string, number>;

export interface Move {
  /** Hinges folded from flat to closed, by their child. The root among them stands for its curl. */
  readonly panels: readonly string[];
  /** Flaps that are bent in further while they go in behind another panel, by their panel. */
  readonly bentIn: readonly string[];
  readonly manner: FoldManner;
}

export const afterMove = (from: Progress, { panels }: Move): Progress =>
  new Map([...from, ...panels.map(p => [p, 1] as const)]);

/** The folding when a share of the move is done. */
export function onTheWay(tree: Tree, from: Progress, move: Move, share: number): Partwise {
  const moving = new Set(move.panels);
  const ring = move.manner === 'ring' ? ringOf(tree, from, move)(share) : undefined;
  const bent = new Set(move.bentIn);
  const fraction = (panel: string): number => {
    const before = from.get(panel) ?? 0;
    const turned = ring?.get(panel);
    if (turned !== undefined) return turned;
    if (moving.has(panel)) return before + (1 - before) * share;
    if (!bent.has(panel)) return before;
    return (
      before + bentIn(tree, panel, move.manner, share) / Math.abs(tree.above.get(panel)!.angle)
    );
  };
  return partwise(tree, fraction);
}

type Way = ReturnType<typeof ringWay>;
const ways = new WeakMap<Move, Way>();

/** The fractions of a move's rings, worked out once. */
function ringOf(tree: Tree, from: Progress, move: Move): Way {
  const known = ways.get(move);
  if (known) return known;
  const moving = move.panels.filter(p => tree.ring.has(p));
  const others = move.panels.filter(p => !tree.ring.has(p));
  const way = ringWay(tree.net, moving, fractions => {
    const mean = [...fractions.values()].reduce((s, v) => s + v, 0) / fractions.size;
    const rest = new Map(others.map(p => [p, mean]));
    return partwise(tree, p => fractions.get(p) ?? rest.get(p) ?? from.get(p) ?? 0);
  });
  ways.set(move, way);
  return way;
}

/** A moment at which every hinge has come as far as it says. */
export const resting = (tree: Tree, at: Progress): Partwise =>
  partwise(tree, panel => at.get(panel) ?? 0);

/** How fast a flap is bent in at first, against the swing of its lid. */
const LEAD = 3;
/** Share of the room before the wall that its tip takes. */
const LEAN = 0.9;

/**
 * How much further a tuck flap is bent, radians. With its lid still open by θ it hangs upright when
 * bent by θ; leaning out so far that its tip touches the wall, by θ − asin((w/d)(1 − cos θ)), for a
 * flap of depth d on a lid of depth w.
 */
function bentIn(tree: Tree, panel: string, manner: FoldManner, share: number): number {
  const lid = tree.above.get(tree.above.get(panel)!.parent)!;
  const swing = Math.abs(lid.angle);
  const open = swing * (1 - share);
  const room = tree.reach.get(panel)! * (1 - Math.cos(open));
  const lean = manner === 'sliding' ? LEAN * Math.asin(Math.min(1, room)) : 0;
  return manner === 'square' ? 0 : Math.max(0, Math.min(LEAD * swing * share, open - lean));
}

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
