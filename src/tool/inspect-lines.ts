/** What is wrong with the lines of a cut themselves: ends, doubled lines, crossings, lengths. */
import { endOf, type Path, type Point, pathLength } from '../geom/index.js';
import { TIP_MM } from '../units/tolerances.js';
import { crossings, MOST_CROSSING_PAIRS, MOST_CROSSINGS } from './crossings.js';
import { Effort } from './effort.js';
import { type Findings, many, mm, placesOf } from './findings.js';
import { heapedPlaces } from './heaped.js';
import { nearAny } from './near-any.js';
import { dropShared, MOST_SHARED_PAIRS } from './shared-lines.js';
import { loopsAt } from './swing-loops.js';

/** Shorter cuts than this hardly turn the blade into the paper (common practice, no source). */
export const LEAST_CUT_MM = 0.3;
/** An open cut whose ends are this near was likely meant to be closed. */
const NEARLY_MM = 0.5;
/** A loop of the pivot about a corner: a hobby blade trails by 0.25 to 1 mm, and turns by less than once. */
export const MOST_SWING_MM = 3;

export interface LineFacts {
  readonly openCuts: number;
  /** Length of cut that lies on other cuts, mm. */
  readonly duplicateLength: number;
  readonly crossings: number;
  readonly tooShort: number;
  /** Open cuts loop and go over themselves as a pivot does at corners: the file allows for a blade. */
  readonly swings: boolean;
  /** The cuts, each place of them once. */
  readonly once: readonly Path[];
  /** Near the end of a pivot's open line, where nothing else is judged. */
  readonly atEnd: (p: Point) => boolean;
}

/** What is known of the lines: they are the drawing itself; they may be the way of a pivot, whose loops about
 *  corners are no fault; or outlines were cut on past their start, and so they are. */
export type Lines = 'drawing' | 'unknown' | 'pivot';

export function judgeLines(
  cuts: readonly Path[],
  lines: Lines,
  findings: Findings,
  share = 1,
): LineFacts {
  const open = cuts.filter(path => !path.closed);
  judgeEnds(open, findings);
  const sharing = new Effort(share * MOST_SHARED_PAIRS);
  const once = dropShared(cuts, sharing);
  findings.unchecked('fault', 'lines that lie on others', 'pieces of line', sharing.left);
  const swings = lines === 'drawing' ? NO_SWINGS : swingsOf(open, findings, share);
  const left = once.sharedLength - swings.retraced;
  const heaped = left > TIP_MM ? heapedPlaces(once.stretches) : [];
  // A pivot goes on past the end of a slit, and may there meet what another one does.
  const ends = lines === 'pivot' ? open.flatMap(path => [path.start, endOf(path)]) : [];
  const atEnd = nearAny(ends, MOST_SWING_MM / 2);
  const duplicateLength = heaped.length > 0 && heaped.every(h => atEnd(h.at)) ? 0 : left;
  const swung = swings.retraced + swings.crossed.length > 0;
  if (swung) {
    findings.add(
      'swing',
      'note',
      'open cuts run over or across themselves for a moment, as they do in a file that allows for the blade: ' +
        'keep it with its manifest and .drawing.json, and the tip itself is followed',
      placesOf(swings.crossed),
    );
  }
  if (duplicateLength > TIP_MM) {
    findings.add(
      'duplicate',
      'fault',
      `${mm(duplicateLength)} of cut lies on other cuts${once.duplicates > 0 ? ` (${many(once.duplicates, 'whole line')} twice)` : ''}: the blade would go over it again; delete one of each`,
      heaped,
    );
  }
  const swinging = nearAny(swings.crossed, TIP_MM);
  const crossing = new Effort(share * MOST_CROSSING_PAIRS);
  const crossed = crossings(once.paths, crossing).filter(p => !(atEnd(p) || swinging(p)));
  findings.unchecked('fault', 'crossing cuts', 'chords', crossing.left);
  if (crossed.length > 0) {
    const more = crossed.length >= MOST_CROSSINGS ? 'or more ' : '';
    findings.add(
      'crossing',
      'fault',
      `cuts cross at ${crossed.length} ${more}${crossed.length === 1 ? 'place' : 'places'}: unite the shapes, or take one away`,
      placesOf(crossed),
    );
  }
  const short = cuts.filter(path => !(pathLength(path) >= LEAST_CUT_MM));
  if (short.length > 0) {
    findings.add(
      'too-short',
      'fault',
      `${many(short.length, 'cut')} shorter than ${mm(LEAST_CUT_MM)}: delete or lengthen`,
      short.map(path => ({ at: path.start, size: pathLength(path) })),
    );
  }
  return {
    openCuts: open.length,
    duplicateLength,
    crossings: crossed.length,
    tooShort: short.length,
    swings: swung,
    once: once.sharedLength > 0 ? once.paths : cuts,
    atEnd,
  };
}

function judgeEnds(open: readonly Path[], findings: Findings): void {
  const gap = (path: Path) => apart(path.start, endOf(path));
  const nearly = open.filter(path => pathLength(path) > 4 * NEARLY_MM && gap(path) <= NEARLY_MM);
  if (open.length > 0) {
    findings.add(
      'open-cut',
      'note',
      `${many(open.length, 'open cut')}: right for slits and for the short first cut that turns ` +
        'the blade, a fault in an outline',
      placesOf(open.map(path => path.start)),
    );
  }
  if (nearly.length > 0) {
    findings.add(
      'nearly-closed',
      'fault',
      `${many(nearly.length, 'outline')} not closed: the ends are up to ${mm(nearly.reduce((most, path) => Math.max(most, gap(path)), 0))} apart; join them`,
      nearly.map(path => ({ at: path.start, size: gap(path) })),
    );
  }
}

/** What a pivot does at corners and at the end of an outline, where it is not known to be one. */
interface Swings {
  /** Length of cut that lies on the same cut, mm. */
  readonly retraced: number;
  /** Where an open cut crosses itself. */
  readonly crossed: readonly Point[];
}
const NO_SWINGS: Swings = { retraced: 0, crossed: [] };

/** Loops and retraced stretches of open cuts, where each is no larger than a blade's swing: a file away from
 *  its manifest does not say whether it holds the drawing or the pivot's way. */
function swingsOf(open: readonly Path[], findings: Findings, share: number): Swings {
  let retraced = 0;
  const crossed: Point[] = [];
  // One effort for all paths: a file of many paths is bounded as one of few.
  const sharing = new Effort(share * MOST_SHARED_PAIRS);
  const crossing = new Effort(share * MOST_CROSSING_PAIRS);
  for (const [i, path] of open.entries()) {
    if (sharing.over || crossing.over) {
      const left = { looked: i, of: open.length };
      findings.unchecked('note', 'loops of a blade that is allowed for', 'open cuts', left);
      break;
    }
    // A straight cut neither loops nor comes back.
    if (path.segments.length === 1 && path.segments[0]!.kind === 'line') continue;
    const once = dropShared([path], sharing);
    if (once.sharedLength <= MOST_SWING_MM) retraced += once.sharedLength;
    const places = crossings(once.paths, crossing);
    const loops = loopsAt(path, places);
    crossed.push(...places.filter((_, k) => loops[k]! <= MOST_SWING_MM));
  }
  return { retraced, crossed };
}

const apart = (a: Point, b: Point) => Math.hypot(a[0] - b[0], a[1] - b[1]);
