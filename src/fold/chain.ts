/** Edges linked into loops and lines, and lines that run on made one. */
import {
  arcTo,
  cross,
  distance,
  dot,
  line,
  pointAt,
  type Step,
  samePoint,
  sub,
  sweepOf,
  tangentAt,
} from '../geom/index.js';
import type { Path, Point, Segment } from '../model.js';
import { SAME_POINT_MM } from '../units/tolerances.js';
import { type Edge, turnedBack } from './edges.js';

/** An arc never grows past three quarters of a circle: a whole circle stays two arcs. */
const LONGEST_SWEEP = 1.5 * Math.PI;

/** Two steps as one, when the second runs on along the first's line or circle. */
export function joined(a: Step, b: Step): Step | undefined {
  const { from } = a;
  const middle = a.segment.to;
  const { to } = b.segment;
  if (a.segment.kind === 'line' && b.segment.kind === 'line') {
    const whole = distance(from, to);
    const [u, v] = [sub(middle, from), sub(to, middle)];
    const off = Math.abs(cross(u, v)) / whole;
    return dot(u, v) > 0 && off <= SAME_POINT_MM ? { from, segment: line(to) } : undefined;
  }
  if (a.segment.kind === 'arc' && b.segment.kind === 'arc') {
    const [s, t] = [sweepOf(a.segment.bulge), sweepOf(b.segment.bulge)];
    if (s * t <= 0 || Math.abs(s + t) > LONGEST_SWEEP) return undefined;
    const whole: Step = { from, segment: arcTo(to, s + t) };
    return samePoint(pointAt(whole, s / (s + t)), middle) ? whole : undefined;
  }
  return undefined;
}

/** Runs of one line or circle joined; across the start too when the path is closed. */
export function smooth(list: readonly Step[], closed: boolean): Path {
  const out: Step[] = [];
  for (const step of list) {
    const last = out.at(-1);
    const one = last && joined(last, step);
    if (one) out[out.length - 1] = one;
    else out.push(step);
  }
  if (closed && out.length > 2) {
    const one = joined(out.at(-1)!, out[0]!);
    if (one) {
      out.pop();
      out[0] = one;
    }
  }
  const segments: Segment[] = out.map(s => s.segment);
  const start: Point = out[0]!.from;
  return { start, segments, closed };
}

/**
 * Closed loops of directed edges with their panel on the left. Where loops touch in a corner they
 * cross over to the next panel, so that the outside of a net stays one loop and a gap between its
 * panels becomes a loop of its own. Each loop begins at its lowest, then leftmost corner.
 */
export function loops(edges: readonly Edge[]): Path[] {
  const leaving = new Map<number, Edge[]>();
  for (const e of edges) leaving.set(e.from, [...(leaving.get(e.from) ?? []), e]);
  const out: Path[] = [];
  const used = new Set<Edge>();
  for (const first of edges) {
    if (used.has(first)) continue;
    const chain: Edge[] = [];
    let here: Edge | undefined = first;
    while (here && !used.has(here)) {
      used.add(here);
      chain.push(here);
      const ways: Edge[] = (leaving.get(here.to) ?? []).filter(e => !used.has(e));
      const back = tangentAt(here.step, 1);
      here = ways.length > 1 ? mostRight(back, ways) : ways[0];
    }
    const end = chain.at(-1)!;
    if (end.to !== chain[0]!.from) {
      throw new Error(`a cut line of panel ${end.panel} ends in the open`);
    }
    out.push(smooth(beginLow(chain), true));
  }
  return out;
}

function mostRight(heading: Point, ways: readonly Edge[]): Edge {
  let best = ways[0]!;
  let least = Number.POSITIVE_INFINITY;
  for (const way of ways) {
    const t = tangentAt(way.step, 0);
    const turn = Math.atan2(cross(heading, t), dot(heading, t));
    if (turn < least) {
      least = turn;
      best = way;
    }
  }
  return best;
}

function beginLow(chain: readonly Edge[]): Step[] {
  const steps = chain.map(e => e.step);
  let low = 0;
  steps.forEach((s, i) => {
    const [p, q] = [s.from, steps[low]!.from];
    const lower = p[1] < q[1] - SAME_POINT_MM;
    const level = Math.abs(p[1] - q[1]) <= SAME_POINT_MM;
    if (lower || (level && p[0] < q[0] - SAME_POINT_MM)) low = i;
  });
  return [...steps.slice(low), ...steps.slice(0, low)];
}

/** Undirected edges linked into the fewest lines: they end where three or more meet. */
export function lines(edges: readonly Edge[]): Path[] {
  const at = new Map<number, Edge[]>();
  for (const e of edges) {
    for (const n of [e.from, e.to]) at.set(n, [...(at.get(n) ?? []), e]);
  }
  const used = new Set<Edge>();
  const walk = (first: Edge, from: number): Path => {
    const chain: Step[] = [];
    let here: Edge | undefined = first;
    let corner = from;
    while (here && !used.has(here)) {
      used.add(here);
      const ahead = here.from === corner ? here : turnedBack(here);
      chain.push(ahead.step);
      corner = ahead.to;
      const on: Edge[] = at.get(corner)!;
      here = on.length === 2 ? on.find(e => !used.has(e)) : undefined;
    }
    return smooth(chain, corner === from);
  };
  const out: Path[] = [];
  for (const e of edges) {
    for (const n of [e.from, e.to]) {
      if (!used.has(e) && at.get(n)!.length !== 2) out.push(walk(e, n));
    }
  }
  for (const e of edges) if (!used.has(e)) out.push(walk(e, e.from));
  return out;
}
