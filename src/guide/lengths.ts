/** Lengths as a guide tells them. */
import { formatLength } from '../units/length.js';

type Unit = 'mm' | 'in';

/** Lengths as the reader's ruler shows them: to 1/16 in, or to a tenth of a millimetre. */
export const asTold = (mm: number, unit: Unit): string =>
  unit === 'in' ? formatLength(mm, 'in', 16) : `${Number(mm.toFixed(1))} mm`;
export const bare = (mm: number, unit: Unit) => asTold(mm, unit).replace(/ (?:in|mm)$/, '');
export const sizeOf = (sides: readonly number[], unit: Unit) =>
  `${sides.map(s => bare(s, unit)).join(' × ')} ${unit}`;
/** What is bought by length: up to the next whole unit. */
export const bought = (mm: number, unit: Unit): string =>
  unit === 'in'
    ? mm > 25.4 * 72
      ? `${Math.ceil(mm / 914.4)} yd`
      : `${Math.ceil(mm / 25.4)} in`
    : mm > 2000
      ? `${Number((Math.ceil(mm / 100) / 10).toFixed(1))} m`
      : `${Math.ceil(mm / 10)} cm`;
