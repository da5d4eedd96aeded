/** The fold tree, and where every point of a net is at any moment of folding. */
import { bounds, partOf, pathLength, startTangent } from '../geom/index.js';
import type { Bounds, Hinge, Net, Panel, Path, Point } from '../model.js';
import { Curl } from './bend.js';
import {
  add3,
  after,
  moved,
  movedBack,
  type Point3,
  type Rigid,
  STILL,
  scale3,
  turnAbout,
  undone,
} from './space.js';

/** A panel at one moment of folding: a rigid move, and the curl if it bends. */
export interface PanelPose {
  readonly panel: Panel;
  readonly frame: Rigid;
  readonly curl?: Curl;
}
/** By panel id, in the order of folding from the root. */
export type Pose = ReadonlyMap<string, PanelPose>;

/** How far each hinge and each curled panel has come: 0 is flat, 1 is closed. One number folds
 *  all alike; a function folds each hinge on its own, a child's curl along with it; with `curl` the
 *  panels curl on their own too. */
export type Folding = number | ((hinge: Hinge) => number) | Partwise;
export interface Partwise {
  hinge(hinge: Hinge): number;
  curl(panel: Panel): number;
}

/** Hinges in the order of folding: each one's parent is the root or a child of one before it.
 *  Throws when the hinges are not a tree over all panels. */
export function foldOrder(net: Net): readonly Hinge[] {
  const below = new Map<string, Hinge[]>();
  for (const h of net.hinges) below.set(h.parent, [...(below.get(h.parent) ?? []), h]);
  const seen = new Set([net.root]);
  const order: Hinge[] = [];
  const reached = [net.root];
  for (const id of reached) {
    for (const h of below.get(id) ?? []) {
      if (seen.has(h.child)) throw new Error(`${net.id}: panel ${h.child} has two parents`);
      seen.add(h.child);
      reached.push(h.child);
      order.push(h);
    }
  }
  const lost = net.panels.filter(p => !seen.has(p.id)).map(p => p.id);
  if (lost.length > 0) throw new Error(`${net.id}: no hinge leads to ${lost.join(', ')}`);
  return order;
}

/** Where every panel is. The root stays at z = 0 (a curled root with its middle).
 *  Throws for a net that is no tree. */
export function pose(net: Net, folding: Folding = 1): Pose {
  const panels = new Map(net.panels.map(p => [p.id, p]));
  const order = foldOrder(net);
  const { hinge: fractionOf, curl: curlOf } = partwise(folding, order);
  const out = new Map<string, PanelPose>();
  const put = (id: string, hinge: Hinge | undefined, frameOf: (curl?: Curl) => Rigid) => {
    const panel = panels.get(id);
    if (!panel) throw new Error(`${net.id}: a hinge names panel ${id}, which does not exist`);
    const curl = panel.bend && new Curl(panel.bend, curlOf(panel, hinge));
    out.set(id, { panel, frame: frameOf(curl), ...(curl && { curl }) });
  };
  put(net.root, undefined, curl =>
    curl ? undone(curl.tangent(middleReach(curl, panels.get(net.root)!))) : STILL,
  );
  for (const hinge of order) {
    const fraction = fractionOf(hinge);
    const { at, tangent } = middleOf(hinge.along);
    // Positive angles lift what lies to the right of the hinge: a left-handed turn about it.
    const turn = turnAbout(at, tangent, -angleAt(hinge, fraction));
    const rolled = after(rollAt(hinge, fraction, tangent), turn);
    const lying = after(tangentFrame(out.get(hinge.parent)!, at), rolled);
    put(hinge.child, hinge, curl =>
      curl ? after(lying, undone(curl.tangent(curl.reach(at)))) : lying,
    );
  }
  return out;
}

/**
 * The fold at a hinge on the way. Along a curved one the tangent of half of it grows with the curl
 * (k_flat = κ cos α: Fuchs & Tabachnikov, Amer. Math. Monthly 106, 1999), so that the two panels
 * stay together near its middle; they part a little further out until the box is closed.
 */
function angleAt({ along, angle }: Hinge, fraction: number): number {
  if (isStraight(along) || Math.abs(angle) >= Math.PI) return angle * fraction;
  return 2 * Math.atan(fraction * Math.tan(angle / 2));
}

/**
 * How far a fold right over is from a sharp one. Between the two panels the paper is half a circle
 * as long as its arc, π/2 of the lift, its middle at the hinge: closed, each point of the child is as
 * far from the hinge as in the flat, and `lift` off.
 */
