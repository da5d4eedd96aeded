/**
 * The edges of a net's panels, cut up where they meet one another, and sorted into what is folded,
 * what two panels share without a hinge, and what lies open.
 */
import {
  distance,
  nearestOnStep,
  partOfStep,
  pointAt,
  reverseSegment,
  type Step,
  samePoint,
  stepLength,
  steps,
} from '../geom/index.js';
import type { Hinge, Net, Path, Point } from '../model.js';
import { SAME_POINT_MM } from '../units/tolerances.js';

/** All folds of a net, those that close a ring of panels too. */
export const creasesOf = (net: Net): readonly Hinge[] => [...net.hinges, ...(net.ringHinges ?? [])];

/** A piece of one panel's outline between two numbered corners of the net. */
export interface Edge {
  readonly panel: string;
  readonly from: number;
  readonly to: number;
  readonly step: Step;
}

export interface Edges {
  /** The corners by number. */
  readonly corners: readonly Point[];
  /** Edges on the outside of the net and round its gaps, each with its panel on the left. */
  readonly open: readonly Edge[];
  /** Edges that two panels share without a hinge, given once. */
  readonly shared: readonly Edge[];
  /** Hinges that do not lie on both outlines, and on whose outline they are missing. */
  readonly astray: readonly { readonly hinge: Hinge; readonly panel: string }[];
}

/** Numbers points so that points within `SAME_POINT_MM` have one number. */
class Corners {
  readonly points: Point[] = [];
  private readonly cells = new Map<string, number[]>();

  number(p: Point): number {
    // Cells four tolerances wide: a point's equals are in its own cell or in a neighbour.
    const cell = (v: number) => Math.floor(v / (4 * SAME_POINT_MM));
    const [cx, cy] = [cell(p[0]), cell(p[1])];
    for (let dx = -1; dx <= 1; dx++) {
      for (let dy = -1; dy <= 1; dy++) {
        for (const n of this.cells.get(`${cx + dx} ${cy + dy}`) ?? []) {
          if (samePoint(this.points[n]!, p)) return n;
        }
      }
    }
    const n = this.points.push(p) - 1;
    const key = `${cx} ${cy}`;
    this.cells.set(key, [...(this.cells.get(key) ?? []), n]);
    return n;
  }
}

/** A step divided at every corner that lies on it. */
function divide(step: Step, corners: readonly Point[]): Step[] {
  const { from, segment } = step;
  const reach = stepLength(step) + SAME_POINT_MM;
  const inner = corners
    // A corner further off than the step is long is not on it: a quick no.
    .filter(p => Math.abs(p[0] - from[0]) < reach && Math.abs(p[1] - from[1]) < reach)
    .filter(p => distance(p, from) < reach && distance(p, segment.to) < reach)
    .filter(p => !samePoint(p, from) && !samePoint(p, segment.to))
    .map(p => ({ p, ...nearestOnStep(p, step) }))
    .filter(n => n.distance <= SAME_POINT_MM && n.t > 0 && n.t < 1)
    .sort((a, b) => a.t - b.t);
  if (inner.length === 0) return [step];
  const marks = [{ p: from, t: 0 }, ...inner, { p: segment.to, t: 1 }];
  return marks.slice(1).map((end, i) => {
    const begin = marks[i]!;
    const part = partOfStep(step, begin.t, end.t).segment;
    return { from: begin.p, segment: { ...part, to: end.p } };
  });
}

/** A net's edges are asked for by its check and its drawing alike. */
const known = new WeakMap<Net, Edges>();

/** All edges of a net, sorted. */
export function edgesOf(net: Net): Edges {
  const found = known.get(net) ?? sorted(net);
  known.set(net, found);
  return found;
}

function sorted(net: Net): Edges {
  const creases = creasesOf(net);
  const corners = new Corners();
  const middles = new Corners();
  for (const path of [...net.panels.map(p => p.outline), ...creases.map(h => h.along)]) {
    corners.number(path.start);
    for (const s of path.segments) corners.number(s.to);
  }
  const number = (panel: string, path: Path): Edge[] =>
    [...steps(path)].flatMap(step =>
      divide(step, corners.points).map(part => {
        const from = corners.number(part.from);
        const to = corners.number(part.segment.to);
        const [p, q] = [corners.points[from]!, corners.points[to]!];
        return { panel, from, to, step: { from: p, segment: { ...part.segment, to: q } } };
      }),
    );
  const key = (e: Edge) => `${e.from} ${e.to} ${middles.number(pointAt(e.step, 0.5))}`;
  const backKey = (e: Edge) => `${e.to} ${e.from} ${middles.number(pointAt(e.step, 0.5))}`;

  const byPanel = new Map<string, Map<string, Edge>>();
  for (const p of net.panels) {
    byPanel.set(p.id, new Map(number(p.id, p.outline).map(e => [key(e), e])));
  }
  const astray: { hinge: Hinge; panel: string }[] = [];
  for (const hinge of creases) {
    const along = number(hinge.parent, hinge.along);
    const sides = [
      { panel: hinge.parent, keys: along.map(key) },
      { panel: hinge.child, keys: along.map(backKey) },
    ];
    for (const { panel, keys } of sides) {
      const edges = byPanel.get(panel);
      if (!edges || !keys.every(k => edges.has(k))) astray.push({ hinge, panel });
      else for (const k of keys) edges.delete(k);
    }
  }
  const left = new Map<string, Edge[]>();
  for (const edges of byPanel.values()) {
    for (const [k, e] of edges) left.set(k, [...(left.get(k) ?? []), e]);
  }
  const open: Edge[] = [];
  const shared: Edge[] = [];
  for (const [k, list] of left) {
    for (const e of list) {
      const back = backKey(e);
      if (!left.has(back)) open.push(e);
      else if (k < back) shared.push(e);
    }
  }
  return { corners: corners.points, open, shared, astray };
}

export const turnedBack = (e: Edge): Edge => ({
  panel: e.panel,
  from: e.to,
  to: e.from,
  step: { from: e.step.segment.to, segment: reverseSegment(e.step) },
});
