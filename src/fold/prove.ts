/** Every law of one net, and the steps in which it is put together. */
import type { AssemblyStep, Net } from '../model.js';
import { proveFold } from './assembly.js';
import { checkNet } from './check.js';
import type { Finding } from './finding.js';
import { isStraight } from './pose.js';

/** Plain data, so that it can come from another thread. */
export interface Proof {
  readonly net: Net;
  readonly findings: readonly Finding[];
  readonly steps: readonly AssemblyStep[];
  /** The hinges at which paper must bend; all others are rigid turns. */
  readonly curved: readonly { readonly parent: string; readonly child: string }[];
}

/** The way is only looked for where the closed net is sound: otherwise it leads to nothing. */
export function proveNet(net: Net): Proof {
  const curls = new Map(net.panels.map(p => [p.id, p.bend !== undefined]));
  const curved = net.hinges
    .filter(h => h.soft || !isStraight(h.along) || curls.get(h.parent) !== curls.get(h.child))
    .map(({ parent, child }) => ({ parent, child }));
  const closed = checkNet(net);
  if (closed.length > 0) {
    return { net, findings: closed, steps: [], curved };
  }
  const { findings, steps } = proveFold(net);
  return { net, findings, steps, curved };
}
