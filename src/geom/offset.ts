/**
 * Offsets of regions, exact for lines and arcs: every segment is shifted, corners that open are rounded or
 * mitred, corners that close run through the corner itself, and of the loops that result what is
 * run round counter-clockwise is the offset (Chen & McMains, "Polygon offsetting by computing
 * winding numbers", ASME DETC 2005).
 */
import { ON_PATH_MM } from '../units/tolerances.js';
import { arcTo } from './arc.js';
import { arrange } from './arrange.js';
import { line } from './build.js';
import { boxOf } from './crossing.js';
import { distanceToStep } from './distance.js';
import { fitArcs } from './fit-arcs.js';
import { LONGEST_MITRE, polygonOffset } from './polygons.js';
import { loopsOf, regionsOf } from './regions.js';
import { pointAt, type Step, steps, tangentAt } from './step.js';
import type { Path, Point, Region, Segment } from './types.js';
import { add, cross, dot, perp, samePoint, scale, sub } from './vec.js';

/** How a corner that opens is filled: by an arc about it, or by the edges run on until they meet; a
 *  mitre longer than `LONGEST_MITRE` offsets is rounded. */
export type Join = 'round' | 'mitre';

/** A turn this near to a half turn may be one either way: it is given its cap. */
const HALF_TURN = Math.PI - 1e-6;

/** One step moved to its right; an arc that passes its centre runs on beyond it. */
function shifted({ from, segment }: Step, delta: number): Step {
  const { to } = segment;
  if (segment.kind === 'line') {
    const along = sub(to, from);
    const out = scale(perp(along), -delta / Math.hypot(along[0], along[1]));
    return { from: add(from, out), segment: line(add(to, out)) };
  }
  if (segment.kind !== 'arc') throw new RangeError('a cubic has no exact offset');
  const out = (t: number): Point => {
    const p = t === 0 ? from : to;
    return add(p, scale(perp(tangentAt({ from, segment }, t)), -delta));
  };
  return { from: out(0), segment: { ...segment, to: out(1) } };
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

/** The whole shifted loop, with all that crosses itself. `undefined` when nothing of it has length. */
function rawOffset(path: Path, delta: number, join: Join): Path | undefined {
  const all = [...steps(path)].filter(s => !samePoint(s.from, s.segment.to) || bends(s));
  if (all.length === 0) return undefined;
  const moved = all.map(s => shifted(s, delta));
  const segments: Segment[] = [];
  for (const [i, step] of moved.entries()) {
    segments.push(step.segment);
    const j = (i + 1) % all.length;
    const [a, b] = [all[i]!, all[j]!];
    segments.push(
      ...corner(
        b.from,
        tangentAt(a, 1),
        tangentAt(b, 0),
        step.segment.to,
        moved[j]!.from,
        delta,
        join,
      ),
    );
  }
  const start = moved[0]!.from;
  const last = segments.pop()!;
  return { start, segments: [...segments, { ...last, to: start } as Segment], closed: true };
}

const bends = ({ segment }: Step): boolean => segment.kind === 'arc' && Math.abs(segment.bulge) > 1;

/** Whether no point tried of the offset is nearer to the source than it may be. */
function keepsClear(found: readonly Region[], loops: readonly Path[], delta: number): boolean {
  const source = loops.flatMap(path => [...steps(path)]).map(step => ({ step, box: boxOf(step) }));
  const least = Math.abs(delta) - 10 * ON_PATH_MM;
  const near = ([x, y]: Point) =>
    source.some(
      ({ step, box }) =>
        x > box.minX - least &&
        x < box.maxX + least &&
        y > box.minY - least &&
        y < box.maxY + least &&
        distanceToStep([x, y], step) < least,
    );
  return !loopsOf(found).some(path => [...steps(path)].some(s => near(pointAt(s, 0.5))));
}

/**
 * Regions grown by `delta` mm on every side, shrunk when it is negative; regions that grow into each other
 * become one, those that shrink away are gone. Lines and arcs stay exact, cubics are fitted with arcs
 * first (within `FIT_MM`). Throws when `delta` is not finite.
 */
export function offsetRegions(regions: readonly Region[], delta: number, join: Join): Region[] {
  if (!Number.isFinite(delta)) throw new RangeError(`cannot offset by ${delta} mm`);
  const loops = loopsOf(regions).map(path => fitArcs(path));
  if (delta === 0) return regionsOf(loops);
  const raw = loops.map(path => rawOffset(path, delta, join)).filter(path => path !== undefined);
  const borders = arrange(
    raw.map(path => ({ path, operand: 0 })),
    1,
    ([w]) => w! > 0,
  );
  const found = borders && regionsOf(borders);
  if (found && keepsClear(found, loops, delta)) return found;
  return polygonOffset(loops, delta, join);
}
