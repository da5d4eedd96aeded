/** Folded nets as a person sees them: standing on a table, in the order in which to paint. */
import { distanceToPath } from '../geom/index.js';
import type { Affine, Film, Lit, Net, Point, SeenPart } from '../model.js';
import { FOLD_FACET_MM, ON_PATH_MM, VIEW_PLANE_MM } from '../units/tolerances.js';
import { faceOf, faceWithin } from './face.js';
import { type Facet, facetsOf, isSeam } from './facets.js';
import { filmFacets } from './films.js';
import { heightSeen } from './height.js';
import type { Folding } from './pose.js';
import { FINE_LAMP, faceShadows, type LampPoints, type Shadows, tableShadows } from './shadow.js';
import { after, dot3, scale3 } from './space.js';
import { standing, turnedTo } from './stand.js';
import { squareFrom, turnOf } from './turn.js';
import { type Fragment, fragments, LAMP, project, type SolidFace, type ViewPoint } from './view.js';

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
  /** Those of the box's films that lie in it are seen. */
  readonly films?: readonly Film[];
}

/** Paper nearer to a face than this casts no shadow on it, mm. */
const UPON_MM = 0.25;

interface Source {
  readonly net: string;
  readonly facet: Facet;
  readonly film?: boolean;
}

/** Facets of a standing net with the move that stands it up. */
function stand(
  { net, folding = 1, at = [0, 0], height = 0, turn = 0, films = [] }: Standing,
  tolerance: number,
) {
  const move = turnedTo(turn, [at[0], at[1], height]);
  const poses = standing(net, folding, tolerance).map(p => ({ ...p, frame: after(move, p.frame) }));
  const sources = poses.flatMap(posed => {
    const own = films.filter(f => f.net === net.id && f.panel === posed.panel.id);
    return [
      ...facetsOf(faceOf(posed.panel), posed, tolerance).map(
        (facet): Source => ({ net: net.id, facet }),
      ),
      ...own
        .flatMap(f => filmFacets(f, posed, tolerance))
        .map((facet): Source => ({ net: net.id, facet, film: true })),
    ];
  });
  return { net, poses, sources };
}

/** What is seen of nets that stand together, curled paper as flat strips within `tolerance` mm of it. Facet
 *  normals point inside: their front is the inside. */
export function seenParts(
  nets: readonly Standing[],
  view: ViewPoint,
  tolerance: number = 10 * FOLD_FACET_MM,
): SeenPart[] {
  const { parts } = look(nets, view, tolerance);
  return parts.map(p => p.part);
}

/** The same with the light on it, and what falls on the table. */
export function litParts(
  nets: readonly Standing[],
  view: ViewPoint,
  tolerance: number = 10 * FOLD_FACET_MM,
  lamp: LampPoints = FINE_LAMP,
): { readonly parts: readonly SeenPart[]; readonly table: Shadows } {
  const { parts, stood } = look(nets, view, tolerance);
  const papers = stood.flatMap(({ poses }) =>
    poses.flatMap(p => facetsOf(faceWithin(p.panel, lamp.strips), p, lamp.strips)),
  );
  const known = new Map<string, Lit>();
  const lit = ({ face, side }: Fragment, { facet, film }: Source): Lit => {
    const key = `${face} ${side}`;
    const found = known.get(key) ?? {
      ...turning(facet, side, view),
      height: heightSeen(facet.normal, facet.loops[0]![0]!, view),
      shadows: film ? [] : faceShadows(facet, side, papers, view, UPON_MM, lamp),
    };
    known.set(key, found);
    return found;
  };
  return {
    parts: parts.map(({ part, fragment, source }) => ({ ...part, lit: lit(fragment, source) })),
    table: tableShadows(papers, view, lamp.table),
  };
}

function look(nets: readonly Standing[], view: ViewPoint, tolerance: number) {
  const faces: SolidFace[] = [];
  const all: Source[] = [];
  const stood = nets.map(n => stand(n, tolerance));
  for (const { net, sources } of stood) {
    const soft = net.hinges.filter(h => h.soft).map(h => h.along);
    // Paper that is rolled has no crease there.
    const rolled = ({ loops, flat }: Facet, loop: number, side: number) => {
      const points = loops[loop]!;
      const ends = [points[side]!, points[(side + 1) % points.length]!].map(flat);
      return soft.some(path => ends.every(p => distanceToPath(p, path) <= ON_PATH_MM));
    };
    for (const source of sources) {
      const { facet } = source;
      const [outline, ...holes] = facet.loops;
      if (!outline) continue;
      const hidden = (loop: number, side: number) =>
        isSeam(facet, loop, side) || rolled(facet, loop, side);
      faces.push({ id: String(all.length), outline, holes, hidden });
      all.push(source);
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
  const parts = fragments(faces, view, VIEW_PLANE_MM).map(fragment => {
    const { face, side, polygon, edges, light } = fragment;
    const source = all[Number(face)]!;
    const { net, facet, film } = source;
    const part: SeenPart = {
      net,
      panel: facet.face.panel.id,
      side: side === 'front' ? 'inside' : 'outside',
      polygon,
      edges,
      light,
      at: imageOf(facet),
      ...(film && { film }),
    };
    return { part, fragment, source };
  });
  return { parts, stood };
}

/** The light at the two joints of a strip of curled paper. */
function turning(facet: Facet, side: 'front' | 'back', view: ViewPoint): Pick<Lit, 'turning'> {
  const turn = turnOf(facet);
  if (!turn) return {};
  const [a, b] = [project(turn.from, view), project(turn.to, view)];
  const to = squareFrom(a, b, project(turn.ruling, view));
  if (!to) return {};
  const [p, q] = turn.normals.map(n => dot3(scale3(n, side === 'front' ? 1 : -1), LAMP));
  return { turning: { from: a, to, lights: [p!, q!] } };
}
