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
  extent,
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
/** The share of its way at which a part is high over the others. */
const CARRIED = 0.5;
/** A part is carried so far over the others, mm. */
const OVER_MM = 6;
/** What is slid in begins so far before its place, in lengths of the box. */
const BEFORE = 1.1;
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

interface Move {
  readonly phase: number;
  readonly to: Rigid;
  /** From its own frame to that of the part that leads. */
  readonly back: Rigid;
  readonly path: Path;
}

/** How a group of parts goes: about its middle, in the frame of the part that leads it. */
interface Path {
  readonly from: Rigid;
  readonly to: Rigid;
  readonly middle: Point3;
  readonly radius: number;
  readonly way: Point3;
}

interface Part {
  readonly net: Net;
  readonly way: (fraction: number) => Folding;
  readonly faces: ReadonlyMap<string, Face>;
  /** First phase of folding, and how many. */
  readonly from: number;
  readonly steps: number;
  readonly moves: readonly Move[];
  /** The middle of its root, where it lies while it is folded. */
  readonly lies: readonly [number, number];
  readonly root: readonly [number, number];
  readonly closed: Closed;
}

export interface Extent {
  readonly low: Point3;
  readonly high: Point3;
}

export class Stage {
  readonly phases: readonly Phase[];
  private readonly parts: readonly Part[];
  private readonly extents = new Map<number, Extent>();
  /** No part that stands reaches higher, and the closed box is no longer. */
  private readonly top: number;
  private readonly long: number;

