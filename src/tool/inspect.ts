/** A look at a cut file's drawing before any paper is spent. */
import {
  bounds,
  endOf,
  isFinitePath,
  nearestOnStep,
  type Path,
  type Point,
  pathLength,
  stepLength,
  steps,
} from '../geom/index.js';
import { type Drawing, type Folding, OPERATIONS, type Operation } from '../model.js';
import { SAME_POINT_MM, TIP_MM } from '../units/tolerances.js';
import { crossings, MOST_CROSSINGS } from './crossings.js';
import { bladeDoes } from './drive.js';
import { travel } from './order.js';
import { withoutOvercut } from './overcut.js';
import { dropShared } from './shared-lines.js';
import { type TipError, tipError } from './tip-error.js';

export interface InspectOptions {
  /** From the swivel axis to the cutting point, mm: for files that were compensated for it. */
  readonly bladeOffset?: number;
  /** What the tip must draw, where the file holds the pivot's way: the drawing as it was before
   *  compensation. Lines are then judged there. */
  readonly intended?: Drawing;
  /** How folds are made; with a tool, if not said. */
  readonly folds?: Folding['by'];
  /** The cutter: its working area and the border its tools cannot reach, mm. */
  readonly area?: { readonly width: number; readonly height: number; readonly margin: number };
}

export interface OperationReport {
  readonly operation: Operation;
  readonly paths: number;
  readonly closed: number;
  /** mm */
  readonly length: number;
}

export interface Finding {
  readonly kind:
    | 'not-finite'
    | 'nothing'
    | 'open-cut'
    | 'nearly-closed'
    | 'duplicate'
    | 'crossing'
    | 'swing'
    | 'too-short'
    | 'outside-sheet'
    | 'outside-area'
    | 'tip';
  /** `note` is to know; `fault` spoils the cut and fails the inspection. */
  readonly severity: 'note' | 'fault';
  /** For a person: what, how much, what to do. */
  readonly message: string;
  /** Where on the drawing, for some of them. */
  readonly at?: readonly Point[];
}

export interface InspectReport {
  readonly name: string;
  /** mm */
  readonly width: number;
  readonly height: number;
  readonly operations: readonly OperationReport[];
  /** Travel of the lifted tools from the origin, mm. */
  readonly travel: number;
  readonly openCuts: number;
  /** Length of cut that lies on other cuts, mm. */
  readonly duplicateLength: number;
  readonly crossings: number;
  readonly tooShort: number;
  /** Where both the blade's offset and what it must cut are known. */
  readonly tip?: TipError & { readonly offset: number };
  readonly findings: readonly Finding[];
  /** No fault among the findings. */
  readonly good: boolean;
}

/** Shorter cuts than this hardly turn the blade into the paper (common practice, no source). */
const LEAST_CUT_MM = 0.3;
/** An open cut whose ends are this near was likely meant to be closed. */
const NEARLY_MM = 0.5;
/** A loop of the pivot about a corner: a hobby blade trails by 0.25 to 1 mm, and turns by less than once. */
const MOST_SWING_MM = 3;
/** Most places listed for one finding. */
const MOST_PLACES = 20;

