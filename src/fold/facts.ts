/** What features ask of a net: its free edges, its folds, and what lies on what when it is closed. */
import type { NetFacts } from '../contracts.js';
import {
  cutPathAt,
  distance,
  endOf,
  flatten,
  isOnPath,
  line,
  openPath,
  pointAt,
  steps,
} from '../geom/index.js';
import type { Affine, ClosureHalf, EdgeRef, Net, PanelRef, Path, Point } from '../model.js';
import { CLOSE_MM, MEASURE_MM } from '../units/tolerances.js';
import { AREAS, FLAT, layIn } from './areas.js';
import { smooth } from './chain.js';
import { creasesOf, type Edge, edgesOf } from './edges.js';
import { depthIn, faceOf } from './face.js';
import { closureMate, drawNet } from './outline.js';
import { nearestOn, normalAt, type Pose, place, pose } from './pose.js';
import { dot3, sub3 } from './space.js';
import { standing } from './stand.js';

/** Papers further apart than this many thicknesses do not lie on each other. */
const MOST_LAYERS = 4;

export const netFacts: NetFacts = {
  freeEdges,
  scores,
  over,
  lay,
  ...AREAS,
  hooks,
  closureHalves,
  inPlace,
};

function freeEdges(net: Net, panel: string): Path[] {
  const bound = net.joins
    .flatMap((j): (PanelRef | EdgeRef)[] => [j.a, j.b])
    .filter((ref): ref is EdgeRef => ref.panel === panel && 'along' in ref)
    .map(ref => ref.along);
  const own = edgesOf(net).open.filter(e => e.panel === panel);
  const open = own.flatMap(e => apartFrom(e, bound));
  return runs(open);
}

/** What is left of an edge beside the stretches that must meet something. */
function apartFrom(edge: Edge, bound: readonly Path[]): Edge[] {
  const own = openPath(edge.step.from, [edge.step.segment]);
  const ends = bound.flatMap(b => [b.start, endOf(b)]).filter(p => isOnPath(p, own));
  const parts = [...steps(cutPathAt(own, ends))];
  const left = parts.filter(s => !bound.some(b => isOnPath(pointAt(s, 0.5), b)));
  return left.map(step => ({ ...edge, step }));
}

/** Edges that run on from each other as one path each. */
function runs(edges: readonly Edge[]): Path[] {
  const touches = (a: Edge, b: Edge) => distance(a.step.segment.to, b.step.from) === 0;
  const used = new Set<Edge>();
  const follow = (first: Edge): Path => {
    const chain: Edge[] = [];
    let here: Edge | undefined = first;
    while (here && !used.has(here)) {
      used.add(here);
      chain.push(here);
      const end: Edge = here;
      here = edges.find(e => !used.has(e) && touches(end, e));
    }
    const closed = chain.length > 1 && touches(chain.at(-1)!, first);
    return smooth(
      chain.map(e => e.step),
      closed,
    );
  };
  const begins = edges.filter(e => !edges.some(before => touches(before, e)));
  return [...begins, ...edges].flatMap(e => (used.has(e) ? [] : [follow(e)]));
}

function scores(net: Net, panel?: string): Path[] {
  const all = drawNet(net).scores.map(s => s.path);
  if (panel === undefined) return all;
  const folds = creasesOf(net).filter(h => h.parent === panel || h.child === panel);
  const own = folds.map(h => h.along);
  return all.filter(s => own.some(h => isOnPath(middle(h), s)));
}

const middle = (path: Path): Point => {
  const all = [...steps(path)];
  return pointAt(all[all.length >> 1]!, all.length % 2 ? 0.5 : 0);
};

function over(net: Net, panel: string, at: Point) {
  const folded = pose(net);
  const own = folded.get(panel)!;
  const here = place(own, at);
  const normal = normalAt(own, at);
  const most = MOST_LAYERS * net.thickness + CLOSE_MM;
  return net.panels
    .flatMap(other => {
      if (other.id === panel) return [];
      const theirs = folded.get(other.id)!;
      const mate = nearestOn(theirs, here).at;
      if (Math.abs(dot3(normal, normalAt(theirs, mate))) < FLAT) return [];
      const toInside = dot3(sub3(place(theirs, mate), here), normal);
      if (!(Math.abs(toInside) <= most && depthIn(faceOf(other), mate) > 0)) return [];
      return [{ panel: other.id, at: mate, toInside }];
    })
    .sort((a, b) => Math.abs(a.toInside) - Math.abs(b.toInside));
}

function lay(net: Net, a: string, b: string): Affine | undefined {
  const folded = pose(net);
  return layIn(folded.get(a)!, folded.get(b)!);
}

/** Where edges of other panels hook in over this one. */
function hooks(net: Net, panel: string): { panel: string; line: Path }[] {
  const folded = pose(net);
  const own = folded.get(panel)!;
  return net.joins.flatMap(({ kind, a, b }) => {
    if (kind !== 'tuck' || b.panel !== panel || !('along' in a)) return [];
    const theirs = folded.get(a.panel)!;
    const points = flatten(a.along, MEASURE_MM);
    const [first, ...more] = points.map(p => nearestOn(own, place(theirs, p)).at);
    return [{ panel: a.panel, line: openPath(first!, more.map(line)) }];
  });
}

/** Where the halves of the closures are stuck: on the faces that look at each other. */
function closureHalves(net: Net): ClosureHalf[] {
  const folded: Pose = pose(net);
  return net.closures.flatMap((c): ClosureHalf[] => {
    const [a, b] = [folded.get(c.a)!, folded.get(c.b)!];
    const mate = closureMate(c, folded);
    const way = sub3(place(b, mate), place(a, c.at));
    const { diameter } = c;
    // Paper without thickness lies in one plane: the first half is on the panel that closes over.
    const inward = dot3(way, normalAt(a, c.at)) >= 0;
    const outward = dot3(way, normalAt(b, mate)) > 0 || Math.hypot(...way) === 0;
    return [
      { panel: c.a, face: inward ? 'inside' : 'outside', at: c.at, diameter },
      { panel: c.b, face: outward ? 'outside' : 'inside', at: mate, diameter },
    ];
  });
}

function inPlace(before: Net, after: Net): Net {
  const rootOf = (net: Net) => standing(net).find(p => p.panel.id === net.root)!.frame.at;
  const turn = before.stands?.turn ?? 0;
  const moved = { ...after, stands: { at: [0, 0], height: 0, turn } } as const;
  const [x, y, height] = sub3(rootOf(before), rootOf(moved));
  return { ...after, stands: { at: [x, y], height, turn } };
}
