/** Pieces with the inside on their left, chained into closed paths and tidied. */
import { ON_PATH_MM, SAME_POINT_MM } from '../units/tolerances.js';
import { arcShape, arcTo } from './arc.js';
import { line } from './build.js';
import { pathLength, signedArea, stepLength } from './measure.js';
import { partOfStep, pointAt, reverseSegment, type Step, steps, sweepOf } from './step.js';
import type { Path, Point, Segment } from './types.js';
import { angleOf, cross, distance, samePoint, sub } from './vec.js';

/** A part of a step that never turns back, between two nodes, with its place on the step. */
export interface Piece {
  readonly origin: Step;
  readonly t0: number;
  readonly t1: number;
  readonly part: Step;
  readonly a: number;
  readonly b: number;
  readonly operand: number;
  /** All of its step lies off the borders. */
  readonly buried: boolean;
}

/** A piece to be run along, in its own direction or against it. */
export interface Kept {
  readonly piece: Piece;
  readonly forward: boolean;
}

const startOf = ({ piece, forward }: Kept): number => (forward ? piece.a : piece.b);
const endNode = ({ piece, forward }: Kept): number => (forward ? piece.b : piece.a);

/** The step as it is run along. */
function runOf({ piece: { part }, forward }: Kept): Step {
  return forward ? part : { from: part.segment.to, segment: reverseSegment(part) };
}

/** Where several pieces leave a node they are told apart this far out, as a share of the shortest. */
const LOOK = 0.05;

/** Closed paths of all pieces, each used once; `undefined` when one leads nowhere. Slivers no
 *  wider than `ON_PATH_MM` are dropped. */
export function chain(kept: readonly Kept[]): Path[] | undefined {
  const leaving = new Map<number, Kept[]>();
  for (const k of kept) {
    const list = leaving.get(startOf(k)) ?? [];
    list.push(k);
    leaving.set(startOf(k), list);
  }
  const used = new Set<Kept>();
  const paths: Path[] = [];
  for (const first of kept) {
    if (used.has(first)) continue;
    const loop: Kept[] = [];
    let at: Kept | undefined = first;
    // Each round uses up one piece, so this ends.
    while (at && !used.has(at)) {
      used.add(at);
      loop.push(at);
      at = nextOf(at, leaving.get(endNode(at)) ?? []);
    }
    if (at !== first) return undefined;
    const path = pathOf(loop);
    const wide = path !== undefined && Math.abs(signedArea(path)) > ON_PATH_MM * pathLength(path);
    if (path && wide) paths.push(path);
  }
  return paths;
}

/** The next piece of the same border: where several leave, the sharpest to the left, so that borders
 *  which only touch in a point stay apart. */
function nextOf(at: Kept, choices: readonly Kept[]): Kept | undefined {
  if (choices.length <= 1) return choices[0];
  const runs = [at, ...choices].map(runOf);
  const reach = LOOK * Math.min(...runs.map(stepLength));
  const back = runs[0]!;
  const node = back.segment.to;
  const seen = (step: Step, fromEnd: boolean): number => {
    const t = reach / stepLength(step);
    return angleOf(sub(pointAt(step, fromEnd ? 1 - t : t), node));
  };
  const from = seen(back, true);
  let best: Kept | undefined;
  let least = Number.POSITIVE_INFINITY;
  for (const [i, choice] of choices.entries()) {
    const turn = from - seen(runs[i + 1]!, false);
    const clockwise = turn - 2 * Math.PI * Math.ceil(turn / (2 * Math.PI) - 1);
    if (clockwise < least) [least, best] = [clockwise, choice];
  }
  return best;
}

/** A stretch of one step, from one of its parameters to another. */
interface Stretch {
  readonly origin: Step;
  readonly from: number;
  readonly to: number;
  readonly start: Point;
  readonly end: Point;
}

