/** What to offer a person whose box is larger than the sheet. */
import { bounds } from '../geom/index.js';
import type { Inside, Piece } from '../model.js';
import { formatLength, type LengthUnit, MM_PER_INCH } from '../units/length.js';
import type { SheetOptions } from './footprint.js';

/** Halvings in the search for the largest size: a box of 300 mm to a tenth of a millimetre. */
const HALVINGS = 12;

/** The largest scale from 0 to 1 at which something fits; 0 when it does at none that was tried.
 *  What fits must fit at every smaller scale that can be made. */
export function largestScale(fits: (scale: number) => boolean): number {
  let [good, bad] = [0, 1];
  for (let i = 0; i < HALVINGS; i++) {
    const middle = (good + bad) / 2;
    if (fits(middle)) good = middle;
    else bad = middle;
  }
  return good;
}

/** Sizes are offered in steps that people measure in. */
const STEP: Readonly<Record<LengthUnit, number>> = { mm: 0.5, cm: 0.5, in: MM_PER_INCH / 16 };

export function shrunk({ length, width, height }: Inside, scale: number, unit: LengthUnit): Inside {
  const step = STEP[unit];
  // A hair more, so that a size that is whole steps stays it.
  const down = (mm: number) => Math.floor((mm * scale) / step + 1e-9) * step;
  return { length: down(length), width: down(width), height: down(height) };
}

/** The smallest sheet that holds all of some pieces one to a sheet, as they lie, mm. */
export function sheetNeeded(
  pieces: readonly Piece[],
  { cutter }: SheetOptions,
): readonly [width: number, height: number] {
  const sizes = pieces.map(p => {
    const b = bounds(p.outline);
    return [b.maxX - b.minX + 2 * cutter.margin, b.maxY - b.minY + 2 * cutter.margin] as const;
  });
  return [Math.max(...sizes.map(s => s[0])), Math.max(...sizes.map(s => s[1]))];
}

export interface Offer {
  /** The largest inside that fits; none where no smaller one does. */
  readonly inside?: Inside;
  readonly sheet: readonly [width: number, height: number];
  /** The folds at which it can be cut, or that none will do. */
  readonly seams: readonly string[] | 'none';
  readonly asked: boolean;
  readonly unit: LengthUnit;
}

export function offerText({ inside, sheet, seams, asked, unit }: Offer): string {
  const size = (...all: readonly number[]) => {
    const [last, ...rest] = all.map(mm => formatLength(mm, unit)).reverse();
    const bare = rest.reverse().map(text => text.replace(/ (?:mm|cm|in)$/, ''));
    return [...bare, last].join(' x ');
  };
  const up = sheet.map(mm => Math.ceil(mm / STEP[unit] - 1e-9) * STEP[unit]);
  const told: string[] = [];
  if (seams === 'none') told.push('no folds part it into a few parts that fit');
  else if (!asked) told.push(`split: auto cuts it ${cutText(seams)}`);
  if (inside) {
    told.push(
      `the largest that fits is inside ${size(inside.length, inside.width, inside.height)}`,
    );
  }
  told.push(`this one needs a sheet and a cutter of ${size(...up)}`);
  return told.join('; ');
}

function cutText(seams: readonly string[]): string {
  const [only, ...more] = seams;
  if (more.length === 0) return `at the fold ${only}, with a flap to glue its parts by`;
  return `at the folds ${seams.join(', ')}, with flaps to glue its parts by`;
}
