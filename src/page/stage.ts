/**
 * Where every panel is at any moment of the preview: the nets lie side by side on the table, are folded one
 * after the other by the steps that were proved, then each goes to its place in the closed box.
 */
import { type Face, faceWithin } from '../fold/face.js';
import { type Facet, facetsOf } from '../fold/facets.js';
import { type Folding, type PanelPose, pose } from '../fold/pose.js';
import {
  add3,
  after,
  cross3,
  dot3,
  length3,
  moved,
  type Point3,
  type Rigid,
  STILL,
  scale3,
  sub3,
  turned,
  undone,
} from '../fold/space.js';
import { standing } from '../fold/stand.js';
import { wayOf } from '../fold/way.js';
import { bounds } from '../geom/index.js';
import type { Net } from '../model.js';
import type { PreviewFacts, PreviewNet } from '../preview-model.js';

/** Curled paper stands as strips this near to it, mm: less than a pixel. */
export const STRIPS_MM = 0.15;
/** Between nets that lie beside each other, mm. */
const BESIDE_MM = 14;
/** How wide their rows are, against a square of all their papers. */
const WIDE = 1.7;

/** A part of the box at one moment. */
export interface Standee {
  readonly net: Net;
  readonly poses: readonly PanelPose[];
  /** In the net's own frame. */
  readonly facets: readonly Facet[];
  /** From the net's own frame to the table. */
  readonly world: Rigid;
}

export interface Phase {
  readonly kind: 'fold' | 'place';
  readonly part: number;
  readonly told: string;
}

interface Part {
  readonly net: Net;
  readonly way: (fraction: number) => Folding;
  readonly faces: ReadonlyMap<string, Face>;
  /** First phase of folding, and how many. */
  readonly from: number;
  readonly steps: number;
  /** The phase in which it goes to its place. */
  readonly placed: number | undefined;
  /** The middle of its root, where it lies while it is folded. */
  readonly lies: readonly [number, number];
  readonly root: readonly [number, number];
  readonly closed: Rigid;
  /** The middle of the closed part in its own frame. */
  readonly middle: Point3;
}

export interface Extent {
  readonly low: Point3;
  readonly high: Point3;
}

export class Stage {
  readonly phases: readonly Phase[];
  private readonly parts: readonly Part[];
  private readonly extents = new Map<number, Extent>();
  /** How high a part is carried over the others. */
  private readonly carry: number;

  constructor(facts: Pick<PreviewFacts, 'nets' | 'placing'>) {
    const phases: Phase[] = [];
    const begun = facts.nets.map((n, part) => {
      const from = phases.length;
      for (const told of n.told) phases.push({ kind: 'fold', part, told });
      return { ...n, from };
    });
    const ends = facts.nets.map(n => closedOf(n.net));
    const rows = lying(facts.nets, ends);
    const parts = begun.map(({ net, steps, told, from }, i): Part => {
      const way = wayOf(net, steps);
      const faces = new Map(net.panels.map(p => [p.id, faceWithin(p, STRIPS_MM)]));
      const root = rootMiddle(net);
      const known = { net, way, faces, from, steps: told.length, root, lies: rows[i]! };
      return { ...known, placed: undefined, ...ends[i]! };
    });
    const moving = parts
      .map((p, i) => ({ p, i }))
      .filter(({ p }) => facts.placing[p.net.id] !== undefined)
      .sort((a, b) => orderOf(a.p) - orderOf(b.p));
    const places = new Map<number, number>();
    for (const { p, i } of moving) {
      places.set(i, phases.length);
      phases.push({ kind: 'place', part: i, told: facts.placing[p.net.id]! });
    }
    this.parts = parts.map((p, i) => ({ ...p, placed: places.get(i) }));
    this.phases = phases;
    const tops = this.parts.map(p => heightOf(p));
    this.carry = Math.max(0, ...tops) * 1.15 + 10;
  }

  /** Phases; the preview runs from 0 to this. */
  get length(): number {
    return this.phases.length;
  }

  /** Everything at a moment, 0 to `length`. */
  at(moment: number): Standee[] {
    return this.parts.map(part => {
      const share = part.steps > 0 ? (moment - part.from) / part.steps : 1;
      const poses = [...pose(part.net, part.way(Math.min(1, Math.max(0, share)))).values()];
      const facets = poses.flatMap(p => facetsOf(part.faces.get(p.panel.id)!, p, STRIPS_MM));
      const low = Math.min(...facets.map(f => f.low[2]));
      const gone = part.placed === undefined ? 0 : Math.min(1, Math.max(0, moment - part.placed));
      const [x, y] = part.lies;
      const lies = { ...STILL, at: [x - part.root[0], y - part.root[1], -low] as Point3 };
      const stays = part.placed === undefined && share >= 1;
      const world = stays ? part.closed : gone > 0 ? this.onTheWay(part, lies, gone) : lies;
      return { net: part.net, poses, facets, world };
    });
  }

  /** The room that everything takes, evenly between one phase's end and the next's. */
  extent(moment: number): Extent {
    const i = Math.min(Math.floor(moment), Math.max(0, this.length - 1));
    const [a, b] = [this.extentAt(i), this.extentAt(Math.min(this.length, i + 1))];
    const k = smooth(moment - i);
    const mix = (p: Point3, q: Point3) => add3(scale3(p, 1 - k), scale3(q, k));
    return { low: mix(a.low, b.low), high: mix(a.high, b.high) };
  }

