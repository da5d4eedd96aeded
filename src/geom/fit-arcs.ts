/**
 * Cubics as tangent-continuous arcs and lines. Each piece of a cubic between two of its points becomes a
 * biarc with equal handles: two arcs that take the curve's own tangents at its ends and share one at
 * their joint (Bolton, "Biarc curves", CAD 7(2), 1975). Pieces are as long as the tolerance lets them be.
 */
import { FIT_MM, SAME_POINT_MM } from '../units/tolerances.js';
import { arcShape } from './arc.js';
import { line } from './build.js';
import { endOf } from './path.js';
import { partOfStep, pointAt, type Step, steps, tangentAt, velocityAt } from './step.js';
import type { Cubic, Path, Point, Segment } from './types.js';
import { add, cross, distance, dot, length, lerp, samePoint, scale, sub, unit } from './vec.js';

/** A fit aims at this share of its tolerance: what lies between the samples has the rest. */
export const AIM = 0.9;
/** Points of the curve compared for each biarc. */
const SAMPLES = 16;
/** Halvings in the search for the longest piece: to 1/1000 of the interval. */
const HALVINGS = 10;
/** An arc of a biarc turns by less than this, so that a near point of it is the near point. */
const MOST_SWEEP = 0.6 * Math.PI;
/** A turn between two segments that is meant to be seen, radians (20°). */
const CORNER = Math.PI / 9;
/** More biarcs than this for one cubic is a fault of ours. */
const MOST_BIARCS = 4096;

/** Signed angle from u to v. */
const turn = (u: Point, v: Point): number => Math.atan2(cross(u, v), dot(u, v));

/** An arc by the angle between its first tangent and its chord; a line when it hardly bends. */
function arcOrLine(from: Point, to: Point, tangentToChord: number): Segment {
  const bulge = Math.tan(tangentToChord / 2);
  const sagitta = (Math.abs(bulge) * distance(from, to)) / 2;
  return sagitta <= SAME_POINT_MM ? line(to) : { kind: 'arc', to, bulge };
}

/**
 * The biarc from `p` along unit tangent `t` to `q` along unit tangent `u`: the segments after `p`, one
 * when the two arcs are one line. `undefined` when an arc would turn by more than 108°.
 */
export function biarc(p: Point, t: Point, q: Point, u: Point): Segment[] | undefined {
  const v = sub(q, p);
  const along = dot(v, add(t, u));
  const square = dot(v, v);
  // d from v² − 2 d v·(t + u) − 2 d² (1 − t·u) = 0, in the form that holds for equal tangents too.
  const d = square / (along + Math.sqrt(along * along + 2 * (1 - dot(t, u)) * square));
  if (!(d > 0 && d < Number.POSITIVE_INFINITY)) return undefined;
  const joint = lerp(add(p, scale(t, d)), sub(q, scale(u, d)), 0.5);
  if (samePoint(p, joint) || samePoint(joint, q)) return [line(q)];
  const first = turn(t, sub(joint, p));
  const second = turn(sub(q, joint), u);
  if (!(Math.max(Math.abs(first), Math.abs(second)) <= MOST_SWEEP / 2)) return undefined;
  const pair = [arcOrLine(p, joint, first), arcOrLine(joint, q, second)];
  return pair.every(s => s.kind === 'line') ? [line(q)] : pair;
}

/** Parameters inside (0, 1) where one cubic must be divided: inflections, cusps and near-cusps. */
function divisions(from: Point, cubic: Cubic): number[] {
  const a = sub(cubic.c1, from);
  const b = sub(cubic.c2, cubic.c1);
  const c = sub(cubic.to, cubic.c2);
  // B′ × B″ is 18 times this quadratic: cross(a, b)(1−t)² + cross(a, c) t(1−t) + cross(b, c) t².
  const [k0, k1, k2] = [cross(a, b), cross(a, c), cross(b, c)];
  const quad = k0 - k1 + k2;
  const lin = k1 - 2 * k0;
  const size = length(a) + length(b) + length(c);
  const found: number[] = [];
  if (isStraight(from, cubic)) {
    // Straight: it may run back and forth, and turns where its velocity along the line is zero.
    const direction = length(a) >= length(c) ? a : c;
    const [u, v, w] = [dot(a, direction), dot(b, direction), dot(c, direction)];
    found.push(...roots(u - 2 * v + w, 2 * (v - u), u));
  } else {
    found.push(...roots(quad, lin, k0));
    const middle = -lin / (2 * quad);
    if (middle > 0 && middle < 1 && length(velocityAt(from, cubic, middle)) < 0.01 * size) {
      found.push(middle);
    }
  }
  const inside = found.filter(t => t > 1e-9 && t < 1 - 1e-9).sort((x, y) => x - y);
  return inside.filter((t, i) => i === 0 || t - inside[i - 1]! > 1e-9);
}

