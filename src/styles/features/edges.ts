/** The free edges of a panel as a person would name them, and frames that stand on them. */
import type { FeatureAsk } from '../../contracts.js';
import {
  add,
  cross,
  distance,
  dot,
  endOf,
  lerp,
  perp,
  scale,
  steps,
  sub,
  unit,
} from '../../geom/index.js';
import type { Affine, Point } from '../../model.js';
import { type ChoiceSpec, ParamError } from '../../params.js';
import { GAP_MM } from '../../units/tolerances.js';

const SIDES = ['up', 'down', 'left', 'right'] as const;
type Side = (typeof SIDES)[number];

/** The parameter by which a feature is put on an edge. */
export const EDGE: ChoiceSpec = {
  kind: 'choice',
  default: 'auto',
  choices: ['auto', ...SIDES],
  help: 'Which free edge, seen on the outside with the net upright; auto is the one opposite the fold.',
};

/** Shorter stretches are what paper's thickness leaves beside a fold: no edge for a hand, mm. */
export const LEAST_EDGE = 3;

/** A straight stretch of a panel's edge where nothing hangs and nothing must meet. It runs
 *  counter-clockwise round the panel. */
export interface FreeEdge {
  readonly from: Point;
  readonly to: Point;
  readonly length: number;
  readonly middle: Point;
  readonly along: Point;
  /** Unit direction into the panel. */
  readonly inward: Point;
  readonly side: Side;
}

export function straightEdges({ net, panel, facts }: FeatureAsk): FreeEdge[] {
  return facts
    .freeEdges(net, panel.id)
    .flatMap(run => [...steps(run)])
    .filter(s => s.segment.kind === 'line' && distance(s.from, s.segment.to) >= LEAST_EDGE)
    .map(({ from, segment: { to } }): FreeEdge => {
      const along = unit(sub(to, from));
      const inward = perp(along);
      return {
        from,
        to,
        length: distance(from, to),
        middle: lerp(from, to, 0.5),
        along,
        inward,
        side: sideOf(scale(inward, -1)),
      };
    });
}

/** Outward, seen on the outside: the net's x runs the other way there. */
const sideOf = ([x, y]: Point): Side =>
  Math.abs(x) > Math.abs(y) ? (x > 0 ? 'left' : 'right') : y > 0 ? 'up' : 'down';

/** The edge asked for. Throws `ParamError` where the panel has none. */
export function chosenEdge(ask: FeatureAsk, wanted: string): FreeEdge {
  const edges = straightEdges(ask);
  const of = edges.filter(e => wanted === 'auto' || e.side === wanted);
  if (of.length === 0) {
    const sides = SIDES.filter(s => edges.some(e => e.side === s));
    throw new ParamError(
      'edge',
      wanted,
      sides.length > 0
        ? `a free straight edge of ${ask.panel.id}: ${sides.join(', ')}`
        : `a straight edge that is free, and ${ask.panel.id} has none`,
      sides.length > 0 ? 'choose one of these, or auto' : 'choose another panel',
    );
  }
  const far = farness(ask);
  const better = (a: FreeEdge, b: FreeEdge) =>
    far(b) > far(a) || (far(b) === far(a) && b.length > a.length) ? b : a;
  return of.reduce(better);
}

/** The edge asked for with all that lies on one line with it: a notch does not part it. */
export function wholeEdge(ask: FeatureAsk, wanted: string): FreeEdge {
  const edge = chosenEdge(ask, wanted);
  const on = straightEdges(ask).filter(
    e => e.side === edge.side && Math.abs(dot(sub(e.middle, edge.middle), edge.inward)) <= GAP_MM,
  );
  const run = (p: Point) => dot(sub(p, edge.middle), edge.along);
  const from = on.map(e => e.from).reduce((a, b) => (run(b) < run(a) ? b : a));
  const to = on.map(e => e.to).reduce((a, b) => (run(b) > run(a) ? b : a));
  return { ...edge, from, to, length: distance(from, to), middle: lerp(from, to, 0.5) };
}

/** How far an edge is from the fold that its panel hangs on; of the root, its length. Rounded, so
 *  that edges as good as equal are chosen by their length. */
function farness({ net, panel }: FeatureAsk): (edge: FreeEdge) => number {
  const hinge = net.hinges.find(h => h.child === panel.id);
  if (!hinge) return e => Math.round(e.length);
  const { start } = hinge.along;
  const along = sub(endOf(hinge.along), start);
  return e => Math.round(Math.abs(cross(along, sub(e.middle, start))) / Math.hypot(...along));
}

/** What `at` asks of a point on an edge: its part along the edge and its part into the panel. */
export function shiftOn({ at: [x, y] }: FeatureAsk, edge: FreeEdge): readonly [number, number] {
  // The net's x runs the other way on the outside.
  return [dot([-x, y], edge.along), dot([-x, y], edge.inward)];
}

/** A frame on an edge: x along it as seen on the outside, y out of the panel, the origin `deep` mm
 *  inside its middle. */
export function frameOn(edge: FreeEdge, along: number, deep: number): Affine {
  const { along: u, inward: v } = edge;
  const o = add(edge.middle, add(scale(u, along), scale(v, deep)));
  return [u[0], u[1], -v[0], -v[1], o[0], o[1]];
}
