/**
 * Lengths as people write them. Millimetres inside; a unit, a fraction or a quote mark only here, at
 * the edge. What a person can get wrong comes back as a fault in words, never as an exception.
 */

export type LengthUnit = 'mm' | 'cm' | 'in';
export type InchDenominator = 4 | 8 | 16 | 32 | 64;
export type Read<T> = T | { readonly fault: string };

/** The international inch, exact since 1959; CSS Values 4 and ISO 32000-1 take it from there. */
export const MM_PER_INCH = 25.4;
export const MM_PER: Readonly<Record<LengthUnit, number>> = { mm: 1, cm: 10, in: MM_PER_INCH };
/** Whole and short decimal inches come out without a trailing …9999: 6 in is 152.4 mm. */
const toMm = (value: number, unit: LengthUnit): number =>
  unit === 'in' ? (value * 254) / 10 : value * MM_PER[unit];
/** PDF user space: 72 points an inch (ISO 32000-1:2008, 8.3.2.3). */
export const mmToPoints = (mm: number): number => (mm * 72) / MM_PER_INCH;
/** CSS pixels: 96 an inch (CSS Values and Units, absolute lengths). */
export const mmToPixels = (mm: number): number => (mm * 96) / MM_PER_INCH;

/** Longer than the longest roll a hobby cutter takes: more is a slip of the unit. */
export const LONGEST_MM = 10_000;
/** A length has no more characters than this; longer text is not worth reading. */
const LONGEST_TEXT = 40;

const EXAMPLES = 'write a number with mm, cm or in, such as 63.5mm, 6.35 cm, 2 1/2in or 2-1/2"';

const UNIT_WORDS: ReadonlyMap<string, LengthUnit> = new Map<string, LengthUnit>([
  ...['mm', 'millimetre', 'millimetres', 'millimeter', 'millimeters'].map(w => [w, 'mm'] as const),
  ...['cm', 'centimetre', 'centimetres', 'centimeter', 'centimeters'].map(w => [w, 'cm'] as const),
  ...['in', 'in.', 'inch', 'inches', '"', "''"].map(w => [w, 'in'] as const),
]);
const FEET = new Set(['ft', 'ft.', 'foot', 'feet', "'"]);

/** Typographic forms made plain: `2½″` and `2 1⁄2"` become `2 1/2''` and `2 1/2"`. */
function plain(text: string): string {
  return text
    .replace(/(\d)(?=[¼-¾⅐-⅞↉]|[⁰¹²³⁴-⁹]+⁄)/gu, '$1 ')
    .normalize('NFKC')
    .replace(/⁄/gu, '/')
    .replace(/[′’]/gu, "'")
    .replace(/[“”]/gu, '"')
    .replace(/[‐‑–]/gu, '-')
    .replace(/−/gu, '-')
    .replace(/\s+/gu, ' ')
    .trim();
}

const show = (text: string): string =>
  JSON.stringify(text.length > LONGEST_TEXT ? `${text.slice(0, LONGEST_TEXT)}…` : text);

/** A number without its unit: `63.5`, `.5`, `1/2`, `2 1/2`, `2-1/2`. */
function readNumber(text: string): Read<{ readonly value: number }> {
  const decimal = /^(\d+(?:\.\d+)?|\.\d+)$/.exec(text);
  if (decimal) return { value: Number(decimal[1]) };
  const mixed = /^(?:(\d+)(?: |-))?(\d+) ?\/ ?(\d+)$/.exec(text);
  if (!mixed) {
    if (/\d,\d/.test(text)) {
      return {
        fault: `has a comma: write the decimal with a point, as in ${text.replace(',', '.')}`,
      };
    }
    if (/\de[+-]?\d/i.test(text)) return { fault: 'is in powers of ten: write it out in full' };
    return { fault: `is not a length: ${EXAMPLES}` };
  }
  const whole = Number(mixed[1] ?? 0);
  const over = Number(mixed[2]);
  const under = Number(mixed[3]);
  if (under === 0) return { fault: 'divides by zero: the lower number of a fraction is 1 or more' };
  if (mixed[1] !== undefined && over >= under) {
    return {
      fault: `has a fraction of one or more after a whole number: write it as one, as in 2 1/2`,
    };
  }
  return { value: whole + over / under };
}

interface Bare {
  /** Always in millimetres once a unit is known. */
  readonly value: number;
  readonly unit?: LengthUnit;
}

