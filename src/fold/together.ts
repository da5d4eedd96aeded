/** Whether the closed parts of one box fit together in their places. */
import type { Hinge, Join, Net } from '../model.js';
import { faceOf } from './face.js';
import { facetsOf } from './facets.js';
import type { Finding } from './finding.js';
import { joinFindings, mm } from './joins.js';
import { standing } from './stand.js';
import { worstHit } from './through.js';

/**
 * What passes through what between parts that say where they stand, and panels that do not lie on
 * the other part's panel that they are glued to. The first net stands at the middle. Panels are named
 * `net/panel`.
 */
export function togetherFindings(nets: readonly Net[]): Finding[] {
  const parts = nets.filter((net, i) => i === 0 || net.stands);
  const placed = parts.map(net =>
    standing(net).map(p => ({ ...p, panel: { ...p.panel, id: nameIn(net.id, p.panel.id) } })),
  );
  const joins = parts.flatMap(({ id, seats = [] }) =>
    seats.map(({ panel, onto, gap }): Join => {
      const [a, b] = [nameIn(id, panel), nameIn(onto.net, onto.panel)];
      return { kind: 'glue', a: { panel: a }, b: { panel: b }, ...(gap !== undefined && { gap }) };
    }),
  );
  const all = placed.flat();
  const faces = new Map(all.map(p => [p.panel.id, faceOf(p.panel)]));
  const net: Net = { ...nets[0]!, panels: all.map(p => p.panel), hinges: hingesOf(parts), joins };
  const findings = joinFindings({ net, faces, pose: new Map(all.map(p => [p.panel.id, p])) });

  const facets = new Map(all.map(p => [p.panel.id, facetsOf(faces.get(p.panel.id)!, p)]));
  for (const [i, mine] of placed.entries()) {
    const others = placed.slice(i + 1).flat();
    for (const [a, b] of mine.flatMap(p => others.map(q => [p.panel.id, q.panel.id] as const))) {
      // How near these are, the joins have told.
      if (joins.some(j => [a, b].includes(j.a.panel) && [a, b].includes(j.b.panel))) continue;
      const hit = worstHit(facets.get(a)!, facets.get(b)!, net.thickness);
      if (!hit) continue;
      const { kind: law, measured, allowed, where } = hit;
      const how = law === 'through' ? 'pass through each other by' : 'are only apart by';
      const message = `${a} and ${b} ${how} ${mm(measured)}`;
      findings.push({ law, panels: [a, b], where, measured, allowed, message });
    }
  }
  return findings;
}

const nameIn = (net: string, panel: string) => `${net}/${panel}`;

const hingesOf = (nets: readonly Net[]): Hinge[] =>
  nets.flatMap(({ id, hinges }) =>
    hinges.map(h => ({ ...h, parent: nameIn(id, h.parent), child: nameIn(id, h.child) })),
  );
