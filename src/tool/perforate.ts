/** A perforated line is a row of cuts with paper left between. */
import {
  type Path,
  partOf,
  pathLength,
  type Step,
  startingAt,
  steps,
  tangentAt,
} from '../geom/index.js';

export interface Perforation {
  /** Cut and paper left between cuts, mm. Both are stretched or shrunk alike to fit each line. */
  readonly dash: number;
  readonly gap: number;
  /** Fewest dashes of a run; they are shorter on a short one. One if not said. */
  readonly least?: number;
}

/** Common practice, no source: cut two thirds, and paper between that a finger can tear. */
export const PERFORATION: Perforation = { dash: 2, gap: 1 };

/** A turn sharper than this (20°, common practice) is a corner: it stays whole, on paper. */
const CORNER = Math.PI / 9;
/** Shorter dashes than this are not cut: the blade would hardly enter the paper. */
const LEAST_DASH_MM = 0.3;

/**
 * The dashes of one line, in order. Every smooth run begins and ends on paper, with n dashes and
 * n + 1 gaps; a closed smooth line has as many gaps as dashes and begins in the middle of one. Throws
 * `RangeError` for a dash or gap that is not above 0.
 */
export function dashesOf(path: Path, perforation: Perforation = PERFORATION): Path[] {
  const { dash, gap, least = 1 } = perforation;
  if (!(dash > 0 && gap > 0)) {
    throw new RangeError(`dash ${dash} mm and gap ${gap} mm: both must be above 0`);
  }
  const corner = path.closed ? corners(path)[0] : undefined;
  if (path.closed && corner === undefined) {
    const length = pathLength(path);
    const n = Math.max(2, least, Math.round(length / (dash + gap)));
    return cuts(path, length, n, dash, gap, 0.5);
  }
  const line = corner === undefined ? path : startingAt(path, corner);
  return smoothRuns(line).flatMap(run => {
    const length = pathLength(run);
    const n = Math.max(least, Math.round((length - gap) / (dash + gap)));
    return cuts(run, length, n, dash, gap, 1);
  });
}

/** `n` dashes that fill a run which begins and ends with `ends` gaps; fewer where they would be too
 *  short. */
function cuts(
  run: Path,
  length: number,
  n: number,
  dash: number,
  gap: number,
  ends: number,
): Path[] {
  const fit = length / (n * dash + (n - 1 + 2 * ends) * gap);
  if (!(fit * dash >= LEAST_DASH_MM)) {
    if (n > 1) return cuts(run, length, n - 1, dash, gap, ends);
    // A line of short dashes and wide gaps still gets one, in its middle, where it has room.
    const least = LEAST_DASH_MM / 2;
    return length > 6 * least ? [partOf(run, length / 2 - least, length / 2 + least)] : [];
  }
  return Array.from({ length: n }, (_, i) => {
    const from = fit * (ends * gap + i * (dash + gap));
    return partOf(run, from, from + fit * dash);
  });
}

const turnBetween = (a: Step, b: Step) => {
  const u = tangentAt(a, 1);
  const v = tangentAt(b, 0);
  return Math.abs(Math.atan2(u[0] * v[1] - u[1] * v[0], u[0] * v[0] + u[1] * v[1]));
};

/** Indices of the segments of a closed path that begin at a corner. */
function corners(path: Path): number[] {
  const all = [...steps(path)];
  return all.flatMap((step, i) => (turnBetween(all.at(i - 1)!, step) > CORNER ? [i] : []));
}

function smoothRuns(path: Path): Path[] {
  const runs: Step[][] = [];
  for (const step of steps(path)) {
    const run = runs.at(-1);
    const before = run?.at(-1);
    if (run && before && turnBetween(before, step) <= CORNER) run.push(step);
    else runs.push([step]);
  }
  return runs.map(run => ({
    start: run[0]!.from,
    segments: run.map(s => s.segment),
    closed: false,
  }));
}
