/** Many small shapes, or open lines, cut to one area. */

import { ON_PATH_MM } from '../units/tolerances.js';
import { intersectSound } from './boolean.js';
import { openPath } from './build.js';
import { placesIn, windingOf } from './contain.js';
import { boxesMeet, boxOf, stepCrossings } from './crossing.js';
import { leftOf, leftPart, type Side } from './half-plane.js';
import { bounds } from './measure.js';
import { endsBox, monotoneParts } from './monotone.js';
import { loopsOf } from './regions.js';
import { partOfStep, pointAt, type Step, steps } from './step.js';
import type { Bounds, Path, Point, Region, Segment } from './types.js';
import { dot, samePoint, sub, unit } from './vec.js';

/** The edge of an area in parts that never turn back, with their boxes. */
const edgeOf = ({ outer, holes }: Region) =>
  [outer, ...holes]
    .flatMap(path => [...steps(path)].flatMap(monotoneParts))
    .map(step => ({ step, box: endsBox(step) }));

/**
 * Shapes cut to an area: those wholly inside are returned themselves, those outside are dropped, and only
 * those that meet the area's edge are cut. Shapes that overlap each other are not joined. Made for
 * hundreds of small shapes over one large outline; neither may meet itself.
 */
export function clipShapes(shapes: readonly Region[], within: Path | Region): Region[] {
  const area: Region = 'outer' in within ? within : { outer: within, holes: [] };
  const edge = edgeOf(area);
  const turns = windingOf(...loopsOf([area]));
  const whole = bounds(area.outer);
  const kept: Region[] = [];
  for (const shape of shapes) {
    const box = bounds(shape.outer);
    if (!boxesMeet(box, whole)) continue;
    const beside = edge.filter(e => boxesMeet(e.box, box));
    const meets =
      beside.length > 0 &&
      edgeOf(shape).some(s =>
        beside.some(e => boxesMeet(e.box, s.box) && stepCrossings(e.step, s.step).length > 0),
      );
    if (meets) kept.push(...(alongLines(shape, box, beside) ?? intersectSound(shape, area)));
    else if (turns(shape.outer.start) > 0 && !holds(box, area.holes)) kept.push(shape);
    // Not met and not inside: outside, or round the whole area or round a hole of it.
    else if (reaches(box, whole) || holds(box, area.holes))
      kept.push(...intersectSound(shape, area));
  }
  return kept;
}

/** Shapes that only straight edges cross, from side to side of their boxes, cut by these one after the
 *  other; nothing where it is not as simple as that. */
function alongLines(shape: Region, box: Bounds, beside: readonly { readonly step: Step }[]) {
  const sides: Side[] = [];
  for (const { step } of beside) {
    const { from, segment } = step;
    if (segment.kind !== 'line' || within(from, box) || within(segment.to, box)) return undefined;
    sides.push({ at: from, along: unit(sub(segment.to, from)) });
  }
  // Each edge must lie on the kept side of the others all through the box, or the area is more than what
  // all of them leave.
  for (const [i, side] of sides.entries()) {
    const chord = chordOf(side, box);
    for (const [k, other] of sides.entries()) {
      if (k !== i && !chord.every(p => leftOf(other, p) > ON_PATH_MM)) return undefined;
    }
  }
  let parts: readonly Region[] = [shape];
  for (const side of sides) {
    const next = parts.map(part => leftPart(part, side));
    if (next.includes(undefined)) return undefined;
    parts = next.flatMap(part => part ?? []);
  }
  return parts;
}

const within = ([x, y]: Point, { minX, minY, maxX, maxY }: Bounds): boolean =>
  x > minX - ON_PATH_MM && x < maxX + ON_PATH_MM && y > minY - ON_PATH_MM && y < maxY + ON_PATH_MM;

/** Two points of a line, one before and one behind a box. */
function chordOf({ at, along }: Side, { minX, minY, maxX, maxY }: Bounds): Point[] {
  const middle: Point = [(minX + maxX) / 2, (minY + maxY) / 2];
  const t = dot(along, sub(middle, at));
  const half = Math.hypot(maxX - minX, maxY - minY) / 2;
  return [t - half, t + half].map((k): Point => [at[0] + k * along[0], at[1] + k * along[1]]);
}

const reaches = (a: Bounds, b: Bounds): boolean =>
  a.minX <= b.minX && a.minY <= b.minY && a.maxX >= b.maxX && a.maxY >= b.maxY;
const holds = (box: Bounds, holes: readonly Path[]): boolean =>
  holes.some(hole => reaches(box, bounds(hole)));

/**
 * The parts of open paths that lie in a region, in order along each; a closed path is cut as a line, and
 * comes back itself when it lies wholly inside. What runs along the region's edge is left out; ends
 * on the edge are kept.
 */
export const clipOpenPaths = (paths: readonly Path[], region: Region): Path[] =>
  paths.flatMap(openPathCutter(region));

/** `clipOpenPaths` prepared for many paths, one at a time. */
export function openPathCutter(region: Region): (path: Path) => Path[] {
  const edge = edgeOf(region);
  const where = placesIn(region);
  return path => {
    const box = bounds(path);
    const beside = edge.filter(e => boxesMeet(e.box, box));
    // Clear of every edge it is wholly in or wholly out: one question tells.
    if (beside.length === 0) return where(path.start) === 'in' ? [path] : [];
    return clipOne(path, where, beside);
  };
}

function clipOne(
  path: Path,
  where: (p: Point) => 'in' | 'on' | 'out',
  edge: readonly { readonly step: Step; readonly box: Bounds }[],
): Path[] {
  const parts: Step[][] = [];
  let open = false;
  let cut = false;
  for (const step of steps(path)) {
    const box = boxOf(step);
    const cuts = edge
      .filter(e => boxesMeet(e.box, box))
      .flatMap(e => stepCrossings(step, e.step).map(c => c.ta))
      .sort((a, b) => a - b);
    let last = 0;
    for (const t of [...cuts, 1]) {
      if (!(t > last)) continue;
      const short = samePoint(pointAt(step, last), pointAt(step, t)) && t - last < 0.5;
      if (short && t < 1) continue;
      const part = partOfStep(step, last, t);
      const inside = where(pointAt(part, 0.5)) === 'in';
      if (!inside) [open, cut] = [false, true];
      else if (open) parts.at(-1)!.push(part);
      else {
        parts.push([part]);
        open = true;
      }
      last = t;
    }
  }
  if (path.closed && !cut) return parts.length > 0 ? [path] : [];
  if (path.closed && open && parts.length > 1) {
    const [first, final] = [parts[0]!, parts.at(-1)!];
    // The closed path's start lies inside: the last part runs on into the first.
    if (first[0]!.from === path.start) {
      parts[0] = [...final, ...first];
      parts.pop();
    }
  }
  return parts.map(p =>
    openPath(
      p[0]!.from,
      p.map((s): Segment => s.segment),
    ),
  );
}