  constructor(facts: Pick<PreviewFacts, 'nets' | 'placing' | 'gathering'>) {
    const phases: Phase[] = [];
    const begun = facts.nets.map((n, part) => {
      const from = phases.length;
      for (const told of n.told) phases.push({ kind: 'fold', part, told });
      return { ...n, from };
    });
    const ends = facts.nets.map(n => closedOf(n.net));
    const rows = lying(facts.nets, ends);
    const parts = begun.map(({ net, steps, told, from }, i) => {
      const way = wayOf(net, steps);
      const faces = new Map(net.panels.map(p => [p.id, faceWithin(p, STRIPS_MM)]));
      const root = rootMiddle(net);
      const moves: Move[] = [];
      const known = { net, way, faces, from, steps: told.length, root, lies: rows[i]! };
      return { ...known, moves, closed: ends[i]! };
    });
    const indexOf = (id: string) => parts.findIndex(p => p.net.id === id);
    const now = parts.map(({ net, closed, lies, root }): Rigid => {
      if (facts.placing[net.id] === undefined) return closed.frame;
      return lyingAt(lies, root, closed.low);
    });
    for (const { nets, onto, way } of facts.gathering) {
      const told = facts.placing[nets[0]!];
      if (told === undefined) continue;
      const members = nets.map(indexOf);
      const first = members[0]!;
      const lead = parts[first]!.closed.frame;
      const base = onto === undefined ? undefined : indexOf(onto);
      // Where the other part lies, as the two lie in the box.
      const there = base === undefined ? undefined : after(now[base]!, undone(ends[base]!.frame));
      const to = there ? after(there, lead) : lead;
      const group = groupOf(members.map(i => ends[i]!));
      const own = undone(lead);
      const middle = moved(own, group.middle);
      const path = { from: now[first]!, to, middle, radius: group.radius, way: [...way] as const };
      for (const i of members) {
        const back = after(own, ends[i]!.frame);
        const end = there ? after(there, ends[i]!.frame) : ends[i]!.frame;
        parts[i]!.moves.push({ phase: phases.length, to: end, back, path });
        now[i] = end;
      }
      phases.push({ kind: 'place', part: first, told });
    }
    this.parts = parts;
    this.phases = phases;
    const whole = groupOf(ends);
    this.top = Math.max(whole.high[2], ...ends.map(e => Math.max(e.high[2], e.tall)));
    this.long = Math.max(whole.high[0] - whole.low[0], whole.high[1] - whole.low[1]);
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
      return { net: part.net, poses, facets, world: this.worldOf(part, moment, share, low) };
    });
  }

  private worldOf(part: Part, moment: number, share: number, low: number): Rigid {
    const move = part.moves.findLast(m => moment > m.phase);
    if (move) {
      const gone = moment - move.phase;
      return gone >= 1 ? move.to : after(this.onTheWay(move.path, gone), move.back);
    }
    const stays = part.moves.length === 0 && share >= 1;
    return stays ? part.closed.frame : lyingAt(part.lies, part.root, low);
  }

  /** The room that everything takes, evenly between one phase's end and the next's. */
  extent(moment: number): Extent {
    const i = Math.min(Math.floor(moment), Math.max(0, this.length - 1));
    const [a, b] = [this.extentAt(i), this.extentAt(Math.min(this.length, i + 1))];
    const k = smooth(moment - i);
    const mix = (p: Point3, q: Point3, t: number) => add3(scale3(p, 1 - t), scale3(q, t));
    const [low, high] = [mix(a.low, b.low, k), mix(a.high, b.high, k)];
    if (this.phases[i]?.kind !== 'place' || moment <= i || moment >= i + 1) return { low, high };
    // While a part is carried over the others there is room for it.
    const over = this.extentAt(i + CARRIED).high[2];
    const share = Math.min(smooth((moment - i) / 0.3), smooth((i + 1 - moment) / 0.3));
    return { low, high: [high[0], high[1], high[2] + Math.max(0, over - high[2]) * share] };
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

  /** Lifted over all that stands, turned while it is carried, and brought to its place: set down from above,
   *  or set down before it and slid in. */
  private onTheWay({ from, to, middle, radius, way }: Path, gone: number): Rigid {
    const [p, q] = [moved(from, middle), moved(to, middle)];
    const turn = turnBetween(from, to, smooth(ramp(gone, 0.2, 0.6)));
    const slides = way[2] < 1 - 1e-6;
    const before = slides ? add3(q, scale3(way, this.long * BEFORE)) : q;
    const alone = this.parts.length === 1;
    const high = alone ? Math.max(p[2], q[2], radius) : this.top + radius + OVER_MM;
    const k = smooth(ramp(gone, 0.2, 0.65));
    const [down, set] = slides ? [0.6, 0.8] : [0.65, 1];
    const up = smooth(ramp(gone, 0, 0.25));
    const fall = smooth(ramp(gone, down, set));
    const z = p[2] + (high - p[2]) * up + (q[2] - high) * fall;
    const slid = slides ? smooth(ramp(gone, 0.8, 1)) : 0;
    const x = p[0] + (before[0] - p[0]) * k + (q[0] - before[0]) * slid;
    const y = p[1] + (before[1] - p[1]) * k + (q[1] - before[1]) * slid;
    const at: Point3 = [x, y, z];
    return { ...turn, at: sub3(at, turned(turn, middle)) };
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
  const stood = moved(closed[0]!.frame, [...rootMiddle(nets[0]!.net), 0]);
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
  /** To the table, in its place. */
  readonly frame: Rigid;
  /** Its bounds there. */
  readonly low3: Point3;
  readonly high: Point3;
  /** In its own frame: its lowest, and how high it stands. */
  readonly low: number;
  readonly tall: number;
}

/** The closed part in its place. */
function closedOf(net: Net): Closed {
  const stood = standing(net);
  const own = pose(net);
  const root = stood.find(p => p.panel.id === net.root)!;
  const frame = after(root.frame, undone(own.get(net.root)!.frame));
  const points = [...own.values()].flatMap(p =>
    facetsOf(faceWithin(p.panel, STRIPS_MM), p, STRIPS_MM).flatMap(f => f.loops[0]!),
  );
  const [low, high] = extent(points, p => p);
  const [low3, top] = extent(points, p => moved(frame, p));
  return { frame, low3, high: top, low: low[2], tall: high[2] - low[2] };
}

/** Where a part lies with its lowest on the table. */
const lyingAt = (
  lies: readonly [number, number],
  root: readonly [number, number],
  low: number,
) => ({
  ...STILL,
  at: [lies[0] - root[0], lies[1] - root[1], -low] as Point3,
});

/** The middle of closed parts, and the ball about them. */
function groupOf(parts: readonly Closed[]) {
  const [low, high] = extent(
    parts,
    p => p.low3,
    p => p.high,
  );
  const middle = scale3(add3(low, high), 0.5);
  return { low, high, middle, radius: length3(sub3(high, low)) / 2 };
}

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