/** All four points on one line, to the rounding: the cubic runs along it, perhaps back and forth. */
function isStraight(from: Point, { c1, c2, to }: Cubic): boolean {
  const a = sub(c1, from);
  const b = sub(c2, c1);
  const c = sub(to, c2);
  const size = length(a) + length(b) + length(c);
  const bend = Math.abs(cross(a, b)) + Math.abs(cross(a, c)) + Math.abs(cross(b, c));
  return bend <= 1e-12 * size * size;
}

function roots(a: number, b: number, c: number): number[] {
  const disc = b * b - 4 * a * c;
  if (!(disc >= 0)) return [];
  const q = -0.5 * (b + (b < 0 ? -1 : 1) * Math.sqrt(disc));
  return [q / a, c / q].filter(Number.isFinite);
}

/** The biarc for the part of a cubic from t0 to t1, if it stays within `most` of it. */
function tryPart(step: Step, t0: number, t1: number, most: number): Segment[] | undefined {
  const part = partOfStep(step, t0, t1);
  const { from, segment } = part;
  const { to } = segment;
  const tiny = spread(part) <= most;
  if (tiny) return samePoint(from, to) ? [] : [line(to)];
  if (samePoint(from, to)) return undefined;
  const fit = biarc(from, tangentAt(part, 0), to, tangentAt(part, 1));
  if (!fit) return undefined;
  return keepsTo(part, fit, most) ? fit : undefined;
}

/** Whether a part of a cubic stays within `most` of its biarc, at points from the middle outward. */
function keepsTo(part: Step, fit: readonly Segment[], most: number): boolean {
  const [first, second] = fit;
  const off = [offFrom(part.from, first!), second ? offFrom(first!.to, second) : () => 0];
  const joint = first!.to;
  const ahead = second ? tangentAt({ from: part.from, segment: first! }, 1) : ([0, 0] as const);
  for (let i = 1; i < SAMPLES; i++) {
    const p = pointAt(part, (i % 2 === 1 ? SAMPLES - i : i) / SAMPLES);
    const past = second !== undefined && dot(sub(p, joint), ahead) > 0;
    if (!(off[past ? 1 : 0]!(p) <= most)) return false;
  }
  return true;
}

/** Distance of a point from the line or circle that a segment lies on. */
function offFrom(from: Point, segment: Segment): (p: Point) => number {
  if (segment.kind === 'arc') {
    const { centre, radius } = arcShape(from, segment);
    return p => Math.abs(distance(p, centre) - radius);
  }
  const along = unit(sub(segment.to, from));
  return p => Math.abs(cross(along, sub(p, from)));
}

/** How far the control points of a part are from its start: nothing of it is further. */
function spread({ from, segment }: Step): number {
  const far = distance(from, segment.to);
  if (segment.kind !== 'cubic') return far;
  return Math.max(far, distance(from, segment.c1), distance(from, segment.c2));
}

/** Biarcs in turn from t0 to t1, each as long as `most` lets it be, with where they end. */
function greedy(step: Step, t0: number, t1: number, most: number) {
  const segments: Segment[] = [];
  const ends: number[] = [t0];
  for (let t = t0; t < t1; t = ends.at(-1)!) {
    if (ends.length > MOST_BIARCS) throw new Error(`a cubic needs over ${MOST_BIARCS} biarcs`);
    let [end, fit] = [t1, tryPart(step, t, t1, most)];
    if (!fit) {
      let [lo, hi] = [t, t1];
      end = t1;
      for (let k = 0; k < HALVINGS || !fit; k++) {
        const mid = (lo + hi) / 2;
        // No room left between two parameters: the curve is a point here.
        if (!(mid > lo && mid < hi)) break;
        const better = tryPart(step, t, mid, most);
        if (better) [lo, fit, end] = [mid, better, mid];
        else hi = mid;
      }
    }
    segments.push(...(fit ?? [line(pointAt(step, end))]));
    ends.push(end);
  }
  return { segments, ends };
}

