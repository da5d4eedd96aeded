/** Lengths, numbers, angles and colours of a document, each within its bounds. */
import { formatLength, type LengthUnit, parseLength, parseSize } from '../units/length.js';
import type { Entry } from './document.js';
import type { More, Span } from './fault.js';
import { cut, listOf, type Reading, textOf } from './reading.js';

export interface Bounds {
  readonly least: number;
  readonly most: number;
  /** The least itself is too little. */
  readonly more?: boolean;
  /** Of a parameter: what it is. */
  readonly help?: string;
}

/** What to do about a parameter that is out of its bounds. */
function toGive(value: number, b: Bounds, shown: (n: number) => string): More {
  if (b.help === undefined) return {};
  const near =
    value < b.least
      ? `give ${shown(b.least)} or more`
      : value > b.most
        ? `give ${shown(b.most)} or less`
        : 'give a number within these bounds';
  return { hint: `${near}; it is this: ${b.help}` };
}

/** A length in mm. `signed` lets positions be negative. */
export function lengthOf(
  r: Reading,
  entry: Entry,
  what: string,
  bounds: Bounds,
): number | undefined {
  const text = textOf(r, entry, what);
  if (text === undefined) return undefined;
  const read = parseLength(text, r.unit, bounds.least < 0);
  if ('fault' in read) return r.fault(entry.at, `${what}: ${read.fault}`);
  const { least, most, more } = bounds;
  const enough = more ? read.mm > least : read.mm >= least;
  if (enough && read.mm <= most) return read.mm;
  const [from, to] = more ? ['more than', 'and at most'] : ['from', 'to'];
  return r.fault(entry.at, `${what} cannot be ${inUnit(read.mm, r.unit)}`, {
    allowed: `${from} ${inUnit(least, r.unit)} ${to} ${inUnit(most, r.unit)}`,
    ...toGive(read.mm, bounds, mm => inUnit(mm, r.unit)),
  });
}

/** `12.7 mm`, or `12.7 mm (1/2 in)` for people who measure in inches. */
export function inUnit(mm: number, unit: LengthUnit): string {
  const shown = formatLength(mm, unit === 'cm' ? 'cm' : 'mm');
  const inches = formatLength(mm, 'in', 32);
  // Less than half of the finest mark is none.
  return unit === 'in' && inches !== formatLength(0, 'in', 32) ? `${shown} (${inches})` : shown;
}

const NUMBER = /^[-+]?(?:\d+(?:\.\d*)?|\.\d+)$/;

/** A plain decimal number. */
export function numberOf(r: Reading, entry: Entry, what: string, b: Bounds): number | undefined {
  const text = textOf(r, entry, what);
  if (text === undefined) return undefined;
  const tidy = text.trim();
  const value = NUMBER.test(tidy) ? Number(tidy) : Number.NaN;
  const enough = b.more ? value > b.least : value >= b.least;
  if (enough && value <= b.most) return value;
  return r.fault(
    entry.at,
    Number.isNaN(value)
      ? `${what} "${cut(text)}" is not a number`
      : `${what} cannot be ${cut(text)}`,
    {
      allowed: b.more ? `more than ${b.least}, at most ${b.most}` : `from ${b.least} to ${b.most}`,
      ...toGive(value, b, String),
    },
  );
}

/** A whole number. */
export function countOf(r: Reading, entry: Entry, what: string, b: Bounds): number | undefined {
  const text = textOf(r, entry, what);
  if (text === undefined) return undefined;
  const value = /^[-+]?\d{1,9}$/.test(text.trim()) ? Number(text) : Number.NaN;
  if (value >= b.least && value <= b.most) return value;
  const shown = NUMBER.test(text.trim()) ? cut(text) : `"${cut(text)}"`;
  return r.fault(entry.at, `${what} cannot be ${shown}`, {
    allowed: `a whole number from ${b.least} to ${b.most}`,
    ...toGive(Number(text), b, String),
  });
}

/** An angle in degrees, as `15`, `-7.5°` or `90deg`. */
export function degreesOf(r: Reading, entry: Entry, what: string, b: Bounds): number | undefined {
  if (entry.kind !== 'text') return numberOf(r, entry, what, b);
  const bare = entry.text.trim().replace(/\s*(?:°|deg|degrees?)$/iu, '');
  return numberOf(r, { ...entry, text: bare }, what, b);
}

export function flagOf(r: Reading, entry: Entry, what: string): boolean | undefined {
  const text = textOf(r, entry, what)?.trim().toLowerCase();
  if (text === undefined) return undefined;
  if (['true', 'yes', 'on'].includes(text)) return true;
  if (['false', 'no', 'off'].includes(text)) return false;
  return r.fault(entry.at, `${what} cannot be "${cut(text)}"`, { allowed: 'yes or no' });
}

/** A hex colour, as `#RRGGBB` in capitals. */
export function colourOf(r: Reading, entry: Entry, what: string): string | undefined {
  const text = textOf(r, entry, what)?.trim();
  if (text === undefined) return undefined;
  const hex = /^#?([0-9a-f]{6}|[0-9a-f]{3})$/i.exec(text)?.[1];
  if (hex === undefined) {
    return r.fault(entry.at, `${what} "${cut(text)}" is not a colour`, {
      allowed: 'six hex digits in quotes, such as "#D55E00"',
    });
  }
  const six = hex.length === 3 ? [...hex].map(c => c + c).join('') : hex;
  return `#${six.toUpperCase()}`;
}

/** Longest side of a box: a roll's width, and far more than a treat needs. */
const LONGEST_SIDE_MM = 1500;
/** A card over a bag is hardly deeper than its paper; a style says what is too little for it. */
const SHORTEST_SIDE_MM = 0.1;

/** `6 x 2 x 1`, every side in mm and within reason. */
export function sizeOf(
  r: Reading,
  entry: Entry,
  what: string,
): readonly [number, number, number] | undefined {
  const text = textOf(r, entry, what);
  if (text === undefined) return undefined;
  const read = parseSize(text, r.unit);
  if ('fault' in read) return r.fault(entry.at, `${what}: ${read.fault}`);
  return sideFault(r, entry.at, what, read.mm) ? undefined : read.mm;
}

/** Tells the first side that is out of reason. */
export function sideFault(r: Reading, at: Span, what: string, sides: readonly number[]): boolean {
  const wrong = sides.find(mm => !(mm >= SHORTEST_SIDE_MM && mm <= LONGEST_SIDE_MM));
  if (wrong === undefined) return false;
  r.fault(at, `${what}: no box has a side of ${inUnit(wrong, r.unit)}`, {
    allowed: `from ${inUnit(SHORTEST_SIDE_MM, r.unit)} to ${inUnit(LONGEST_SIDE_MM, r.unit)} a side`,
    hint: 'check the unit',
  });
  return true;
}

/** One to twelve colours. */
export function coloursOf(r: Reading, entry: Entry, what: string): string[] | undefined {
  const items = listOf(r, entry, what, 12, true);
  if (!items) return undefined;
  if (items.length === 0) return r.fault(entry.at, `${what} has no colour`);
  const colours = items.map(e => colourOf(r, e, what));
  return colours.every(c => c !== undefined) ? (colours as string[]) : undefined;
}
