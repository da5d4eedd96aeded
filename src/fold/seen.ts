/** Folded nets as a person sees them: standing on a table, in the order in which to paint. */
import { distanceToPath } from '../geom/index.js';
import type { Affine, Net, Point, SeenPart } from '../model.js';
import { FOLD_FACET_MM, ON_PATH_MM, VIEW_PLANE_MM } from '../units/tolerances.js';
import { faceOf } from './face.js';
import { type Facet, facetsOf, isSeam } from './facets.js';
import type { Folding } from './pose.js';
import { after } from './space.js';
import { standing, turnedTo } from './stand.js';
import { fragments, project, type SolidFace, type ViewPoint } from './view.js';

/** A net, how far it is folded, and where it stands on the table, mm. */
export interface Standing {
  readonly net: Net;
  readonly folding?: Folding;
  /** Left and right of the middle, and toward the back, mm: where the middle of the box goes. */
  readonly at?: Point;
  /** How high the box is over the table; 0 if not given. */
  readonly height?: number;
  /** Turn about the upright axis, radians. */
  readonly turn?: number;
}

/** Facets of a standing net with the move that stands it up. */
function stand(
  { net, folding = 1, at = [0, 0], height = 0, turn = 0 }: Standing,
  tolerance: number,
) {
  const move = turnedTo(turn, [at[0], at[1], height]);
  const facets = standing(net, folding, tolerance).flatMap(p =>
    facetsOf(faceOf(p.panel), { ...p, frame: after(move, p.frame) }, tolerance),
  );
  return { net, facets };
}

/** What is seen of nets that stand together, curled paper as flat strips within `tolerance` mm of it. Facet
 *  normals point inside: their front is the inside. */
export function seenParts(
  nets: readonly Standing[],
  view: ViewPoint,
  tolerance: number = 10 * FOLD_FACET_MM,
): SeenPart[] {
  const faces: SolidFace[] = [];
  const sources = new Map<string, { net: string; facet: Facet }>();
  for (const { net, facets } of nets.map(n => stand(n, tolerance))) {
    const soft = net.hinges.filter(h => h.soft).map(h => h.along);
    // Paper that is rolled has no crease there.
    const rolled = ({ loops, flat }: Facet, loop: number, side: number) => {
      const points = loops[loop]!;
      const ends = [points[side]!, points[(side + 1) % points.length]!].map(flat);
      return soft.some(path => ends.every(p => distanceToPath(p, path) <= ON_PATH_MM));
    };
    for (const facet of facets) {
      const id = String(faces.length);
      const [outline, ...holes] = facet.loops;
      if (!outline) continue;
      const hidden = (loop: number, side: number) =>
        isSeam(facet, loop, side) || rolled(facet, loop, side);
      faces.push({ id, outline, holes, hidden });
      sources.set(id, { net: net.id, facet });
    }
  }
  // A facet is cut into many parts, which all are seen by one affine image of the net.
  const images = new Map<Facet, Affine>();
  const imageOf = (facet: Facet): Affine => {
    const known = images.get(facet);
    if (known) return known;
    const see = (p: Point) => project(facet.solid(p), view);
    const [o, x, y] = [see([0, 0]), see([1, 0]), see([0, 1])];
    const image: Affine = [x[0] - o[0], x[1] - o[1], y[0] - o[0], y[1] - o[1], o[0], o[1]];
    images.set(facet, image);
    return image;
  };
  return fragments(faces, view, VIEW_PLANE_MM).map(({ face, side, polygon, edges, light }) => {
    const { net, facet } = sources.get(face)!;
    return {
      net,
      panel: facet.face.panel.id,
      side: side === 'front' ? 'inside' : 'outside',
      polygon,
      edges,
      light,
      at: imageOf(facet),
    };
  });
}