/** Greedy pieces evened out: the last of them is a remnant, and a tighter tolerance that needs no more
 *  pieces shares its room among all. A biarc errs as the cube of its length. */
function evened(step: Step, t0: number, t1: number, most: number): Segment[] {
  const first = greedy(step, t0, t1, most);
  const n = first.ends.length - 1;
  if (n < 2) return first.segments;
  const [a, b, c] = first.ends.slice(-3) as [number, number, number];
  const remnant = Math.min(1, (c - b) / (b - a));
  for (const share of [1, 2]) {
    const room = (n - 1 + remnant + (share - 1) * (1 - remnant) * 0.6) / n;
    const again = greedy(step, t0, t1, most * Math.min(1, room ** 3 * 1.1));
    if (again.ends.length - 1 <= n) return again.segments;
  }
  return first.segments;
}

/** The one arc between the ends of a cubic that is as high over their chord, if it stays within `most`. */
function oneArc({ from, segment }: Step, most: number): Segment | undefined {
  const chord = sub(segment.to, from);
  const long = length(chord);
  if (!(long > most)) return undefined;
  let height = 0;
  for (let i = 1; i < SAMPLES; i++) {
    const h = cross(chord, sub(pointAt({ from, segment }, i / SAMPLES), from)) / long;
    if (Math.abs(h) > Math.abs(height)) height = h;
  }
  const arc = arcOrLine(from, segment.to, -2 * Math.atan((2 * height) / long));
  const sweep = 4 * Math.atan((2 * Math.abs(height)) / long);
  return sweep <= MOST_SWEEP && keepsTo({ from, segment }, [arc], most) ? arc : undefined;
}

/** One cubic as arcs and lines within `tolerance` of it; `free` where it owes its tangents to nobody. */
function fitCubic(step: Step, tolerance: number, free: boolean): Segment[] {
  const { from, segment } = step;
  if (segment.kind !== 'cubic') return [segment];
  const arc = free ? oneArc(step, AIM * tolerance) : undefined;
  if (arc) return [arc];
  const ends = [...divisions(from, segment), 1];
  if (isStraight(from, segment))
    return ends.map(t => line(t === 1 ? segment.to : pointAt(step, t)));
  return ends.flatMap((end, i) => evened(step, i === 0 ? 0 : ends[i - 1]!, end, AIM * tolerance));
}

/** Whether each end of a path's segments is one of its own ends or a corner, in their order. */
function cornersOf(all: readonly Step[], closed: boolean): boolean[] {
  return all.map((step, i) => {
    const next = all[i + 1] ?? (closed ? all[0] : undefined);
    return !next || Math.abs(turn(tangentAt(step, 1), tangentAt(next, 0))) > CORNER;
  });
}

/**
 * The same path with its cubics as arcs and lines, no further than `tolerance` mm from them and with
 * their tangents; arcs and lines are kept as they are. A cubic between two corners is one arc where that
 * is near enough: a corner stays one. A path without cubics is returned itself.
 */
export function fitArcs(path: Path, tolerance: number = FIT_MM): Path {
  if (!(tolerance > 0)) throw new RangeError(`cannot fit within ${tolerance} mm`);
  if (!path.segments.some(s => s.kind === 'cubic')) return path;
  const all = [...steps(path)];
  const corners = cornersOf(all, path.closed);
  const before = (i: number) => (i > 0 ? corners[i - 1]! : !path.closed || corners.at(-1)!);
  const segments = all.flatMap((step, i) => fitCubic(step, tolerance, before(i) && corners[i]!));
  // A remnant too short for a segment of its own may have been left out at the very end.
  const last = segments.pop();
  if (last) segments.push({ ...last, to: endOf(path) } as Segment);
  return { ...path, segments };
}
