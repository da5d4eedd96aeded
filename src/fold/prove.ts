/** Every law of one net, and the steps in which it is put together. */
import type { AssemblyStep, Net } from '../model.js';
import { proveFold } from './assembly.js';
import { checkNet } from './check.js';
import type { Finding } from './finding.js';
import { type Folding, isStraight } from './pose.js';

/** Plain data, so that it can come from another thread. */
export interface Proof {
  readonly net: Net;
  readonly findings: readonly Finding[];
  readonly steps: readonly AssemblyStep[];
  /** The hinges at which paper must bend; all others are rigid turns. */
  readonly curved: readonly { readonly parent: string; readonly child: string }[];
}

/** A proof with the net on its way, which is no plain data: 0 flat, 1 closed, each step as long as the
 *  others. */
export interface Proven extends Proof {
  folding(fraction: number): Folding;
}

export function proveNet(net: Net): Proof {
  const { folding: _, ...proof } = proveWay(net);
  return proof;
}

/** The way is only looked for where the closed net is sound: otherwise it leads to nothing. */
export function proveWay(net: Net): Proven {
  const curls = new Map(net.panels.map(p => [p.id, p.bend !== undefined]));
  const curved = net.hinges
    .filter(h => h.soft || !isStraight(h.along) || curls.get(h.parent) !== curls.get(h.child))
    .map(({ parent, child }) => ({ parent, child }));
  const closed = checkNet(net);
  if (closed.length > 0) {
    return { net, findings: closed, steps: [], curved, folding: fraction => fraction };
  }
  const { findings, steps, folding } = proveFold(net);
  return { net, findings, steps, curved, folding };
}
