/**
 * Register marks: the printing trade's circle and cross. Four stand near the corners; a fifth stands
 * on the lower edge away from its middle, so that a sheet turned or laid face down shows it in a
 * place where none should be.
 */
import { circle, line, openPath } from '../geom/index.js';
import type { Bounds, Cutter, Path, RegisterMark, Stock } from '../model.js';
import { cutterReach, overlap, printable } from './reach.js';

/** Circle 5 mm across, lines 8 mm long: the usual look of the mark (common practice, no source). */
const MARK_RADIUS_MM = 2.5;
const MARK_ARM_MM = 4;
/** White left round a mark and the captions, so that a lens finds the mark alone. */
const MARK_QUIET_MM = 1;
/** Where the fifth mark stands between the lower corner marks: far from the middle (a mirrored sheet)
 *  and from both ends, and no simple fraction that another drawing might hit. */
const FIFTH_AT = 0.31;

export interface PrintLayout {
  readonly marks: readonly RegisterMark[];
  /** Where the scale bar and the captions go: between the upper marks. */
  readonly captions: Bounds;
  /** What pieces and their bleed keep clear of: the marks with their quiet zones, and the captions. */
  readonly reserve: readonly Bounds[];
}

/**
 * Marks and captions of a sheet that is printed, then cut: inside what the printer prints and the
 * cutter reaches. `undefined` where the sheet is too small to hold five marks apart.
 */
export function printLayout(
  stock: Stock,
  cutter: Cutter,
  printMargin: number,
): PrintLayout | undefined {
  const room = overlap(cutterReach(stock, cutter), printable(stock, printMargin));
  const arm = MARK_ARM_MM;
  const left = room.minX + arm;
  const right = room.maxX - arm;
  const low = room.minY + arm;
  const high = room.maxY - arm;
  const apart = 2 * (arm + MARK_QUIET_MM);
  const fifth = left + FIFTH_AT * (right - left);
  if (!(fifth - left >= apart && high - low >= apart)) return undefined;
  const mark = (name: string, x: number, y: number): RegisterMark => ({
    name,
    at: [x, y],
    radius: MARK_RADIUS_MM,
    arm,
  });
  const marks = [
    mark('lower-left', left, low),
    mark('lower-right', right, low),
    mark('upper-right', right, high),
    mark('upper-left', left, high),
    mark('fifth', fifth, low),
  ];
  const half = apart / 2;
  const captions = {
    minX: left + half,
    minY: high - arm,
    maxX: right - half,
    maxY: high + arm,
  };
  const zones = marks.map(({ at: [x, y] }) => ({
    minX: x - half,
    minY: y - half,
    maxX: x + half,
    maxY: y + half,
  }));
  return { marks, captions, reserve: [...zones, { ...captions, minY: high - half }] };
}

/** A mark as it is drawn, in print and in the cut file: a circle of two arcs, two crossing lines. */
export function markPaths({ at: [x, y], radius, arm }: RegisterMark): Path[] {
  return [
    circle([x, y], radius),
    openPath([x - arm, y], [line([x + arm, y])]),
    openPath([x, y - arm], [line([x, y + arm])]),
  ];
}
