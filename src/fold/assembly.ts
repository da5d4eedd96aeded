/**
 * The order of folding: steps in which a net can be put together so that no panel passes through
 * another on the way. Found by trying what a person would, one role after the other.
 */
import type { AssemblyStep, Net } from '../model.js';
import type { Finding } from './finding.js';
import { mm } from './joins.js';
import { type Done, findOrder } from './order.js';
import type { Folding } from './pose.js';
import { type Strike, sweeperOf } from './sweep.js';
import type { Tree } from './tree.js';
import { wayOf } from './way.js';

export interface Assembly {
  /** All of them, or those found before it went no further. */
  readonly steps: readonly AssemblyStep[];
  /** Empty, or what stands in the way. */
  readonly findings: readonly Finding[];
  /** Ways that were tried. */
  readonly tried: number;
  /** The net on its way: 0 flat, 1 closed, each step as long as the others. */
  folding(fraction: number): Folding;
}

/** Throws for a net that is no tree: `checkNet` tells first. */
export function proveFold(net: Net): Assembly {
  const sweeper = sweeperOf(net);
  const { tree } = sweeper;
  const { done, left, strike, tried } = findOrder(sweeper);
  const steps = stepsOf(tree, done);
  return {
    steps,
    findings: left.length > 0 ? [inTheWay(left, strike)] : [],
    tried,
    folding: wayOf(net, steps),
  };
}

function stepsOf(tree: Tree, done: readonly Done[]): AssemblyStep[] {
  const { net, order, above } = tree;
  const lines = net.joins.map(j => hingesBetween(tree, j.a.panel, j.b.panel));
  const folded = new Set<string>();
  const closed = new Set<number>();
  return done.map(({ move, springs }, i) => {
    for (const p of move.panels) folded.add(p);
    const joins = lines.flatMap((needs, k) =>
      !closed.has(k) && needs.every(n => folded.has(n)) ? [k] : [],
    );
    for (const k of joins) closed.add(k);
    const moving = new Set(move.panels);
    for (const h of order) if (moving.has(h.parent)) moving.add(h.child);
    return {
      step: i + 1,
      hinges: move.panels.flatMap(p => {
        const h = above.get(p);
        return h ? [{ parent: h.parent, child: h.child }] : [];
      }),
      panels: [...new Set([...move.panels, ...moving])],
      joins,
      springs,
      folds: move.panels,
      bentIn: move.bentIn,
      manner: move.manner,
    };
  });
}

/** The hinges on the way from one panel to the other, by their child; curls of the root too. */
function hingesBetween({ net, above, panels }: Tree, a: string, b: string): string[] {
  const up = (id: string): string[] => {
    const h = above.get(id);
    return h ? [id, ...up(h.parent)] : panels.get(net.root)!.bend ? [id] : [];
  };
  const [p, q] = [up(a), up(b)];
  return [...p.filter(id => !q.includes(id)), ...q.filter(id => !p.includes(id))];
}

function inTheWay(left: readonly string[], strike?: Strike): Finding {
  const message = `no order of folding was found: with ${left.join(', ')} still flat, `;
  if (!strike) {
    return { law: 'way', panels: left, measured: 1, allowed: 0, message: `${message}it ends` };
  }
  const { a, b, measured, allowed, where, kind, torn } = strike;
  const how = torn
    ? `${a} and ${b} tear apart by ${mm(measured)}`
    : kind === 'through'
      ? `${a} strikes ${b} by ${mm(measured)}`
      : `${a} lies in the thickness of ${b}`;
  return { law: 'way', panels: [a, b], where, measured, allowed, message: message + how };
}