  private extentAt(moment: number): Extent {
    const known = this.extents.get(moment);
    if (known) return known;
    const points = this.at(moment).flatMap(s =>
      s.facets.flatMap(f => f.loops[0]!.map(p => moved(s.world, p))),
    );
    const side = (i: 0 | 1 | 2, pick: (...v: number[]) => number) =>
      points.reduce((m, p) => pick(m, p[i]), points[0]![i]);
    const corner = (pick: (...v: number[]) => number): Point3 => [
      side(0, pick),
      side(1, pick),
      side(2, pick),
    ];
    const found = { low: corner(Math.min), high: corner(Math.max) };
    this.extents.set(moment, found);
    return found;
  }

  /** Lifted, turned while it is carried over, and set down from above. */
  private onTheWay(part: Part, from: Rigid, gone: number): Rigid {
    if (gone >= 1) return part.closed;
    const to = part.closed;
    const [p, q] = [moved(from, part.middle), moved(to, part.middle)];
    const turn = turnBetween(from, to, smooth(ramp(gone, 0.15, 0.7)));
    const k = smooth(ramp(gone, 0.2, 0.7));
    const up = smooth(ramp(gone, 0, 0.3)) - smooth(ramp(gone, 0.65, 1));
    const alone = this.parts.length === 1 ? 0.35 : 1;
    const z = p[2] + (q[2] - p[2]) * smooth(ramp(gone, 0.6, 1)) + up * this.carry * alone;
    const at: Point3 = [p[0] + (q[0] - p[0]) * k, p[1] + (q[1] - p[1]) * k, z];
    return { ...turn, at: sub3(at, turned(turn, part.middle)) };
  }
}

const ramp = (v: number, from: number, to: number) =>
  Math.min(1, Math.max(0, (v - from) / (to - from)));
/** Slow at both ends. */
export const smooth = (t: number): number => {
  const k = Math.min(1, Math.max(0, t));
  return k * k * (3 - 2 * k);
};

function rootMiddle(net: Net): [number, number] {
  const b = bounds(net.panels.find(p => p.id === net.root)!.outline);
  return [(b.minX + b.maxX) / 2, (b.minY + b.maxY) / 2];
}

/** Where the roots' middles lie: the first where it stands, the others to its right and in rows behind. */
function lying(nets: readonly PreviewNet[], closed: readonly Closed[]): [number, number][] {
  const boxes = nets.map(({ net }) => {
    const b = bounds(...net.panels.map(p => p.outline));
    const [x, y] = rootMiddle(net);
    return { left: b.minX - x, right: b.maxX - x, low: b.minY - y, high: b.maxY - y };
  });
  const area = boxes.reduce((s, b) => s + (b.right - b.left) * (b.high - b.low), 0);
  const widest = Math.max(WIDE * Math.sqrt(area), ...boxes.map(b => b.right - b.left));
  const [first] = boxes;
  const stood = moved(closed[0]!.closed, [...rootMiddle(nets[0]!.net), 0]);
  const start = stood[0] + first!.left;
  let [x, y, back] = [start, stood[1] + first!.low, 0];
  return boxes.map(b => {
    if (x > start && x + b.right - b.left > start + widest) {
      [x, y, back] = [start, y + back + BESIDE_MM, 0];
    }
    const at: [number, number] = [x - b.left, y - b.low];
    x += b.right - b.left + BESIDE_MM;
    back = Math.max(back, b.high - b.low);
    return at;
  });
}

interface Closed {
  readonly closed: Rigid;
  readonly middle: Point3;
}

/** The closed part in its place, and its middle. */
function closedOf(net: Net): Closed {
  const stood = standing(net);
  const own = pose(net);
  const root = stood.find(p => p.panel.id === net.root)!;
  const closed = after(root.frame, undone(own.get(net.root)!.frame));
  const points = [...own.values()].flatMap(p =>
    facetsOf(faceWithin(p.panel, STRIPS_MM), p, STRIPS_MM).flatMap(f => [f.low, f.high]),
  );
  const axis = (i: 0 | 1 | 2) => {
    const values = points.map(p => p[i]);
    return (Math.min(...values) + Math.max(...values)) / 2;
  };
  const middle: Point3 = [axis(0), axis(1), axis(2)];
  return { closed, middle };
}

const heightOf = ({ closed, middle }: Part): number => 2 * moved(closed, middle)[2];

/** Lids go on last. */
const orderOf = ({ closed, middle }: Part): number =>
  moved(closed, middle)[2] + (closed.z[2] < 0 ? 1e4 : 0);

/** The turn from one move to another, a share of the way, about one axis. */
function turnBetween(from: Rigid, to: Rigid, share: number): Rigid {
  const back = undone({ ...from, at: [0, 0, 0] });
  const whole = after({ ...to, at: [0, 0, 0] }, back);
  const cosine = Math.min(1, Math.max(-1, (whole.x[0] + whole.y[1] + whole.z[2] - 1) / 2));
  const angle = Math.acos(cosine) * share;
  let axis: Point3 = [whole.y[2] - whole.z[1], whole.z[0] - whole.x[2], whole.x[1] - whole.y[0]];
  // Half a turn has no such axis: it is the sum's.
  if (length3(axis) < 1e-6) {
    const sums: Point3[] = [
      [whole.x[0] + 1, whole.x[1], whole.x[2]],
      [whole.y[0], whole.y[1] + 1, whole.y[2]],
      [whole.z[0], whole.z[1], whole.z[2] + 1],
    ];
    axis = sums.reduce((a, b) => (length3(b) > length3(a) ? b : a));
  }
  const u = scale3(axis, 1 / length3(axis));
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  // Rodrigues' rotation formula.
  const spin = (p: Point3): Point3 =>
    add3(add3(scale3(p, c), scale3(cross3(u, p), s)), scale3(u, dot3(u, p) * (1 - c)));
  return { x: spin(from.x), y: spin(from.y), z: spin(from.z), at: [0, 0, 0] };
}