function pathOf(loop: readonly Kept[]): Path | undefined {
  let stretches: Stretch[] = loop.map(kept => {
    const { piece, forward } = kept;
    const run = runOf(kept);
    return {
      origin: piece.origin,
      from: forward ? piece.t0 : piece.t1,
      to: forward ? piece.t1 : piece.t0,
      start: run.from,
      end: run.segment.to,
    };
  });
  // Begin where a step begins, so that the last stretch never runs on into the first.
  const fresh = stretches.findIndex((s, i) => !runsOn(stretches.at(i - 1)!, s));
  if (fresh > 0) stretches = [...stretches.slice(fresh), ...stretches.slice(0, fresh)];
  const merged: Stretch[] = [];
  for (const s of stretches) {
    const last = merged.at(-1);
    if (last && runsOn(last, s)) merged[merged.length - 1] = { ...last, to: s.to, end: s.end };
    else merged.push(s);
  }
  const segments = merged.map(segmentOf);
  const start = merged[0]!.start;
  return tidied({ start, segments, closed: true });
}

const runsOn = (a: Stretch, b: Stretch): boolean =>
  a !== b && a.origin === b.origin && a.to === b.from && a.to > a.from === b.to > b.from;

function segmentOf({ origin, from, to, end }: Stretch): Segment {
  const [lo, hi] = [Math.min(from, to), Math.max(from, to)];
  const part = partOfStep(origin, lo, hi);
  const segment = to > from ? part.segment : reverseSegment(part);
  return { ...segment, to: end } as Segment;
}

/** Lines that go straight on into each other made one, and arcs of one circle up to a half turn. */
export function tidied(path: Path): Path | undefined {
  let all = [...steps(path)];
  if (path.closed && all.length > 1) {
    // Begin at a real corner: the start may be in the middle of a line.
    const corner = all.findIndex((s, i) => !joined(all.at(i - 1)!, s));
    if (corner > 0) all = [...all.slice(corner), ...all.slice(0, corner)];
  }
  const merged: Step[] = [];
  for (const step of all) {
    const last = merged.at(-1);
    const both = last && joined(last, step);
    if (both) merged[merged.length - 1] = both;
    else merged.push(step);
  }
  // One segment encloses something only when it is a cubic that ends where it starts.
  if (merged.length === 1 && merged[0]!.segment.kind !== 'cubic') return undefined;
  const start = merged[0]!.from;
  return { start, segments: merged.map(s => s.segment), closed: path.closed };
}

function joined(a: Step, b: Step): Step | undefined {
  const [p, q] = [a.segment, b.segment];
  if (p.kind === 'line' && q.kind === 'line') {
    const chord = sub(q.to, a.from);
    const long = distance(a.from, q.to);
    const u = sub(p.to, a.from);
    const off = Math.abs(cross(u, chord)) / long;
    const onward = u[0] * (q.to[0] - p.to[0]) + u[1] * (q.to[1] - p.to[1]) > 0;
    return onward && off <= SAME_POINT_MM ? { from: a.from, segment: line(q.to) } : undefined;
  }
  if (p.kind !== 'arc' || q.kind !== 'arc' || p.bulge > 0 !== q.bulge > 0) return undefined;
  const sweep = sweepOf(p.bulge) + sweepOf(q.bulge);
  if (!(Math.abs(sweep) <= Math.PI * (1 + 1e-9))) return undefined;
  const [c, d] = [arcShape(a.from, p), arcShape(b.from, q)];
  const off = Math.abs(c.radius - d.radius);
  if (!(samePoint(c.centre, d.centre, ON_PATH_MM) && off <= ON_PATH_MM)) return undefined;
  const both: Step = { from: a.from, segment: arcTo(q.to, sweep) };
  // The two together must still be where each was.
  const t = sweepOf(p.bulge) / sweep;
  return samePoint(pointAt(both, t), p.to, ON_PATH_MM) ? both : undefined;
}
