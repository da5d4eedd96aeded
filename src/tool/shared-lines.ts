/** Lines that lie on each other, wholly or in part: the later one gives way. */
import Flatbush from 'flatbush';
import {
  arcShape,
  distance,
  type Path,
  type Point,
  partOfStep,
  type Segment,
  type Step,
  stepLength,
  steps,
  sub,
} from '../geom/index.js';
import { FILE_STEP_MM, TIP_MM } from '../units/tolerances.js';
import { Effort } from './effort.js';
import { type Range, stretchesOf } from './heaped.js';
import { roughBox } from './rough-box.js';
import type { Spot } from './spots.js';

export interface Once {
  readonly paths: readonly Path[];
  /** The closed contour that a path was a part of, where it lost some of it. */
  readonly contours: readonly (Path | undefined)[];
  /** The closed contours that lost an edge, or all of them. */
  readonly outlines: readonly Path[];
  readonly duplicates: number;
  /** Open paths that lost some of them, and not all. */
  readonly shortened: number;
  readonly sharedLength: number;
  /** The middle of each stretch that lies on another, and its length, mm. */
  readonly stretches: readonly Spot[];
}

/**
 * Leaves of every path only what does not lie on an earlier path, or on an earlier part of itself.
 * Lines and arcs count as one within a step of the file, wherever they overlap by more than `TIP_MM`;
 * cubics only where they are the same. Where `effort` (pairs of neighbours) is over, only the very same
 * lines are still found, and how many lines were looked at wholly is told.
 */
export function dropShared(paths: readonly Path[], effort = new Effort(MOST_SHARED_PAIRS)): Once {
  const all = paths.flatMap(path => [...steps(path)]);
  const covered = coveredBy(all, effort);
  const stretches: Spot[] = [];
  const out: Path[] = [];
  const contours: (Path | undefined)[] = [];
  const outlines: Path[] = [];
  let duplicates = 0;
  let shortened = 0;
  let sharedLength = 0;
  let next = 0;
  for (const path of paths) {
    const first = next;
    next += path.segments.length;
    let lost = 0;
    for (let i = first; i < next; i++) {
      for (const [a, b] of covered[i]!) lost += (b - a) * stepLength(all[i]!);
    }
    if (lost === 0) {
      out.push(path);
      contours.push(undefined);
      continue;
    }
    sharedLength += lost;
    if (path.closed) outlines.push(path);
    const [own, ownCovered] = [all.slice(first, next), covered.slice(first, next)];
    for (const stretch of stretchesOf(own, ownCovered)) stretches.push(stretch);
    const kept = chains(own, ownCovered, path.closed);
    if (kept.length === 0) duplicates++;
    else if (!path.closed) shortened++;
    for (const chain of kept) {
      out.push(chain);
      contours.push(path.closed ? path : undefined);
    }
  }
  return { paths: out, contours, outlines, duplicates, shortened, sharedLength, stretches };
}

/** Pairs of neighbours looked at in all. A sheet of 20,000 segments has some 10⁵; only a drawing of
 *  lines heaped on each other has more than this, and then the rest is left as it is. */
export const MOST_SHARED_PAIRS = 1e7;

/** For each step the ranges that lie on earlier ones, in order and apart. */
function coveredBy(all: readonly Step[], effort: Effort): Range[][] {
  const seen = new Set<string>();
  // The very same step again, as in a drawing pasted twice, costs no search.
  const again = all.map(step => {
    const name = nameOf(step);
    if (seen.has(name)) return true;
    seen.add(name);
    return false;
  });
  const fresh = all.flatMap((_, i) => (again[i] ? [] : [i]));
  if (fresh.length === 0) return [];
  const index = new Flatbush(fresh.length);
  const boxes = fresh.map(i => roughBox(all[i]!, FILE_STEP_MM));
  for (const box of boxes) index.add(...box);
  index.finish();
  const covered = all.map((_, i): Range[] => (again[i] ? [[0, 1]] : []));
  fresh.forEach((i, k) => {
    if (effort.over) {
      effort.stop(k, fresh.length);
      return;
    }
    const step = all[i]!;
    const ranges: Range[] = [];
    for (const near of index.search(...boxes[k]!)) {
      effort.spent++;
      if (near < k) ranges.push(...overlap(step, all[fresh[near]!]!));
    }
    if (ranges.length === 0) return;
    const size = stepLength(step);
    covered[i] = union(ranges).filter(([a, b]) => (b - a) * size > TIP_MM);
  });
  return covered;
}

/** The same for the same step in either direction, its numbers rounded far below a step of the file. */
function nameOf({ from, segment }: Step): string {
  const at = (p: Point) => `${Math.round(p[0] * 1e6)} ${Math.round(p[1] * 1e6)}`;
  const [a, b] = [at(from), at(segment.to)];
  const way = a < b;
  const ends = way ? `${a} ${b}` : `${b} ${a}`;
  if (segment.kind === 'line') return ends;
  if (segment.kind === 'arc') {
    return `${ends} ${Math.round((way ? segment.bulge : -segment.bulge) * 1e9)}`;
  }
  const [c, d] = [at(segment.c1), at(segment.c2)];
  return way ? `${ends} ${c} ${d}` : `${ends} ${d} ${c}`;
}

