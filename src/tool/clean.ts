/** Lines made fit to be worked: each place once, in runs as long as they can be. */
import { isFinitePath, type Path, pathLength } from '../geom/index.js';
import { GAP_MM, SAME_POINT_MM } from '../units/tolerances.js';
import { joinEnds } from './join.js';
import { mergeRuns } from './runs.js';
import { dropShared } from './shared-lines.js';
import { mergeShort } from './short-segments.js';

export interface CleanReport {
  /** Paths that lay wholly on others and were dropped. */
  readonly duplicates: number;
  /** Length of line that lay on other lines and is worked once instead, mm. */
  readonly sharedLength: number;
  /** Gaps between ends that were closed, with the widest, mm, and where each was. */
  readonly gapsClosed: number;
  readonly widestGap: number;
  /** Corners that were none: lines and arcs that ran straight on and are now one. */
  readonly joined: number;
  /** Segments too short for a machine, merged into others. */
  readonly merged: number;
  /** Paths without length, dropped. */
  readonly empty: number;
}

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
 */
export function cleanOutlines(paths: readonly Path[], gap: number): readonly Path[] {
  const whole = joinEnds(paths, gap).paths;
  const { paths: clean, contours } = cleanPaths(whole);
  return [...new Set(clean.map((path, i) => contours[i] ?? path))];
}
