/** A look at a cut file's drawing before any paper is spent. */
import { isFinitePath, openPath, type Path, pathLength } from '../geom/index.js';
import {
  type Cutter,
  type Drawing,
  type Finding,
  type Folding,
  OPERATIONS,
  type Operation,
} from '../model.js';
import { SAME_POINT_MM, TIP_MM, UNCOMPENSATED_MM } from '../units/tolerances.js';
import { bladeDoes } from './drive.js';
import { Effort } from './effort.js';
import { Findings, many, mm, type NotChecked } from './findings.js';
import { type Area, judgePlace } from './inspect-bounds.js';
import { judgeDoubled } from './inspect-doubled.js';
import { judgeLines, LEAST_CUT_MM, type LineFacts, MOST_SWING_MM } from './inspect-lines.js';
import { looseParts } from './loose.js';
import { narrowPlaces } from './narrow.js';
import { travel } from './order.js';
import { withoutOvercut } from './overcut.js';
import { dragTip, type TipTrack } from './simulate.js';
import { firstHeading, type TipError, trackError } from './tip-error.js';
import { tipPlaces } from './tip-places.js';

export interface InspectOptions {
  /** From the swivel axis to the cutting point, mm. */
  readonly bladeOffset?: number;
  /** What a beam burns away, mm: it has no tip that trails. */
  readonly kerf?: number;
  /** What the tip must draw, where the file holds the pivot's way: the drawing as it was before
   *  compensation. Lines are then judged there. */
  readonly intended?: Drawing;
  /** How folds are made; with a tool, if not said. */
  readonly folds?: Folding['by'];
  readonly area?: Area;
  /** For the estimate of time, mm/s. */
  readonly speed?: Cutter['speed'];
  /** Parts that are smaller across are told, mm. */
  readonly smallPart?: number;
  /** How much a search may look at before it stops and says so: a share of what is usual. */
  readonly share?: number;
  /** What reading the file found: told with the rest. */
  readonly read?: readonly Finding[];
}

export interface OperationReport {
  readonly operation: Operation;
  readonly paths: number;
  readonly closed: number;
  /** mm */
  readonly length: number;
  /** Estimated, where speeds are known. */
  readonly seconds?: number;
}

export interface InspectReport {
  readonly name: string;
  /** mm */
  readonly width: number;
  readonly height: number;
  readonly operations: readonly OperationReport[];
  /** Travel of the lifted tools from the origin, mm. */
  readonly travel: number;
  /** Estimated time of all operations and of the travel between, where speeds are known. */
  readonly seconds?: number;
  readonly openCuts: number;
  /** Length of cut that lies on other cuts, mm. */
  readonly duplicateLength: number;
  readonly crossings: number;
  readonly tooShort: number;
  /** Places narrower than the tool can turn in, and that width, mm; where the tool is known. */
  readonly narrow?: { readonly least: number; readonly places: number };
  /** Openings in parts, parts inside openings, and parts smaller across than `least` mm. */
  readonly loose: {
    readonly openings: number;
    readonly parts: number;
    readonly small: number;
    readonly least: number;
  };
  /** Where both the blade's offset and what it must cut are known. */
  readonly tip?: TipError & { readonly offset: number };
  /** How far the tip would leave these lines if nobody allowed for the offset; where the file holds the
   *  drawing, as far as can be seen. */
  readonly unaided?: TipError & { readonly offset: number };
  /** What was not looked at to its end, for the time it would take; each is among the findings too. */
  readonly notChecked: readonly NotChecked[];
  readonly findings: readonly Finding[];
  /** No fault among the findings. */
  readonly good: boolean;
}

/** Smaller parts are lifted off the mat by the blade (common practice, no source). */
export const SMALL_PART_MM = 3;

