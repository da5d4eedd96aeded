/**
 * How folds are made on machines with and without a scoring tool. A fold is worked with the tool, drawn
 * as a guide for a bone folder, perforated, or cut lightly; in one pass or several.
 */
import {
  bounds,
  distanceToPath,
  endOf,
  intersections,
  nearestOnStep,
  type Path,
  type Point,
  partOf,
  partOfStep,
  pathLength,
  reverse,
  stepLength,
  steps,
} from '../geom/index.js';
import type { Folding, Stroke } from '../model.js';
import { GAP_MM, SAME_POINT_MM } from '../units/tolerances.js';
import { dashesOf } from './perforate.js';

/** A fold of any length has at least so many dashes: two hold it straight no better than a hinge pin. */
const LEAST_DASHES = 3;
/** Of a short fold, at most this share is set back, both ends together. */
const MOST_SET_BACK = 0.5;

/** Strokes with the folds as the pen's where the pen marks them; else as they are. */
export const foldStrokes = (strokes: readonly Stroke[], { by }: Folding): readonly Stroke[] =>
  by === 'pen'
    ? strokes.map(s => (s.operation === 'score' ? { ...s, operation: 'draw' } : s))
    : strokes;

/**
 * What is worked of ordered folds: lines that end on a cut kept off it by the setback, dashes, passes
 * there and back. `cuts` are the sheet's cut lines.
 */
export function workedFolds(
  folds: readonly Path[],
  cuts: readonly Path[],
  { by, dash, gap, passes, setback }: Folding,
): Path[] {
  const lines =
    by === 'perforation'
      ? folds.flatMap((fold, i) =>
          partedAt(fold, [...crossings(fold, i, folds), ...touches(fold, cuts)]).flatMap(part =>
            dashesOf(part, { dash, gap, least: LEAST_DASHES }),
          ),
        )
      : folds.map(fold => setBack(fold, cuts, setback));
  return lines.flatMap(line =>
    Array.from({ length: passes }, (_, k) => (k % 2 === 0 || line.closed ? line : reverse(line))),
  );
}

/** A line that ends on a cut, shorter by `setback` there. */
function setBack(fold: Path, cuts: readonly Path[], setback: number): Path {
  if (fold.closed || !(setback > 0)) return fold;
  const onCut = (p: Point) => cuts.some(cut => distanceToPath(p, cut) <= GAP_MM);
  const length = pathLength(fold);
  const by = Math.min(setback, (length * MOST_SET_BACK) / 2);
  const from = onCut(fold.start) ? by : 0;
  const to = length - (onCut(endOf(fold)) ? by : 0);
  return from > 0 || to < length ? partOf(fold, from, to) : fold;
}

/** Where other folds cross a fold or end on it, away from its own ends. */
function crossings(fold: Path, own: number, folds: readonly Path[]): Point[] {
  return folds.flatMap((other, k) => {
    if (k === own) return [];
    const ends = other.closed
      ? []
      : [other.start, endOf(other)].filter(p => distanceToPath(p, fold) <= SAME_POINT_MM);
    return [...intersections(fold, other), ...ends];
  });
}

/** Where cuts come onto a fold between its ends, as the notches between teeth do: a dash there would meet
 *  them, and the paper hang by nothing. */
function touches(fold: Path, cuts: readonly Path[]): Point[] {
  const own = bounds(fold);
  const near = (p: Point) =>
    p[0] >= own.minX - GAP_MM &&
    p[0] <= own.maxX + GAP_MM &&
    p[1] >= own.minY - GAP_MM &&
    p[1] <= own.maxY + GAP_MM;
  return cuts.flatMap(cut => {
    const b = bounds(cut);
    const apart =
      b.minX > own.maxX + GAP_MM ||
      b.maxX < own.minX - GAP_MM ||
      b.minY > own.maxY + GAP_MM ||
      b.maxY < own.minY - GAP_MM;
    if (apart) return [];
    const corners = [cut.start, ...cut.segments.map(s => s.to)];
    const on = corners.filter(p => near(p) && distanceToPath(p, fold) <= GAP_MM);
    return [...on, ...intersections(fold, cut)];
  });
}

/** A path in parts that end at the points, so that no dash runs over one. */
function partedAt(path: Path, points: readonly Point[]): Path[] {
  const length = pathLength(path);
  const places = points
    .map(p => placeOn(path, p))
    .filter(s => s > GAP_MM && s < length - GAP_MM)
    .sort((a, b) => a - b)
    .filter((s, i, all) => i === 0 || s - all[i - 1]! > GAP_MM);
  if (places.length === 0) return [path];
  const all = [0, ...places, length];
  return all.slice(1).map((to, i) => partOf(path, all[i]!, to));
}

/** How far along a path a point on it lies, mm. */
function placeOn(path: Path, p: Point): number {
  let before = 0;
  let best = { at: 0, off: Number.POSITIVE_INFINITY };
  for (const step of steps(path)) {
    const { t, distance } = nearestOnStep(p, step);
    if (distance < best.off) {
      const at = before + (t > 0 ? stepLength(partOfStep(step, 0, t)) : 0);
      best = { at, off: distance };
    }
    before += stepLength(step);
  }
  return best.at;
}
