/** Whether anything passes through anything while a part of a net folds. */
import type { Net, Panel, Spring } from '../model.js';
import { CLOSE_MM, RING_GIVE_MM } from '../units/tolerances.js';
import { depthIn, type Face, faceOf, faceWithin, innerPoints } from './face.js';
import { type Facet, facetsOf } from './facets.js';
import { givesOf, looseFace } from './give.js';
import { afterMove, type Move, onTheWay, type Progress, resting } from './motion.js';
import { isStraight, nearestOn, type Partwise, type Pose, place, pose } from './pose.js';
import { ringGap } from './rings.js';
import { extent } from './space.js';
import { type Hit, worstHit } from './through.js';
import { type Tree, treeOf } from './tree.js';

/** Moments of a move that are looked at; the last is its end. */
const MOMENTS = 20;
/** The end first, then ever finer between: what strikes is found early. */
const SHARES: readonly number[] = spread(MOMENTS);
/** Just before the end, where what lies on each other must be on its own side already. */
const LATE = [0.9, 0.95];
/** Papers further apart than this many thicknesses do not lie on each other. */
const MOST_LAYERS = 4;
/** Curled panels on the way stand as facets this near to them, mm: where two of them cross is then
 *  measured on the curled papers themselves. */
const COARSE_MM = 0.1;

/** Two panels that strike each other on the way. */
export interface Strike extends Hit {
  readonly a: string;
  readonly b: string;
  /** Share of the move that is done. */
  readonly share: number;
  /** They do not meet: a fold that both share would tear. */
  readonly torn?: true;
}

const TORN = { kind: 'through', allowed: RING_GIVE_MM, torn: true } as const;

export interface Sweep {
  readonly strike?: Strike;
  /** Flaps that are bent aside, where nothing strikes. */
  readonly springs: readonly Spring[];
}

/** A net looked at once, for many moves. */
export interface Sweeper {
  readonly tree: Tree;
  sweep(from: Progress, move: Move): Sweep;
}

interface Looked {
  readonly tree: Tree;
  readonly faces: readonly Face[];
  /** Without the edges along folds. */
  readonly loose: readonly Face[];
  readonly gives: ReadonlyMap<string, number>;
  /** Pairs that may lie against each other, both ways round. */
  readonly lying: ReadonlySet<string>;
}

export function sweeperOf(net: Net): Sweeper {
  const tree = treeOf(net);
  const faces = net.panels.map(p => (p.bend ? faceWithin(p, COARSE_MM) : faceOf(p)));
  const lying = net.joins
    .filter(j => j.kind === 'glue' || j.kind === 'tuck')
    .flatMap(j => [`${j.a.panel} ${j.b.panel}`, `${j.b.panel} ${j.a.panel}`]);
  const looked: Looked = {
    tree,
    faces,
    loose: faces.map(f => looseFace(net, f)),
    gives: givesOf(tree),
    lying: new Set(lying),
  };
  return { tree, sweep: (from, move) => new Sweeping(looked, from, move).run() };
}

/** One move of one net. */
class Sweeping {
  private readonly net: Net;
  private readonly before: Partwise;
  /** Panels that keep their place to each other have one name. */
  private readonly parts: ReadonlyMap<string, string>;
  private readonly still: readonly (Shape | undefined)[];
  private readonly snapping: ReadonlySet<string>;
  private readonly worst = new Map<string, number>();
  private readonly aside = new Set<readonly [Face, Face]>();

  constructor(
    private readonly looked: Looked,
    private readonly from: Progress,
    private readonly move: Move,
  ) {
    const { tree, faces } = looked;
    this.net = tree.net;
    this.before = resting(tree, from);
    this.parts = partsOf(tree, this.before, onTheWay(tree, from, move, 0.5));
    const curved = (panel: string) => {
      const hinge = tree.above.get(panel);
      return hinge !== undefined && !isStraight(hinge.along);
    };
    this.snapping = new Set(move.panels.filter(curved));
    const placed = pose(this.net, this.before);
    this.still = faces.map(f =>
      this.parts.get(f.panel.id) === this.net.root ? this.shape(f, placed) : undefined,
    );
  }

  run(): Sweep {
    for (const share of SHARES) {
      const strike = this.strikeAt(share);
      if (strike) return { strike, springs: [] };
    }
    for (const [a, b] of this.aside) {
      const strike = this.wrongSide(a, b) ?? this.wrongSide(b, a);
      if (strike) return { strike, springs: [] };
    }
    return { springs: [...this.worst].map(([panel, by]) => ({ panel, by })) };
  }

  private poseAt(share: number): Pose {
    const { tree } = this.looked;
    const end = share === 1 ? resting(tree, afterMove(this.from, this.move)) : undefined;
    return pose(this.net, end ?? onTheWay(tree, this.from, this.move, share));
  }

  private shape(face: Face, placed: Pose): Shape {
    return shapeOf(facetsOf(face, placed.get(face.panel.id)!, COARSE_MM));
  }

