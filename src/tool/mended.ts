/** What was done to lines so that they can be worked, and what of it is told. */
import { LEAST_SEGMENT_MM } from '../units/tolerances.js';

export interface CleanReport {
  /** Paths that lay wholly on others and were dropped. */
  readonly duplicates: number;
  /** Open lines that lay on others in part, and lost that. */
  readonly shortened: number;
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

/** Fit to stand after the operation's name. Empty where the lines were worked as they were drawn; corners
 *  that were none and edges that two outlines share are no mending. */
export function mended(report: CleanReport): string[] {
  const { gapsClosed, widestGap, duplicates, shortened, merged } = report;
  return [
    [gapsClosed, 'gap', `of up to ${widestGap.toFixed(3)} mm closed`],
    [duplicates, 'doubled line', 'dropped'],
    [shortened, 'line', 'cut short where it lay on another', 'cut short where they lay on others'],
    [merged, 'segment', `shorter than ${LEAST_SEGMENT_MM} mm merged`],
  ].flatMap(([n, what, one, several = one]) => {
    if (!((n as number) > 0)) return [];
    return n === 1 ? [`1 ${what} ${one}`] : [`${n} ${what}s ${several}`];
  });
}
