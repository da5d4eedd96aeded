/** Folded nets as a person sees them: standing on a table, in the order in which to paint. */
import type { Net, Point, SeenPart } from '../model.js';
import { FOLD_FACET_MM, VIEW_PLANE_MM } from '../units/tolerances.js';
import { faceOf } from './face.js';
import { type Facet, facetsOf, isSeam } from './facets.js';
import { type Folding, pose } from './pose.js';
import { cross3, dot3, length3, type Point3, scale3 } from './space.js';
import { fragments, project, type SolidFace, type ViewPoint } from './view.js';

/** A net, how far it is folded, and where it stands on the table, mm. */
export interface Standing {
  readonly net: Net;
  readonly folding?: Folding;
  /** Left and right of the middle, and toward the back, mm; the middle of its foot goes there. */
  readonly at?: Point;
  /** How high its lowest point is over the table; 0 if not given. */
  readonly height?: number;
  /** Turn about the upright axis, radians. */
  readonly turn?: number;
}

type Turn = (p: Point3) => Point3;

/** The least turn that brings a net's `up` to z; a net upside down turns about x. */
function upright({ up = [0, 0, 1] }: Net): Turn {
  const u = scale3(up, 1 / length3(up));
  const axis = cross3(u, [0, 0, 1]);
  const sine = length3(axis);
  if (!(sine > 0)) return u[2] > 0 ? p => p : p => [p[0], -p[1], -p[2]];
  const k = scale3(axis, 1 / sine);
  const cosine = u[2];
  return p => {
    // Rodrigues' rotation formula.
    const along = dot3(k, p) * (1 - cosine);
    const side = cross3(k, p);
    return [
      p[0] * cosine + side[0] * sine + k[0] * along,
      p[1] * cosine + side[1] * sine + k[1] * along,
      p[2] * cosine + side[2] * sine + k[2] * along,
    ];
  };
}

function about(angle: number): Turn {
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  return ([x, y, z]) => [c * x - s * y, s * x + c * y, z];
}

/** Facets of a standing net with the move that stands it up. */
function stand({ net, folding = 1, at = [0, 0], height = 0, turn = 0 }: Standing) {
  const folded = pose(net, folding);
  const facets = [...folded.values()].flatMap(p =>
    facetsOf(faceOf(p.panel), p, 10 * FOLD_FACET_MM),
  );
  const [up, round] = [upright(net), about(turn)];
  const turned: Turn = p => round(up(p));
  const all = facets.flatMap(f => f.loops.flat().map(turned));
  const span = (axis: 0 | 1 | 2) => {
    const values = all.map(p => p[axis]);
    return [Math.min(...values), Math.max(...values)] as const;
  };
  const [x, y, z] = [span(0), span(1), span(2)];
  const shift: Point3 = [at[0] - (x[0] + x[1]) / 2, at[1] - (y[0] + y[1]) / 2, height - z[0]];
  const placed: Turn = p => {
    const q = turned(p);
    return [q[0] + shift[0], q[1] + shift[1], q[2] + shift[2]];
  };
  return { net, facets, placed };
}

/** What is seen of nets that stand together. Facet normals point inside: their front is the inside. */
export function seenParts(standing: readonly Standing[], view: ViewPoint): SeenPart[] {
  const faces: SolidFace[] = [];
  const sources = new Map<string, { net: string; facet: Facet; placed: Turn }>();
  for (const { net, facets, placed } of standing.map(stand)) {
    for (const facet of facets) {
      const id = String(faces.length);
      const [outline, ...holes] = facet.loops.map(l => l.map(placed));
      if (!outline) continue;
      faces.push({ id, outline, holes, hidden: (loop, side) => isSeam(facet, loop, side) });
      sources.set(id, { net: net.id, facet, placed });
    }
  }
  return fragments(faces, view, VIEW_PLANE_MM).map(({ face, side, polygon, edges, light }) => {
    const { net, facet, placed } = sources.get(face)!;
    const see = (p: Point) => project(placed(facet.solid(p)), view);
    const o = see([0, 0]);
    const x = see([1, 0]);
    const y = see([0, 1]);
    return {
      net,
      panel: facet.face.panel.id,
      side: side === 'front' ? 'inside' : 'outside',
      polygon,
      edges,
      light,
      at: [x[0] - o[0], x[1] - o[1], y[0] - o[0], y[1] - o[1], o[0], o[1]],
    };
  });
}
