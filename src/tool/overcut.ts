/** Closed cuts in files that were compensated: open paths that run on past their own start. */
import {
  distance,
  dot,
  endOf,
  endTangent,
  nearestOnStep,
  type Path,
  partOf,
  partOfStep,
  pathLength,
  stepLength,
  steps,
  tangentAt,
} from '../geom/index.js';
import { TIP_MM } from '../units/tolerances.js';

/** No overcut is longer than this, mm, the turn of the blade before it included. */
const MOST_OVERCUT_MM = 6;

/**
 * The path that a cut closes, without what it goes over twice and without the blade's turn before it; the
 * path itself where it does not come back onto its own first stretch and run on along it.
 */
export function withoutOvercut(path: Path): Path {
  if (path.closed) return path;
  const length = pathLength(path);
  const most = Math.min(MOST_OVERCUT_MM, length / 3);
  const end = endOf(path);
  const along = endTangent(path);
  let before = 0;
  for (const step of steps(path)) {
    if (before > most) return path;
    const { t, distance: off } = nearestOnStep(end, step);
    if (off <= TIP_MM && dot(tangentAt(step, t), along) > 0.9) {
      const from = before + (t > 0 ? stepLength(partOfStep(step, 0, t)) : 0);
      if (from > TIP_MM && from <= most) return ringOf(partOf(path, from, length));
    }
    before += stepLength(step);
  }
  return path;
}

/** Closed to the bit: both ends are in one place already. */
function ringOf({ start, segments }: Path): Path {
  const kept = [...segments];
  const from = () => kept.at(-2)?.to ?? start;
  while (kept.length > 1 && distance(from(), start) <= 2 * TIP_MM) kept.pop();
  return { start, segments: [...kept.slice(0, -1), { ...kept.at(-1)!, to: start }], closed: true };
}