/** Ranges of `a` that lie on `b`. */
function overlap(a: Step, b: Step): Range[] {
  if (a.segment.kind === 'line' && b.segment.kind === 'line') return alongLine(a, b);
  if (a.segment.kind === 'arc' && b.segment.kind === 'arc') return alongArc(a, b);
  if (a.segment.kind === 'cubic' && b.segment.kind === 'cubic') {
    return sameCubic(a, b) ? [[0, 1]] : [];
  }
  return [];
}

function alongLine(a: Step, b: Step): Range[] {
  const v = sub(a.segment.to, a.from);
  const size = v[0] * v[0] + v[1] * v[1];
  const w = sub(b.segment.to, b.from);
  if (!(size > 0 && (w[0] !== 0 || w[1] !== 0))) return [];
  const place = (p: Point) => ((p[0] - a.from[0]) * v[0] + (p[1] - a.from[1]) * v[1]) / size;
  const t0 = place(b.from);
  const t1 = place(b.segment.to);
  const lo = Math.max(0, Math.min(t0, t1));
  const hi = Math.min(1, Math.max(t0, t1));
  if (!(hi > lo)) return [];
  // Both ends of the overlap must lie on b.
  const off = (t: number) => {
    const x = a.from[0] + t * v[0] - b.from[0];
    const y = a.from[1] + t * v[1] - b.from[1];
    return Math.abs(w[0] * y - w[1] * x) / Math.hypot(w[0], w[1]);
  };
  return off(lo) <= FILE_STEP_MM && off(hi) <= FILE_STEP_MM ? [[lo, hi]] : [];
}

function alongArc(a: Step, b: Step): Range[] {
  if (a.segment.kind !== 'arc' || b.segment.kind !== 'arc') return [];
  if (!(a.segment.bulge !== 0 && b.segment.bulge !== 0)) return [];
  const p = arcShape(a.from, a.segment);
  const q = arcShape(b.from, b.segment);
  const off = distance(p.centre, q.centre) + Math.abs(p.radius - q.radius);
  if (!(off <= FILE_STEP_MM)) return [];
  const turn = 2 * Math.PI;
  const whole = Math.abs(p.sweep);
  const way = Math.sign(p.sweep);
  // Where b begins, measured from a's start in a's direction, if b ran that way too.
  const begin = q.sweep * way > 0 ? q.startAngle : q.startAngle + q.sweep;
  const at = (way * (begin - p.startAngle)) % turn;
  const ranges: Range[] = [];
  for (const shift of [-turn, 0, turn]) {
    const lo = Math.max(0, at + shift);
    const hi = Math.min(whole, at + shift + Math.abs(q.sweep));
    if (hi > lo) ranges.push([lo / whole, hi / whole]);
  }
  return ranges;
}

function sameCubic(a: Step, b: Step): boolean {
  if (a.segment.kind !== 'cubic' || b.segment.kind !== 'cubic') return false;
  const p = [a.from, a.segment.c1, a.segment.c2, a.segment.to];
  const q = [b.from, b.segment.c1, b.segment.c2, b.segment.to];
  const near = (r: readonly Point[]) => p.every((v, i) => distance(v, r[i]!) <= FILE_STEP_MM);
  return near(q) || near([...q].reverse());
}

function union(ranges: readonly Range[]): Range[] {
  const out: [number, number][] = [];
  for (const [a, b] of [...ranges].sort((p, q) => p[0] - q[0])) {
    const last = out.at(-1);
    if (last && a <= last[1]) last[1] = Math.max(last[1], b);
    else out.push([a, b]);
  }
  return out;
}

/** What is left of a path's steps, in connected chains; crumbs below `TIP_MM` are left out. */
function chains(run: readonly Step[], covered: readonly Range[][], closed: boolean): Path[] {
  const found: { start: Point; segments: Segment[]; fromStart: boolean; toEnd: boolean }[] = [];
  let open: (typeof found)[number] | undefined;
  run.forEach((step, i) => {
    let t = 0;
    for (const [a, b] of [...covered[i]!, [1, 1] as const]) {
      if ((a - t) * stepLength(step) > TIP_MM || (t === 0 && a === 1)) {
        const part = partOfStep(step, t, a);
        if (!open || t > 0) {
          open = { start: part.from, segments: [], fromStart: i === 0 && t === 0, toEnd: false };
          found.push(open);
        }
        open.segments.push(part.segment);
        open.toEnd = i === run.length - 1 && a === 1;
      }
      if (a < 1 || t === 1 || b > a) open = undefined;
      t = b;
    }
  });
  const last = found.at(-1);
  const head = found[0];
  if (closed && found.length > 1 && head?.fromStart && last?.toEnd) {
    found.pop();
    found[0] = {
      ...head,
      start: last.start,
      segments: [...last.segments, ...head.segments],
    };
  }
  return found.map(({ start, segments }) => ({ start, segments, closed: false }));
}
