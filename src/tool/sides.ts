/**
 * Folds scored from both sides of a sheet. A fold is worked on the outer side of its bend (see `isFromBack`),
 * so the valleys are worked while the sheet lies turned over. It is turned as a page is: about the upright
 * line through its middle, its lower edge against the same stop, its right edge where the left one lay. That
 * comes first, while the sheet is whole and has its edges to be laid by.
 */
import { transform } from '../geom/index.js';
import { type Affine, type Cutter, isFromBack, OPERATIONS, type Stroke } from '../model.js';
import { type PlanOptions, planSheet, type SheetPlan, type SheetReport } from './plan.js';
import type { TipError } from './tip-error.js';

/** From the frame of a sheet `width` mm wide to the frame of the same sheet turned over, and back. */
export const turnedOver = (width: number): Affine => [-1, 0, 0, 1, width, 0];

export interface SidesPlan {
  readonly face: SheetPlan;
  /** In the frame of the turned sheet; absent where nothing is scored from the back. */
  readonly back?: SheetPlan;
  /** Of both. */
  readonly report: SheetReport;
}

/** As `planSheet`, on both sides of the sheet where the cutter scores from both. */
export function planSides(
  strokes: readonly Stroke[],
  cutter: Cutter,
  options: PlanOptions & { readonly sheet: { readonly width: number; readonly height: number } },
): SidesPlan {
  const behind = strokes.filter(s => isFromBack(s, cutter.folds));
  const before = strokes.filter(s => !behind.includes(s));
  const face = planSheet(before, cutter, { ...options, beside: behind });
  if (behind.length === 0) return { face, report: face.report };
  const over = turnedOver(options.sheet.width);
  const turned = (all: readonly Stroke[]) =>
    all.map(s => ({ ...s, path: transform(s.path, over) }));
  const back = planSheet(turned(behind), cutter, { ...options, beside: turned(before) });
  return { face, back, report: together(face.report, back.report) };
}

/** Lengths and times are sums; of the tip the worse of the two is told. */
function together(face: SheetReport, back: SheetReport): SheetReport {
  const sums = (key: 'lengths' | 'counts') =>
    Object.fromEntries(
      OPERATIONS.map(o => [o, face[key][o] + back[key][o]]),
    ) as SheetReport[typeof key];
  const tip = face.tip && back.tip ? worseTip(face.tip, back.tip) : (face.tip ?? back.tip);
  const heading = [face.heading, back.heading].find(h => h?.startsWith('assumed')) ?? face.heading;
  return {
    lengths: sums('lengths'),
    counts: sums('counts'),
    travelBefore: face.travelBefore + back.travelBefore,
    travelAfter: face.travelAfter + back.travelAfter,
    seconds: face.seconds + back.seconds,
    ...(tip && { tip }),
    ...(heading && { heading }),
    cleaned: { ...back.cleaned, ...face.cleaned },
    warnings: [...face.warnings, ...back.warnings.map(w => `turned over: ${w}`)],
  };
}

type Tip = NonNullable<SheetReport['tip']>;

function worseTip(a: Tip, b: Tip): Tip {
  const both = a.compensated && b.compensated;
  return {
    ...a,
    ...(both && { compensated: worse(a.compensated, b.compensated) }),
    uncompensated: worse(a.uncompensated, b.uncompensated),
  };
}

const worse = (a: TipError, b: TipError): TipError => ({
  max: Math.max(a.max, b.max),
  p99: Math.max(a.p99, b.p99),
  uncutMax: Math.max(a.uncutMax, b.uncutMax),
  uncut99: Math.max(a.uncut99, b.uncut99),
});