function readLength(text: string, signed: boolean): Read<Bare> {
  if (text.length > 4 * LONGEST_TEXT) return { fault: `is too long: ${EXAMPLES}` };
  let rest = plain(text);
  if (rest === '') return { fault: `is empty: ${EXAMPLES}` };
  let sign = 1;
  if (rest.startsWith('-') && /^-\s?[\d.]/.test(rest)) {
    if (!signed) return { fault: 'is negative: a length is 0 or more' };
    sign = -1;
    rest = rest.slice(1).trim();
  }
  const word = /[a-z"'][a-z"'. ]*$/i.exec(rest)?.[0] ?? '';
  const number = rest.slice(0, rest.length - word.length).trim();
  const unit = UNIT_WORDS.get(word.toLowerCase());
  if (word !== '' && unit === undefined && /\d$/.test(number)) {
    if (FEET.has(word.toLowerCase())) return { fault: 'is in feet: write inches, 12 to the foot' };
    return { fault: `has an unknown unit ${show(word)}: ${EXAMPLES}` };
  }
  const read = readNumber(unit === undefined ? rest : number);
  if ('fault' in read) return read;
  return unit === undefined ? { value: sign * read.value } : { value: sign * read.value, unit };
}

/**
 * Reads a length. A bare number takes `unit`. Reads `63.5mm`, `6.35 cm`, `2 1/2in`, `2-1/2"`, `½`,
 * `5⅞"`; anything else is a fault that names the text, what is allowed and what to do. `signed`
 * lets a leading minus through, for positions.
 */
export function parseLength(
  text: string | number,
  unit: LengthUnit,
  signed = false,
): Read<{ readonly mm: number }> {
  const shown = typeof text === 'number' ? String(text) : show(text);
  let read: Read<Bare>;
  if (typeof text === 'number') {
    if (!Number.isFinite(text)) return { fault: `${shown} is not a length: ${EXAMPLES}` };
    read = text < 0 && !signed ? { fault: 'is negative: a length is 0 or more' } : { value: text };
  } else {
    read = readLength(text, signed);
  }
  if ('fault' in read) return { fault: `${shown} ${read.fault}` };
  const mm = toMm(read.value, read.unit ?? unit);
  if (!(Math.abs(mm) <= LONGEST_MM)) {
    return {
      fault: `${shown} is too long: at most ${LONGEST_MM} mm (${formatLength(LONGEST_MM, 'in')}); check the unit`,
    };
  }
  return { mm };
}

/**
 * Reads `6x2x1in`, `6 x 2 x 1`, `150×50×25 mm`, `6in x 2in x 25mm`. A unit at the end is everyone's who
 * has none; without one, bare numbers take `unit`. Every side is more than 0.
 */
export function parseSize(
  text: string,
  unit: LengthUnit,
): Read<{ readonly mm: readonly [length: number, width: number, height: number] }> {
  const how = `a size is length x width x height, such as 6x2x1in or 150 x 50 x 25 mm`;
  const parts = text.length > 4 * LONGEST_TEXT ? [] : text.split(/[x×]/iu);
  if (parts.length !== 3) return { fault: `${show(text)} is not a size: ${how}` };
  const read = parts.map(part => readLength(part, false));
  const last = read[2]!;
  const common = 'fault' in last ? undefined : last.unit;
  const someUnit = read.some(r => 'unit' in r && r.unit !== undefined);
  const sides: number[] = [];
  for (const [i, side] of read.entries()) {
    if ('fault' in side) return { fault: `${show(text)}: ${show(parts[i]!.trim())} ${side.fault}` };
    if (someUnit && common === undefined && side.unit === undefined) {
      return { fault: `${show(text)} leaves a unit open: write it at the end, or at each side` };
    }
    const length = parseLength(side.value, side.unit ?? common ?? unit);
    if ('fault' in length) return { fault: `${show(text)}: ${length.fault}` };
    if (!(length.mm > 0))
      return { fault: `${show(text)} has a side of 0: every side is more than 0` };
    sides.push(length.mm);
  }
  return { mm: [sides[0]!, sides[1]!, sides[2]!] };
}

/** A length to the nearest fraction of an inch, in lowest terms; `mm` is its exact value. */
export interface Fraction {
  readonly negative: boolean;
  readonly whole: number;
  readonly numerator: number;
  readonly denominator: number;
  readonly mm: number;
}

/** The nearest 1/`denominator` inch; a length half way goes up in size. Throws when not finite. */
export function roundToFraction(mm: number, denominator: InchDenominator): Fraction {
  if (!Number.isFinite(mm)) throw new RangeError(`not a length: ${mm} mm`);
  // The guard lets a half that lost its last bit in the division still count as a half.
  const units = Math.floor((Math.abs(mm) / MM_PER_INCH) * denominator + 0.5 + 1e-9);
  const whole = Math.floor(units / denominator);
  let numerator = units - whole * denominator;
  let under: number = denominator;
  while (numerator > 0 && numerator % 2 === 0) {
    numerator /= 2;
    under /= 2;
  }
  const negative = mm < 0 && units > 0;
  return {
    negative,
    whole,
    numerator,
    denominator: numerator === 0 ? 1 : under,
    mm: toMm((negative ? -units : units) / denominator, 'in'),
  };
}

/** `2 1/2 in`, `63.5 mm`, `6.35 cm`: inches to the nearest 1/`denominator`, millimetres to 0.01. */
export function formatLength(
  mm: number,
  unit: LengthUnit,
  denominator: InchDenominator = 16,
): string {
  if (unit !== 'in') {
    if (!Number.isFinite(mm)) throw new RangeError(`not a length: ${mm} mm`);
    const places = unit === 'mm' ? 2 : 3;
    return `${Number((mm / MM_PER[unit]).toFixed(places)) + 0} ${unit}`;
  }
  const f = roundToFraction(mm, denominator);
  const fraction = f.numerator > 0 ? `${f.numerator}/${f.denominator}` : '';
  const whole = f.whole > 0 || fraction === '' ? String(f.whole) : '';
  return `${f.negative ? '-' : ''}${[whole, fraction].filter(s => s !== '').join(' ')} in`;
}

/** Sides of one thing: `60 × 40 × 20 mm`, the unit once. Nothing of no sides. */
export function formatSides(sides: readonly number[], unit: LengthUnit): string {
  const each = sides.map(mm => formatLength(mm, unit));
  const bare = each.slice(0, -1).map(length => length.slice(0, -unit.length - 1));
  return [...bare, ...each.slice(-1)].join(' × ');
}