/** Inspects one drawing. Pure; finds faults and never throws for what a file may hold. */
export function inspectDrawing(drawing: Drawing, options: InspectOptions = {}): InspectReport {
  const findings = new Findings(options.read);
  const finite = onlyFinite(drawing);
  const lost = count(drawing) - count(finite);
  if (lost > 0) {
    const words = `${many(lost, 'path holds', 'paths hold')} a number that is not finite: draw again`;
    findings.add('not-finite', 'fault', words);
  }
  const operations = operationsOf(finite, options.speed);
  if (operations.length === 0) {
    findings.add('nothing', 'fault', 'there is nothing to cut or draw in it');
  }
  // Compensated lines run ahead of what they cut and swing at corners: the drawing itself is judged.
  const judged = options.intended ? onlyFinite(options.intended) : finite;
  const raw = pathsOf(judged, 'cut');
  const cuts = raw.map(withoutOvercut);
  const overcut = !options.intended && cuts.some((path, i) => path !== raw[i]);
  const kind = options.intended ? 'drawing' : overcut ? 'pivot' : 'unknown';
  const lines = judgeLines(cuts, kind, findings, options.share);
  const pivots = lines.swings || overcut;
  for (const operation of OPERATIONS) {
    // A pivot that goes from dash to dash swings over what it has cut.
    if (pivots && operation === 'perforate') continue;
    judgeDoubled(operation, pathsOf(judged, operation), findings, options.share);
  }
  const narrow = judgeNarrow(cuts, lines, pivots ? MOST_SWING_MM : 0, options, findings);
  const loose = judgeLoose(cuts, options.smallPart ?? SMALL_PART_MM, findings);
  // A pivot runs ahead of what it cuts by as much as it trails.
  judgePlace(judged, options.area, pivots ? MOST_SWING_MM / 2 : 0, findings);
  const tip = tipOf(finite, options, findings);
  const unaided = pivots ? undefined : unaidedTip(finite, options, findings);
  const away = travel(OPERATIONS.flatMap(o => pathsOf(finite, o)));
  const list = findings.list();
  return {
    name: drawing.name,
    width: drawing.width,
    height: drawing.height,
    operations,
    travel: away,
    ...(options.speed && {
      seconds: operations.reduce((s, o) => s + o.seconds!, away / options.speed.travel),
    }),
    openCuts: lines.openCuts,
    duplicateLength: lines.duplicateLength,
    crossings: lines.crossings,
    tooShort: lines.tooShort,
    ...(narrow && { narrow }),
    loose,
    ...(tip && { tip }),
    ...(unaided && { unaided }),
    notChecked: findings.notChecked,
    findings: list,
    good: list.every(f => f.severity !== 'fault'),
  };
}

const count = (drawing: Drawing) => drawing.layers.reduce((n, l) => n + l.paths.length, 0);

const pathsOf = (drawing: Drawing, operation: Operation): Path[] =>
  drawing.layers.filter(l => l.operation === operation).flatMap(l => l.paths);

function onlyFinite(drawing: Drawing): Drawing {
  const layers = drawing.layers.map(layer => ({
    ...layer,
    paths: layer.paths.filter(path => isFinitePath(path) && path.segments.length > 0),
  }));
  return { ...drawing, layers };
}

function operationsOf(drawing: Drawing, speed?: Cutter['speed']): OperationReport[] {
  return OPERATIONS.flatMap(operation => {
    const paths = pathsOf(drawing, operation);
    if (paths.length === 0) return [];
    const length = paths.reduce((total, path) => total + pathLength(path), 0);
    return {
      operation,
      paths: paths.length,
      closed: paths.filter(path => path.closed).length,
      length,
      ...(speed && { seconds: length / speed[operation] }),
    };
  });
}

function judgeNarrow(
  cuts: readonly Path[],
  { once, atEnd }: LineFacts,
  ownSwing: number,
  { bladeOffset = 0, kerf = 0 }: InspectOptions,
  findings: Findings,
): InspectReport['narrow'] {
  const least = kerf > 0 ? kerf : 2 * bladeOffset;
  if (!(least > 0)) return undefined;
  const { places: all, left } = narrowPlaces(once, least, ownSwing, cuts);
  const places = all.filter(p => !atEnd(p.at));
  if (places.length > 0) {
    const tool =
      kerf > 0
        ? `a beam of ${mm(kerf)} can go in and back`
        : `a blade of ${mm(bladeOffset)} offset can turn in`;
    const paper = places.filter(p => p.paper).length;
    const kinds = [
      ...(paper > 0 ? [`${paper} of paper`] : []),
      ...(paper < places.length ? [`${places.length - paper} of waste`] : []),
    ].join(', ');
    findings.add(
      'narrow',
      'warning',
      `${many(places.length, 'place')} narrower than the ${mm(least)} that ${tool} (${kinds}), the narrowest ${mm(places[0]!.size)}: paper tears there; widen, or take a finer tool`,
      places.map(({ at, size }) => ({ at, size })),
    );
  }
  findings.unchecked('warning', `places narrower than ${mm(least)}`, 'pieces of line', left);
  return { least, places: places.length };
}

function judgeLoose(
  cuts: readonly Path[],
  least: number,
  findings: Findings,
): InspectReport['loose'] {
  const { looked, openings, parts, small } = looseParts(cuts, least);
  if (!looked) {
    const unlooked = { looked: 0, of: cuts.filter(p => p.closed).length };
    findings.unchecked('note', 'parts that come loose', 'closed cuts', unlooked);
  }
  if (openings.length + parts.length > 0) {
    const told = [
      ...(openings.length > 0 ? [many(openings.length, 'cut-out')] : []),
      ...(parts.length > 0 ? [`${many(parts.length, 'part')} in cut-outs`] : []),
    ].join(' and ');
    const one = openings.length + parts.length === 1;
    findings.add(
      'loose',
      'note',
      `${told} inside other parts: ${one ? 'it comes' : 'they come'} loose first`,
      [...parts, ...openings],
    );
  }
  if (small.length > 0) {
    findings.add(
      'small-part',
      'warning',
      `${many(small.length, 'part')} smaller than ${mm(least)} across, the smallest ${mm(small[0]!.size!)}: the blade may lift ${small.length === 1 ? 'it' : 'them'} off the mat and jam; cut slowly on a tacky mat, or draw ${small.length === 1 ? 'it' : 'them'} larger`,
      small,
    );
  }
  return { openings: openings.length, parts: parts.length, small: small.length, least };
}

