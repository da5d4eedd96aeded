/** From the strokes of a sheet to what each tool does, in order. */
import { endOf, type Path, type Point, pathLength } from '../geom/index.js';
import {
  BY_TOOL,
  type Cutter,
  type Folding,
  OPERATIONS,
  type Operation,
  type Pass,
  type Stroke,
} from '../model.js';
import { TIP_MM, UNCOMPENSATED_MM } from '../units/tolerances.js';
import { cleanPaths } from './clean.js';
import { bladeDoes, driverOf, inFile } from './drive.js';
import { foldStrokes, workedFolds } from './folds.js';
import { type CleanReport, mended } from './mended.js';
import { orderPaths, travel } from './order.js';
import { dashesOf, PERFORATION, type Perforation } from './perforate.js';
import { type TipError, tipError } from './tip-error.js';
import { wakeUpCut } from './wake-up.js';

export interface PlanOptions {
  /** The sheet, so that a wake-up cut can be put into its border; without it none is made. */
  readonly sheet?: { readonly width: number; readonly height: number };
  readonly perforation?: Perforation;
  /** What lies on the sheet as well and is worked in another run: nothing is put on it, and folds are kept
   *  off its cuts. */
  readonly beside?: readonly Stroke[];
  /** Leave the tip simulation out, where only the paths are wanted. */
  readonly simulate?: boolean;
}

/** What is known of one sheet's work; lengths and travel in mm. */
export interface SheetReport {
  readonly lengths: Readonly<Record<Operation, number>>;
  readonly counts: Readonly<Record<Operation, number>>;
  /** Travel of the lifted tools from the sheet's origin, as the strokes came and as ordered. */
  readonly travelBefore: number;
  readonly travelAfter: number;
  /** Estimate of working time, s, from the cutter's speeds; changing tools not counted. */
  readonly seconds: number;
  /** The blade: absent where nothing is cut or perforated, or it was not asked for. */
  readonly tip?: {
    readonly offset: number;
    readonly compensatedBy: 'file' | 'cutter';
    /** With the file's compensation, where it has one. */
    readonly compensated?: TipError;
    /** What it would be if nobody compensated, to `UNCOMPENSATED_MM` or twice it. */
    readonly uncompensated: TipError;
  };
  /** How the blade's first heading becomes known; absent where the file does not compensate. */
  readonly heading?: 'wake-up cut' | 'assumed along the first cut';
  readonly cleaned: Readonly<Partial<Record<Operation, CleanReport>>>;
  readonly warnings: readonly string[];
}

export interface SheetPlan {
  readonly passes: readonly Pass[];
  readonly report: SheetReport;
}

/** A closed cut begins on a straight run at least this long, mm, where it has one: long enough for
 *  the blade to be in line again before the next corner (5 offsets of 0.5 mm, both sides). */
const LEAD_IN_MM = 5;

/**
 * Plans one sheet. The strokes are in the sheet's frame, in any order. Passes come in working order and
 * hold only what there is to do. Only `cut` and `perforate` are compensated, and only where the
 * cutter leaves that to the file.
 */