/** Inspects one drawing. Pure; finds faults and never throws for what a file may hold. */
export function inspectDrawing(drawing: Drawing, options: InspectOptions = {}): InspectReport {
  const findings: Finding[] = [];
  const add = (
    kind: Finding['kind'],
    severity: Finding['severity'],
    message: string,
    at?: readonly Point[],
  ) => findings.push({ kind, severity, message, ...(at ? { at: at.slice(0, MOST_PLACES) } : {}) });

  const finite = onlyFinite(drawing);
  const lost = count(drawing) - count(finite);
  if (lost > 0) {
    add('not-finite', 'fault', `${lost} paths hold a number that is not finite: draw them again`);
  }
  const operations = operationsOf(finite);
  if (operations.length === 0) add('nothing', 'fault', 'there is nothing to cut or draw in it');

  // Compensated lines run ahead of what they cut and swing at corners: the drawing itself is judged.
  const judged = options.intended ? onlyFinite(options.intended) : finite;
  const cuts = pathsOf(judged, 'cut').map(withoutOvercut);
  const open = cuts.filter(path => !path.closed);
  if (open.length > 0) {
    add(
      'open-cut',
      'note',
      `${open.length} open ${plural(open, 'cut')}: right for slits, a fault in an outline`,
      open.map(path => path.start),
    );
  }
  const nearly = open.filter(
    path => pathLength(path) > 4 * NEARLY_MM && apart(path.start, endOf(path)) <= NEARLY_MM,
  );
  if (nearly.length > 0) {
    add(
      'nearly-closed',
      'fault',
      `${nearly.length} ${plural(nearly, 'outline')} not closed: the ends are up to ${mm(Math.max(...nearly.map(p => apart(p.start, endOf(p)))))} apart; join them`,
      nearly.map(path => path.start),
    );
  }
  const once = dropShared(cuts);
  const swings = options.intended ? NO_SWINGS : swingsOf(open);
  const sharedLength = once.sharedLength - swings.retraced;
  if (swings.retraced + swings.crossed.length > 0) {
    add(
      'swing',
      'note',
      'open cuts run over or across themselves for a moment, as they do in a file that allows for the blade: ' +
        'keep it with its manifest and .drawing.json, and the tip itself is followed',
      swings.crossed,
    );
  }
  if (sharedLength > TIP_MM) {
    add(
      'duplicate',
      'fault',
      `${mm(sharedLength)} of cut lies on other cuts (${once.duplicates} whole lines twice): the blade would go over it again; delete one of each`,
    );
  }
  const own = (p: Point) => swings.crossed.some(q => apart(p, q) <= TIP_MM);
  const crossed = crossings(once.paths).filter(p => !own(p));
  if (crossed.length > 0) {
    const many = crossed.length >= MOST_CROSSINGS ? 'or more ' : '';
    add('crossing', 'fault', `cuts cross at ${crossed.length} ${many}places`, crossed);
  }
  const short = cuts.filter(path => !(pathLength(path) >= LEAST_CUT_MM));
  if (short.length > 0) {
    add(
      'too-short',
      'fault',
      `${short.length} ${plural(short, 'cut')} shorter than ${mm(LEAST_CUT_MM)}: delete or lengthen`,
      short.map(path => path.start),
    );
  }

  outside(judged, options.area, add);
  const tip = tipOf(finite, options);
  if (tip && !(tip.max <= TIP_MM && tip.uncutMax <= TIP_MM)) {
    add(
      'tip',
      'fault',
      `with a blade offset of ${mm(tip.offset)} the tip leaves the drawing by up to ${mm(tip.max)} and leaves ${mm(tip.uncutMax)} uncut (allowed: ${mm(TIP_MM)}): is the offset right, and does only one of file and cutter compensate?`,
    );
  }
  return {
    name: drawing.name,
    width: drawing.width,
    height: drawing.height,
    operations,
    travel: travel(OPERATIONS.flatMap(o => pathsOf(finite, o))),
    openCuts: open.length,
    duplicateLength: sharedLength,
    crossings: crossed.length,
    tooShort: short.length,
    ...(tip ? { tip } : {}),
    findings,
    good: findings.every(f => f.severity !== 'fault'),
  };
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
function swingsOf(open: readonly Path[]): Swings {
  let retraced = 0;
  const crossed: Point[] = [];
  for (const path of open) {
    const once = dropShared([path]);
    if (once.sharedLength <= MOST_SWING_MM) retraced += once.sharedLength;
    crossed.push(...crossings(once.paths).filter(at => loopAt(path, at) <= MOST_SWING_MM));
  }
  return { retraced, crossed };
}

/** Length of the loop that a path makes between two passes of a point; of its ends beyond it where that is
 *  less: an outline that is cut a little further than its start crosses itself there. */
function loopAt(path: Path, at: Point): number {
  let walked = 0;
  const passes: number[] = [];
  for (const step of steps(path)) {
    const { t, distance } = nearestOnStep(at, step);
    const long = stepLength(step);
    if (distance <= TIP_MM) passes.push(walked + t * long);
    walked += long;
  }
  const [first, last] = [passes[0] ?? 0, passes.at(-1) ?? walked];
  return Math.min(last - first, walked - (last - first));
}

const apart = (a: Point, b: Point) => Math.hypot(a[0] - b[0], a[1] - b[1]);
const mm = (n: number) => `${Number(n.toFixed(3))} mm`;
const plural = (list: readonly unknown[], word: string) => (list.length === 1 ? word : `${word}s`);

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

function operationsOf(drawing: Drawing): OperationReport[] {
  return OPERATIONS.flatMap(operation => {
    const paths = pathsOf(drawing, operation);
    if (paths.length === 0) return [];
    return {
      operation,
      paths: paths.length,
      closed: paths.filter(path => path.closed).length,
      length: paths.reduce((total, path) => total + pathLength(path), 0),
    };
  });
}

/** What is to be worked must lie on the sheet and in the tools' reach. (The pivot of a compensated
 *  cut runs ahead of it by the offset, also into the border: nothing is cut there.) */
function outside(
  judged: Drawing,
  area: InspectOptions['area'],
  add: (kind: Finding['kind'], severity: Finding['severity'], message: string) => void,
): void {
  const over = beyond(judged, 0, 0, judged.width, judged.height);
  if (over > TIP_MM) {
    add('outside-sheet', 'fault', `lines reach ${mm(over)} beyond the sheet: move or shrink them`);
  }
  if (!area) return;
  const { width, height, margin } = area;
  if (judged.width > width + TIP_MM || judged.height > height + TIP_MM) {
    add(
      'outside-area',
      'fault',
      `the sheet is ${mm(judged.width)} x ${mm(judged.height)}, the cutter takes ${mm(width)} x ${mm(height)}`,
    );
  }
  const unreached = beyond(
    judged,
    margin,
    margin,
    Math.min(width, judged.width) - margin,
    Math.min(height, judged.height) - margin,
  );
  if (unreached > TIP_MM) {
    add(
      'outside-area',
      'fault',
      `lines reach ${mm(unreached)} into the border of ${mm(margin)} that the cutter cannot reach`,
    );
  }
}

/** How far the lines of a drawing (marks apart) reach out of a rectangle; 0 where they do not. */
function beyond(drawing: Drawing, x0: number, y0: number, x1: number, y1: number): number {
  const paths = OPERATIONS.filter(o => o !== 'register').flatMap(o => pathsOf(drawing, o));
  let most = 0;
  for (const path of paths) {
    const b = bounds(path);
    most = Math.max(most, x0 - b.minX, y0 - b.minY, b.maxX - x1, b.maxY - y1);
  }
  return most;
}

function tipOf(
  driven: Drawing,
  { bladeOffset, intended, folds = 'tool' }: InspectOptions,
): InspectReport['tip'] {
  if (!intended || !(bladeOffset !== undefined && bladeOffset >= 0)) return undefined;
  const byBlade = (drawing: Drawing) =>
    bladeDoes(folds)
      .flatMap(o => pathsOf(drawing, o))
      .filter(path => pathLength(path) > SAME_POINT_MM);
  const drawn = byBlade(onlyFinite(intended));
  if (drawn.length === 0) return undefined;
  return { offset: bladeOffset, ...tipError(drawn, byBlade(driven), bladeOffset) };
}