  private strikeAt(share: number): Strike | undefined {
    const { faces, lying } = this.looked;
    const placed = this.poseAt(share);
    const gap = ringGap(this.net, placed);
    if (gap.hinge && gap.by > RING_GIVE_MM) {
      const { parent: a, child: b, along } = gap.hinge;
      return { ...TORN, a, b, share, measured: gap.by, where: along.start };
    }
    const shapes = faces.map((f, i) => this.still[i] ?? this.shape(f, placed));
    for (let i = 0; i < shapes.length; i++) {
      for (let j = i + 1; j < shapes.length; j++) {
        const [p, q] = [shapes[i]!, shapes[j]!];
        const [a, b] = [faces[i]!.panel.id, faces[j]!.panel.id];
        if (this.parts.get(a) === this.parts.get(b) || apart(p, q, this.net.thickness)) continue;
        if (share < 1 && (this.hangs(a, b) || this.hangs(b, a))) continue;
        const hit = worstHit(p.facets, q.facets, this.net.thickness);
        if (!hit) continue;
        if (lying.has(`${a} ${b}`) && (share === 1 || hit.kind === 'crowded')) continue;
        if (share < 1 && this.springs(i, j, placed, hit)) continue;
        return { a, b, share, ...hit };
      }
    }
    return undefined;
  }

  /** What snaps over a curved crease is not looked at beside the panel it hangs on. */
  private hangs(a: string, b: string): boolean {
    return this.snapping.has(a) && this.looked.tree.above.get(a)!.parent === b;
  }

  /** Whether a flap can be bent out of the way of the other panel, by as much as it gives. */
  private springs(i: number, j: number, placed: Pose, hit: Hit): boolean {
    const { faces, loose, gives } = this.looked;
    const [a, b] = [faces[i]!, faces[j]!];
    const [giveA, giveB] = [gives.get(a.panel.id) ?? 0, gives.get(b.panel.id) ?? 0];
    const give = Math.max(giveA, giveB);
    if (!(give > 0)) return false;
    const [p, q] = [this.shape(loose[i]!, placed), this.shape(loose[j]!, placed)];
    const { kind, measured, allowed } = worstHit(p.facets, q.facets, this.net.thickness) ?? hit;
    const by = kind === 'through' ? measured : allowed - measured;
    if (!(by <= give)) return false;
    const { id } = (giveB > giveA ? b : a).panel;
    this.worst.set(id, Math.max(this.worst.get(id) ?? 0, by));
    if (![...this.aside].some(pair => pair[0] === a && pair[1] === b)) this.aside.add([a, b]);
    return true;
  }

  /** A flap that was bent aside must come from the side on which it ends: a point of a that lies on b
   *  at the end, and was over b's other side just before. */
  private wrongSide(a: Face, b: Face): Strike | undefined {
    const most = MOST_LAYERS * this.net.thickness + CLOSE_MM;
    const over = (placed: Pose, at: readonly [number, number]) => {
      const mate = nearestOn(placed.get(b.panel.id)!, place(placed.get(a.panel.id)!, at));
      return depthIn(b, mate.at) > CLOSE_MM ? mate.height : 0;
    };
    const closed = this.poseAt(1);
    for (const share of LATE) {
      const placed = this.poseAt(share);
      for (const at of innerPoints(a)) {
        const [end, here] = [over(closed, at), over(placed, at)];
        const lies = Math.abs(end) > CLOSE_MM && Math.abs(end) <= most;
        if (!lies || !(end * here < 0) || !(Math.abs(here) > CLOSE_MM)) continue;
        const measured = Math.abs(here);
        const pair = { a: a.panel.id, b: b.panel.id, share, where: at };
        return { ...pair, kind: 'through', measured, allowed: CLOSE_MM };
      }
    }
    return undefined;
  }
}

interface Shape {
  readonly facets: readonly Facet[];
  readonly low: readonly [number, number, number];
  readonly high: readonly [number, number, number];
}

function shapeOf(facets: readonly Facet[]): Shape {
  const [low, high] = extent(
    facets,
    f => f.low,
    f => f.high,
  );
  return { facets, low, high };
}

function apart(a: Shape, b: Shape, by: number): boolean {
  for (const i of [0, 1, 2] as const) {
    if (a.low[i] > b.high[i] + by || b.low[i] > a.high[i] + by) return true;
  }
  return false;
}

/** Panels that keep their place to each other have one name: that of the first of them. */
function partsOf(tree: Tree, before: Partwise, halfway: Partwise): ReadonlyMap<string, string> {
  const curls = (panel: Panel) =>
    panel.bend !== undefined && before.curl(panel) !== halfway.curl(panel);
  const { root } = tree.net;
  const parts = new Map([[root, curls(tree.panels.get(root)!) ? `${root}, curling` : root]]);
  for (const h of tree.order) {
    const [parent, child] = [tree.panels.get(h.parent)!, tree.panels.get(h.child)!];
    const loose = before.hinge(h) !== halfway.hinge(h) || curls(parent) || curls(child);
    parts.set(h.child, loose ? h.child : parts.get(h.parent)!);
  }
  return parts;
}

/** k/n for k from 1 to n: n/n, then by halves of what is left. */
function spread(n: number): number[] {
  const out = [n];
  for (let step = n / 2; out.length < n; step /= 2) {
    for (let k = step; k < n; k += step) {
      const whole = Math.round(k);
      if (whole > 0 && !out.includes(whole)) out.push(whole);
    }
  }
  return out.map(k => k / n);
}