export function planSheet(
  given: readonly Stroke[],
  cutter: Cutter,
  options: PlanOptions = {},
): SheetPlan {
  const { blade, folds = BY_TOOL } = cutter;
  const bySwivel = inFile(blade) && blade.offset > 0;
  const byBlade = (operation: Operation) => bladeDoes(folds.by).includes(operation);
  const driver = driverOf(blade, folds.by);
  const perforation = options.perforation ?? PERFORATION;
  const cleaned: Partial<Record<Operation, CleanReport>> = {};
  const passes: Pass[] = [];
  const strokes = foldStrokes(given, folds);
  const { beside = [] } = options;
  const cuts = [...strokes, ...beside].filter(s => s.operation === 'cut').map(s => s.path);
  let at: Point = [0, 0];
  let wakeUp: Path | undefined;
  let asleep = bySwivel;
  const wake = (to: Point, from: Point) => {
    const { sheet } = options;
    const all = [...strokes, ...beside].map(s => s.path).filter(p => p.segments.length > 0);
    const { margin } = cutter;
    return sheet && wakeUpCut({ strokes: all, sheet, margin, offset: blade.offset, from, to });
  };
  for (const operation of OPERATIONS) {
    const own = strokes.filter(s => s.operation === operation).map(s => s.path);
    if (own.length === 0) continue;
    let drawn: readonly Path[] = own;
    if (operation !== 'register') {
      const clean = cleanPaths(own);
      cleaned[operation] = clean.report;
      const { contours, outlines } = clean;
      const leadIn = operation === 'cut' ? LEAD_IN_MM : undefined;
      drawn = orderPaths(clean.paths, { from: at, contours, outlines, leadIn }).paths;
    }
    if (operation === 'perforate') drawn = drawn.flatMap(path => dashesOf(path, perforation));
    if (operation === 'score') drawn = workedFolds(drawn, cuts, folds);
    const [first] = drawn;
    if (first && asleep && byBlade(operation)) {
      asleep = false;
      // On the way to the work, so that its order stays a short one.
      wakeUp = wake(first.start, at);
      if (wakeUp) drawn = [wakeUp, ...drawn];
    }
    const driven = driver.drive(operation, drawn);
    if (drawn.length === 0 || driven.length === 0) continue;
    at = endOf(driven.at(-1)!);
    passes.push({ operation, drawn, driven });
  }
  const bladed = passes.filter(p => byBlade(p.operation));
  const tip =
    options.simulate !== false && bladed.length > 0 && blade.kerf === undefined
      ? tipOf(bladed, cutter, wakeUp)
      : undefined;
  const travelAfter = travel(passes.flatMap(p => p.driven));
  return {
    passes,
    report: {
      lengths: perOperation(passes, p => sum(p.drawn.map(pathLength))),
      counts: perOperation(passes, p => p.drawn.length),
      travelBefore: travel(asGiven(strokes, cuts, perforation, folds)),
      travelAfter,
      seconds:
        travelAfter / cutter.speed.travel +
        sum(passes.map(p => sum(p.driven.map(pathLength)) / cutter.speed[p.operation])),
      ...(tip ? { tip } : {}),
      ...(bySwivel && bladed.length > 0
        ? { heading: wakeUp ? 'wake-up cut' : 'assumed along the first cut' }
        : {}),
      cleaned,
      warnings: [
        ...warnings(cleaned),
        ...tipWarnings(tip?.compensated),
        ...lostWarnings(driver.lost),
      ],
    },
  };
}

function tipOf(
  passes: readonly Pass[],
  { blade }: Cutter,
  wakeUp: Path | undefined,
): SheetReport['tip'] {
  const { offset, compensatedBy } = blade;
  const drawn = passes.flatMap(p => p.drawn);
  const driven = passes.flatMap(p => p.driven);
  const compensated = compensatedBy === 'file' ? tipError(drawn, driven, offset) : undefined;
  // Nobody makes a wake-up cut for a blade that is not allowed for.
  const bare = drawn.filter(path => path !== wakeUp);
  const uncompensated = tipError(bare, bare, offset, undefined, UNCOMPENSATED_MM);
  return { offset, compensatedBy, ...(compensated ? { compensated } : {}), uncompensated };
}

const sum = (numbers: readonly number[]) => numbers.reduce((a, b) => a + b, 0);

function perOperation(passes: readonly Pass[], of: (pass: Pass) => number) {
  const entries = OPERATIONS.map(
    operation => [operation, sum(passes.filter(p => p.operation === operation).map(of))] as const,
  );
  return Object.fromEntries(entries) as Record<Operation, number>;
}

/** In working order, dashes made, but otherwise as the strokes came. */
function asGiven(
  strokes: readonly Stroke[],
  cuts: readonly Path[],
  perforation: Perforation,
  folds: Folding,
): Path[] {
  const of = (operation: Operation) =>
    strokes.filter(s => s.operation === operation).map(s => s.path);
  return OPERATIONS.flatMap(operation => {
    if (operation === 'perforate') return of(operation).flatMap(p => dashesOf(p, perforation));
    return operation === 'score' ? workedFolds(of('score'), cuts, folds) : of(operation);
  });
}

function warnings(cleaned: Partial<Record<Operation, CleanReport>>): string[] {
  return OPERATIONS.flatMap(operation => {
    const report = cleaned[operation];
    return report ? mended(report).map(what => `${operation}: ${what}`) : [];
  });
}

function lostWarnings(lost: number): string[] {
  if (lost === 0) return [];
  const what = lost === 1 ? '1 cut-out is' : `${lost} cut-outs are`;
  return [`${what} narrower than the beam's kerf and not cut`];
}

/** The promise of file compensation, checked on every sheet; NaN breaks it too. */
function tipWarnings(tip: TipError | undefined): string[] {
  if (!tip || (tip.max <= TIP_MM && tip.uncutMax <= TIP_MM)) return [];
  const worst = Math.max(tip.max, tip.uncutMax).toFixed(3);
  return [`the blade's tip would leave the drawing by ${worst} mm (allowed: ${TIP_MM} mm)`];
}
