/** How numbers stand in our files: rounded once, to `FILE_STEP_MM`, by the one function here. */
import { isFinitePath } from '../geom/index.js';
import type { Path } from '../model.js';
import { FILE_STEP_MM } from '../units/tolerances.js';

const STEPS_PER_MM = Math.round(1 / FILE_STEP_MM);

/** Ten kilometres: far beyond any sheet, and still exact to the step in a double. */
const LARGEST_MM = 1e7;

/** A length or coordinate (mm) moved onto the file's grid. Throws on NaN, infinities and lengths
 *  beyond `LARGEST_MM`: they are faults of ours, never data. */
export function onGrid(value: number): number {
  if (!(Math.abs(value) <= LARGEST_MM)) {
    throw new RangeError(`${value} mm cannot stand in a file: not a length on a sheet`);
  }
  // Adding zero turns −0 into 0.
  return Math.round(value * STEPS_PER_MM) / STEPS_PER_MM + 0;
}

const DECIMALS = String(STEPS_PER_MM).length - 1;
/** The text of each part of a millimetre: a file holds 100,000 lengths and more. */
const FRACTIONS: readonly string[] = Array.from({ length: STEPS_PER_MM }, (_, step) =>
  step === 0 ? '' : `.${String(step).padStart(DECIMALS, '0').replace(/0+$/, '')}`,
);

/** The text of `onGrid(value)`: plain decimals, never an exponent, never "-0". Throws as it does. */
export function num(value: number): string {
  if (!(Math.abs(value) <= LARGEST_MM)) return String(onGrid(value));
  const steps = Math.round(value * STEPS_PER_MM);
  const size = steps < 0 ? -steps : steps;
  const whole = Math.floor(size / STEPS_PER_MM);
  const text = whole + FRACTIONS[size - whole * STEPS_PER_MM]!;
  return steps < 0 ? `-${text}` : text;
}

/** The text of a ratio, radius or angle worked out from points on the grid: 12 decimals, so that reading it
 *  back gives the same arc. Throws on non-finite numbers. */
export const exact = (value: number): string => inDecimals(value, 12);

/** Its text in so many decimals, one or more, where fewer show the same. */
export function inDecimals(value: number, decimals: number): string {
  if (!(Math.abs(value) <= LARGEST_MM)) throw new RangeError(`${value} cannot stand in a file`);
  if (!(decimals >= 1)) throw new RangeError(`a number with ${decimals} decimals: 1 is the fewest`);
  const text = value.toFixed(decimals).replace(/\.?0+$/, '');
  return text === '-0' ? '0' : text;
}

/** The path itself. Throws when any of its numbers is NaN or infinite. */
export function finite(path: Path): Path {
  if (!isFinitePath(path))
    throw new RangeError('a path with NaN or infinity cannot stand in a file');
  return path;
}

/** Rounded for people and for the diff; throws on NaN and infinities. */
export function rounded(value: number, decimals: number): number {
  if (!Number.isFinite(value)) throw new RangeError(`${value} cannot stand in a file`);
  return Number(value.toFixed(decimals)) + 0;
}