function rollAt({ angle, lift = 0 }: Hinge, fraction: number, tangent: Point): Rigid {
  if (lift === 0) return STILL;
  const turn = angle * fraction;
  const whole = (Math.PI / 2) * lift;
  const half = turn / 2;
  const chord = Math.abs(half) < 1e-8 ? whole : (whole * Math.sin(half)) / half;
  const out = chord * Math.cos(half) - (whole / 2) * (1 + Math.cos(turn));
  const up = chord * Math.sin(half) - (whole / 2) * Math.sin(turn);
  return { ...STILL, at: [tangent[1] * out, -tangent[0] * out, up] };
}

export const isStraight = ({ segments }: Path): boolean =>
  segments.length === 1 && segments[0]!.kind === 'line';

/** Each hinge's and each panel's fraction; `hinge` is the one that a panel hangs on. */
function partwise(folding: Folding, order: readonly Hinge[]) {
  if (typeof folding === 'number') return { hinge: () => folding, curl: () => folding };
  if (typeof folding === 'object') return folding;
  const curl = (_: Panel, hinge?: Hinge) => (hinge ? folding(hinge) : rootFraction(order, folding));
  return { hinge: folding, curl };
}

/** A curled root goes with the hinges on it: as far as the one that has come least. */
function rootFraction(order: readonly Hinge[], folding: (h: Hinge) => number): number {
  const root = order[0]?.parent;
  return Math.min(1, ...order.filter(h => h.parent === root).map(folding));
}

interface Middle {
  readonly at: Point;
  readonly tangent: Point;
}
/** A net is folded many times over: the lengths of its curved hinges are worked out once. */
const middles = new WeakMap<Path, Middle>();

/** The point halfway along a path, and the direction there. */
export function middleOf(path: Path): Middle {
  const known = middles.get(path);
  if (known) return known;
  const whole = pathLength(path);
  const rest = partOf(path, whole / 2, whole);
  const middle = { at: rest.start, tangent: startTangent(rest) };
  middles.set(path, middle);
  return middle;
}

/** The move of the panel's plane, or of its tangent plane at a point when it is curled. */
function tangentFrame({ frame, curl }: PanelPose, at: Point): Rigid {
  return curl ? after(frame, curl.tangent(curl.reach(at))) : frame;
}

/** A point of the net in space; `lift` mm off the mid-surface, toward the inside. */
export function place(p: PanelPose, at: Point, lift = 0): Point3 {
  const frame = tangentFrame(p, at);
  const foot = moved(frame, [at[0], at[1], 0]);
  return lift === 0 ? foot : add3(foot, scale3(frame.z, lift));
}

/** Unit normal toward the inside at a point of the net. */
export const normalAt = (p: PanelPose, at: Point): Point3 => tangentFrame(p, at).z;

/** The point of a panel's surface nearest to a point in space, in the net's frame, and how high
 *  the point lies over it, toward the inside. A flat panel counts as endless; of a curled one all
 *  of its curl is looked at, or a stretch from one reach to another. */
export function nearestOn(
  p: PanelPose,
  q: Point3,
  stretch?: readonly [from: number, to: number],
): { readonly at: Point; readonly height: number } {
  const local = movedBack(p.frame, q);
  if (!p.curl) return { at: [local[0], local[1]], height: local[2] };
  const [from, to] = stretch ?? reachOf(p.curl, p.panel.outline);
  return p.curl.nearest(local, from, to);
}

function middleReach(curl: Curl, { outline }: Panel): number {
  const [from, to] = reachOf(curl, outline);
  return (from + to) / 2;
}

/** An outline's bounds are asked for with every point that is looked for on its curl. */
const boundsKnown = new WeakMap<Path, Bounds>();

function boundsOf(outline: Path): Bounds {
  const b = boundsKnown.get(outline) ?? bounds(outline);
  boundsKnown.set(outline, b);
  return b;
}

/** From where to where a panel's bounds reach along its curl. */
export function reachOf(curl: Curl, outline: Path): [number, number] {
  const b = boundsOf(outline);
  const corners: Point[] = [
    [b.minX, b.minY],
    [b.maxX, b.minY],
    [b.maxX, b.maxY],
    [b.minX, b.maxY],
  ];
  const reaches = corners.map(c => curl.reach(c));
  return [Math.min(...reaches), Math.max(...reaches)];
}
