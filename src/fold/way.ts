/** A net on its way from flat to closed, by the steps that were proved: what pictures and pages fold by. */
import type { AssemblyStep, Net } from '../model.js';
import { afterMove, type Move, onTheWay, type Progress } from './motion.js';
import { type Folding, foldOrder } from './pose.js';
import { treeOf } from './tree.js';

/** The folding at a fraction of the way: 0 is flat, 1 closed, each step as long as the others. What no step
 *  folds comes last, all at once. */
export function wayOf(
  net: Net,
  steps: readonly Pick<AssemblyStep, 'folds' | 'bentIn' | 'manner'>[],
): (fraction: number) => Folding {
  const tree = treeOf(net);
  const folded = new Set(steps.flatMap(s => s.folds));
  const curls = tree.panels.get(net.root)!.bend ? [net.root] : [];
  const left = [...curls, ...foldOrder(net).map(h => h.child)].filter(id => !folded.has(id));
  const moves = steps.map(({ folds, bentIn, manner }): Move => ({ panels: folds, bentIn, manner }));
  if (left.length > 0) moves.push({ panels: left, bentIn: [], manner: 'square' });
  const before: Progress[] = [new Map()];
  for (const move of moves) before.push(afterMove(before.at(-1)!, move));
  return fraction => {
    const at = Math.min(Math.max(fraction, 0), 1) * moves.length;
    const i = Math.min(Math.floor(at), moves.length - 1);
    const move = moves[i];
    return move ? onTheWay(tree, before[i]!, move, at - i) : fraction;
  };
}
