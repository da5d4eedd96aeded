/** Lines made fit to be worked: each place once, in runs as long as they can be. */
import { isFinitePath, type Path, pathLength, signedArea } from '../geom/index.js';
import { GAP_MM, SAME_POINT_MM } from '../units/tolerances.js';
import { joinEnds } from './join.js';
import { type CleanReport, mended } from './mended.js';
import { mergeRuns } from './runs.js';
import { dropShared } from './shared-lines.js';
import { mergeShort } from './short-segments.js';

export interface Cleaned {
  readonly paths: readonly Path[];
  /** For each path the closed contour it was a part of, where it lost a shared edge. */
  readonly contours: readonly (Path | undefined)[];
  /** The closed contours that lost an edge, or all of them. */
  readonly outlines: readonly Path[];
  readonly report: CleanReport;
}

/**
 * Cleans the paths of one operation: what lies on an earlier path is dropped, ends that meet (or miss
 * each other by at most `GAP_MM`) are joined, segments shorter than `LEAST_SEGMENT_MM` are merged (within
 * `MERGE_MM`), and collinear or cocircular runs become one segment (within `JOIN_MM`). A path with a number
 * that is not finite is our fault and throws.
 */
export function cleanPaths(paths: readonly Path[]): Cleaned {
  for (const path of paths) {
    if (!isFinitePath(path)) throw new RangeError('a path with a number that is not finite');
  }
  const real = paths.filter(path => pathLength(path) > SAME_POINT_MM);
  const once = dropShared(real);
  const whole = joinEnds(once.paths, GAP_MM);
  // Before the runs: a curve in a thousand steps is to become arcs, not a hundred lines.
  const long = whole.paths.map(mergeShort);
  const runs = long.map(r => mergeRuns(r.path));
  return {
    paths: runs.map(r => r.path),
    contours: whole.sources.map(s => once.contours[s]),
    outlines: once.outlines,
    report: {
      duplicates: once.duplicates,
      shortened: once.shortened,
      sharedLength: once.sharedLength,
      gapsClosed: whole.gapsClosed,
      widestGap: whole.widestGap,
      joined: runs.reduce((sum, r) => sum + r.joined, 0),
      merged: long.reduce((sum, r) => sum + r.merged, 0),
      empty: paths.length - real.length,
    },
  };
}

/**
 * Cleans the lines of a drawing from elsewhere: ends that miss each other by at most `gap` mm are joined
 * first, so that outlines close; then as `cleanPaths`, but an edge that two outlines share stays in both.
 * What was mended is told in words.
 */
export function cleanOutlines(
  paths: readonly Path[],
  gap: number,
): { readonly paths: readonly Path[]; readonly mended: readonly string[] } {
  const whole = joinEnds(paths, gap);
  // A line drawn twice has been joined to itself, there and back, and is no outline.
  const back = whole.paths.map(path =>
    path.closed && Math.abs(signedArea(path)) < NO_AREA_MM2 ? dropShared([path]).paths : [path],
  );
  const { paths: clean, contours, report } = cleanPaths(back.flat());
  return {
    paths: [...new Set(clean.map((path, i) => contours[i] ?? path))],
    mended: mended({
      ...report,
      duplicates: report.duplicates + back.filter((b, i) => b[0] !== whole.paths[i]).length,
      gapsClosed: report.gapsClosed + whole.gapsClosed,
      widestGap: Math.max(report.widestGap, whole.widestGap),
    }),
  };
}

/** A closed path round less than this is a line; no part so small can be cut. */
const NO_AREA_MM2 = 1e-6;