/** The lines that the blade cuts, longer than a point. */
function byBlade(drawing: Drawing, folds: Folding['by'] = 'tool'): Path[] {
  const paths = bladeDoes(folds).flatMap(o => pathsOf(onlyFinite(drawing), o));
  return paths.filter(path => pathLength(path) > SAME_POINT_MM);
}

/** A blade is followed along so many lines and curves where the file does not allow for it: what it would do
 *  at corners is seen by then. */
const MOST_FOLLOWED_SEGMENTS = 20_000;
/** Chords looked at to tell how far the tip is from the drawing: some seconds' work. */
const MOST_FOLLOWED_CHORDS = 5e7;

/** As many of the paths as have no more than `most` segments; of the one that has, its beginning. */
function firstSegments(all: readonly Path[], most: number) {
  const paths: Path[] = [];
  let room = most;
  for (const path of all) {
    if (room === 0) break;
    const whole = path.segments.length <= room;
    paths.push(whole ? path : openPath(path.start, path.segments.slice(0, room)));
    room -= whole ? path.segments.length : room;
  }
  const of = all.reduce((sum, path) => sum + path.segments.length, 0);
  return { paths, left: of > most ? { looked: most, of } : undefined };
}

/** The way of a blade's tip along the lines of a file, in the order in which it cuts them; none where
 *  no blade that trails is known. Curves within `tolerance` mm. */
export function tipTracks(
  driven: Drawing,
  { bladeOffset, intended, folds }: InspectOptions,
  tolerance?: number,
): TipTrack[] {
  if (!(bladeOffset !== undefined && bladeOffset > 0)) return [];
  const paths = byBlade(driven, folds);
  const heading = firstHeading(intended ? byBlade(intended, folds) : paths);
  return dragTip(paths, bladeOffset, heading, tolerance);
}

function tipOf(driven: Drawing, options: InspectOptions, findings: Findings): InspectReport['tip'] {
  const { bladeOffset, intended, folds } = options;
  if (!intended || !(bladeOffset !== undefined && bladeOffset >= 0)) return undefined;
  const drawn = byBlade(intended, folds);
  if (drawn.length === 0) return undefined;
  const tracks = dragTip(byBlade(driven, folds), bladeOffset, firstHeading(drawn));
  const following = new Effort(MOST_FOLLOWED_CHORDS);
  const error = trackError(drawn, tracks, undefined, following);
  findings.unchecked('fault', "where the blade's tip goes", 'mm of line', following.left);
  const tip = { offset: bladeOffset, ...error };
  if (!(tip.max <= TIP_MM && tip.uncutMax <= TIP_MM)) {
    findings.add(
      'tip',
      'fault',
      `with a blade offset of ${mm(tip.offset)} the tip leaves the drawing by up to ${mm(tip.max)} and leaves ${mm(tip.uncutMax)} uncut (allowed: ${mm(TIP_MM)}): is the offset right, and does only one of file and cutter compensate?`,
      tipPlaces(drawn, tracks, TIP_MM),
    );
  }
  return tip;
}

/** What the blade would do to lines that are the drawing itself. */
function unaidedTip(
  drawing: Drawing,
  { bladeOffset, intended, folds }: InspectOptions,
  findings: Findings,
): InspectReport['unaided'] {
  if (intended || !(bladeOffset !== undefined && bladeOffset > 0)) return undefined;
  // What is too short to turn the blade is told by itself.
  const all = byBlade(drawing, folds).filter(path => pathLength(path) >= LEAST_CUT_MM);
  if (all.length === 0) return undefined;
  const { paths, left } = firstSegments(all, MOST_FOLLOWED_SEGMENTS);
  const tracks = dragTip(paths, bladeOffset, undefined, UNCOMPENSATED_MM);
  const following = new Effort(MOST_FOLLOWED_CHORDS);
  const error = trackError(paths, tracks, UNCOMPENSATED_MM, following);
  const tip = "where the blade's tip would go";
  findings.unchecked('note', tip, 'lines and curves', left, 'corners further on are cut alike');
  findings.unchecked('note', tip, 'mm of line', following.left);
  if (error.max > TIP_MM) {
    findings.add(
      'tip',
      'note',
      `the file holds the drawing: your cutter's software must allow for the blade's ${mm(bladeOffset)}, or the tip leaves it by up to ${mm(error.max)}`,
      tipPlaces(paths, tracks, Math.max(TIP_MM, error.max / 2)),
    );
  }
  return { offset: bladeOffset, ...error };
}
