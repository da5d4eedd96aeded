/**
 * The loops whose winding is an offset: every segment is shifted, corners that open are rounded or mitred,
 * corners that close run through the corner itself (Chen & McMains, "Polygon offsetting by computing
 * winding numbers", ASME DETC 2005; for arcs, the limit of ever shorter edges).
 */
import { arcShape, arcTo } from './arc.js';
import { line } from './build.js';
import { type Step, steps, tangentAt } from './step.js';
import type { Path, Point, Segment } from './types.js';
import { add, cross, dot, perp, samePoint, scale } from './vec.js';

/** How a corner that opens is filled: by an arc about it, or by the edges run on until they meet; a
 *  mitre longer than `LONGEST_MITRE` offsets is rounded. */
export type Join = 'round' | 'mitre';

/** A mitre longer than this many offsets is rounded instead: a spike of paper bends and tears. */
export const LONGEST_MITRE = 3;

/** A turn this near to a half turn may be one either way: it is given its cap. */
const HALF_TURN = Math.PI - 1e-6;

/** What becomes of one step: where its offset starts, how it runs on, and loops beside it. */
interface Moved {
  readonly start: Point;
  readonly segments: readonly Segment[];
  readonly end: Point;
  readonly beside?: Path;
}

/**
 * One step moved to its right. An arc bent more tightly than the offset has none of it: all of its offset
 * lies beyond its centre and is nearer to other points of the arc. What the arc reaches is then the
 * sector up to its centre and the one beyond, so the loop runs through the centre and the sector
 * beyond is a loop of its own.
 */
function moved(step: Step, delta: number): Moved {
  const { from, segment } = step;
  const { to } = segment;
  const out = (p: Point, t: number): Point => add(p, scale(perp(tangentAt(step, t)), -delta));
  const [start, end] = [out(from, 0), out(to, 1)];
  if (segment.kind === 'line') return { start, segments: [line(end)], end };
  if (segment.kind !== 'arc') throw new RangeError('a cubic has no exact offset');
  if (segment.bulge * delta < 0) {
    const { centre, radius } = arcShape(from, segment);
    if (radius <= Math.abs(delta)) {
      const back: Segment = { ...segment, to: start, bulge: -segment.bulge };
      const beside: Path = {
        start: centre,
        segments: [line(end), back, line(centre)],
        closed: true,
      };
      return { start, segments: [line(centre), line(end)], end, beside };
    }
  }
  return { start, segments: [{ ...segment, to: end }], end };
}

/** What fills the corner at `corner`, between the shifted ends. */
function corner(
  at: Point,
  t: Point,
  u: Point,
  end: Point,
  start: Point,
  delta: number,
  join: Join,
): Segment[] {
  if (samePoint(end, start)) return [];
  let turn = Math.atan2(cross(t, u), dot(t, u));
  if (Math.abs(turn) > HALF_TURN) turn = Math.sign(delta) * Math.abs(turn);
  if (!(turn * delta > 0)) return [line(at), line(start)];
  const stretch = 1 / Math.cos(turn / 2);
  if (join === 'round' || !(stretch > 0 && stretch <= LONGEST_MITRE)) return [arcTo(start, turn)];
  const out = (v: Point) => scale(perp(v), -delta);
  const tip = add(at, scale(add(out(t), out(u)), (stretch * stretch) / 2));
  return [line(tip), line(start)];
}

/** A closed path of lines and arcs moved to its right by `delta`: the whole shifted loop with all that
 *  crosses itself, and the loops beside it. What all of them run round more often counter-clockwise
 *  than clockwise is the offset. */
export function offsetLoops(path: Path, delta: number, join: Join): Path[] {
  const all = [...steps(path)].filter(s => !samePoint(s.from, s.segment.to) || bends(s));
  if (all.length === 0) return [];
  const shifted = all.map(s => moved(s, delta));
  const segments: Segment[] = [];
  for (const [i, { end, segments: run }] of shifted.entries()) {
    const j = (i + 1) % all.length;
    const [a, b] = [all[i]!, all[j]!];
    const { start } = shifted[j]!;
    segments.push(
      ...run,
      ...corner(b.from, tangentAt(a, 1), tangentAt(b, 0), end, start, delta, join),
    );
  }
  const { start } = shifted[0]!;
  const last = segments.pop()!;
  const loop: Path = {
    start,
    segments: [...segments, { ...last, to: start } as Segment],
    closed: true,
  };
  return [loop, ...shifted.flatMap(({ beside }) => beside ?? [])];
}

const bends = ({ segment }: Step): boolean => segment.kind === 'arc' && Math.abs(segment.bulge) > 1;
