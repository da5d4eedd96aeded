import { CLOSE_MM } from '../units/tolerances.js';
import { facetsOf } from './facets.js';
import type { Finding } from './finding.js';
import { type Closed, mm } from './joins.js';
import { turned } from './space.js';
import { upright } from './stand.js';

/** Panels that are to lie on the floor: all of each is as low as the lowest paper of the net. */
export function restFindings({ net, faces, pose }: Closed): Finding[] {
  const { rests = [] } = net;
  if (rests.length === 0) return [];
  const up = upright(net);
  const heights = (id: string) =>
    facetsOf(faces.get(id)!, pose.get(id)!)
      .flatMap(f => f.loops.flat())
      .map(p => turned(up, p)[2]);
  const low = Math.min(...net.panels.flatMap(p => heights(p.id)));
  return rests.flatMap(({ panel }): Finding[] => {
    const off = Math.max(...heights(panel)) - low;
    if (off <= CLOSE_MM) return [];
    return [
      {
        law: 'join',
        panels: [panel],
        measured: off,
        allowed: CLOSE_MM,
        message: `${panel} is to lie on the floor and is ${mm(off)} off it`,
      },
    ];
  });
}
