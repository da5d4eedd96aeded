/**
 * Asking a document for what it should hold. Each question answers with a value or writes down a fault
 * at its place and answers `undefined`; the questions after it are asked all the same.
 */
import { formatLength, type LengthUnit, parseLength, parseSize } from '../units/length.js';
import type { Document, Entry, Pair } from './document.js';
import { type Fault, faultAt, linesOf, type More, type Span } from './fault.js';
import { didYouMean, nearest } from './nearest.js';

/** One pass over one document. */
export interface Reading {
  readonly document: Document;
  readonly faults: Fault[];
  /** Unit of a bare number; the document may set it with `units`. */
  unit: LengthUnit;
  fault(at: Span, message: string, more?: More): undefined;
  place(at: Span): Fault;
}

/** A thousand faults have one cause; what is found after them is not kept. */
const MOST_FAULTS = 1000;

export function startReading(document: Document, unit: LengthUnit): Reading {
  const lines = linesOf(document.text);
  const faults: Fault[] = [];
  return {
    document,
    faults,
    unit,
    fault(at, message, more = {}) {
      if (faults.length < MOST_FAULTS) faults.push(faultAt(document, lines, at, message, more));
      return undefined;
    },
    place: at => faultAt(document, lines, at, ''),
  };
}

/** The keys of a map, all known. */
export interface Fields {
  /** Of the whole map, or of its key where it has one: where a missing key is told. */
  readonly at: Span;
  readonly pairs: readonly Pair[];
  /** The value; keys with nothing after them count as not given, and are told by `fields`. */
  get(key: string): Entry | undefined;
  pair(key: string): Pair | undefined;
}

const NAMES_SHOWN = 40;
export const listed = (names: readonly string[]) =>
  names.length === 0
    ? 'none'
    : names.length <= NAMES_SHOWN
      ? names.join(', ')
      : `${names.slice(0, NAMES_SHOWN).join(', ')} and ${names.length - NAMES_SHOWN} more`;

const KIND_WORDS = { text: 'a single value', list: 'a list', map: 'a map', empty: 'nothing' };

/** The keys of a map. Unknown keys, keys without a value and missing ones are faults of their own. */
export function fields(
  r: Reading,
  entry: Entry,
  what: string,
  known: readonly string[],
  required: readonly string[] = [],
  at: Span = entry.at,
): Fields | undefined {
  if (entry.kind !== 'map') {
    return r.fault(entry.at, `${what} must be a map (key: value), not ${KIND_WORDS[entry.kind]}`, {
      allowed: listed(known),
    });
  }
  const found = new Map<string, Pair>();
  for (const pair of entry.pairs) {
    if (!known.includes(pair.key)) {
      r.fault(pair.keyAt, `${what} has no key "${cut(pair.key)}"`, {
        allowed: listed(known),
        ...hint(didYouMean(pair.key, known)),
      });
    } else if (pair.value.kind === 'empty') {
      r.fault(pair.keyAt, `${pair.key} has nothing after it`, {
        hint: pair.value.note ?? 'give it a value or take the line out',
      });
      found.set(pair.key, pair);
    } else {
      found.set(pair.key, pair);
    }
  }
  for (const key of required) {
    // A key that is only misspelt was told above; saying that it is missing would tell it twice.
    const misspelt = entry.pairs.some(p => !known.includes(p.key) && nearest(p.key, known) === key);
    if (!found.has(key) && !misspelt) r.fault(headOf(r, at), `${what} needs ${key}`);
  }
  return {
    at,
    pairs: [...found.values()],
    get(key) {
      const value = found.get(key)?.value;
      return value?.kind === 'empty' ? undefined : value;
    },
    pair: key => found.get(key),
  };
}

/** The first line of a block, for a caret that does not run over the page. */
export function headOf(r: Reading, at: Span): Span {
  const newline = r.document.text.indexOf('\n', at.start);
  return newline < 0 || newline > at.end ? at : { start: at.start, end: newline };
}

const hint = (text: string | undefined) => (text === undefined ? {} : { hint: text });

/** What a person wrote, short enough for a message. */
export const cut = (text: string, longest = 60) =>
  [...text].length > longest ? `${[...text].slice(0, longest).join('')}…` : text;

/** A single value as written. */
export function textOf(r: Reading, entry: Entry, what: string, longest = 200): string | undefined {
  if (entry.kind !== 'text')
    return r.fault(
      headOf(r, entry.at),
      `${what} must be ${KIND_WORDS.text}, not ${KIND_WORDS[entry.kind]}`,
    );
  const length = [...entry.text].length;
  if (length > longest) {
    return r.fault(headOf(r, entry.at), `${what} is ${length} characters long`, {
      allowed: `at most ${longest} characters`,
    });
  }
  return entry.text;
}

/** Text that is shown on one line: no line breaks or control characters. */
export function titleOf(r: Reading, entry: Entry, what: string): string | undefined {
  const text = textOf(r, entry, what);
  if (text === undefined) return undefined;
  const tidy = text.trim();
  if (tidy === '') return r.fault(entry.at, `${what} is empty`);
  // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for
  if (/[\u0000-\u001f\u007f-\u009f]/.test(tidy))
    return r.fault(headOf(r, entry.at), `${what} must be one line without control characters`);
  return tidy;
}

export function choiceOf<const C extends string>(
  r: Reading,
  entry: Entry,
  what: string,
  choices: readonly C[],
): C | undefined {
  const text = textOf(r, entry, what);
  if (text === undefined) return undefined;
  if ((choices as readonly string[]).includes(text)) return text as C;
  return r.fault(entry.at, `${what} "${cut(text)}" is not known`, {
    allowed: listed(choices),
    ...hint(didYouMean(text, choices)),
  });
}

/** A name out of a list that is longer than a message should be. */
export function oneOf<V>(
  r: Reading,
  entry: Entry,
  what: string,
  names: readonly string[],
  find: (name: string) => V | undefined,
): V | undefined {
  const name = textOf(r, entry, what);
  if (name === undefined) return undefined;
  const value = names.includes(name) ? find(name) : undefined;
  if (value !== undefined) return value;
  return r.fault(entry.at, `there is no ${what} "${cut(name)}"`, {
    allowed: listed(names),
    ...hint(didYouMean(name, names)),
  });
}

export interface Bounds {
  readonly least: number;
  readonly most: number;
  /** The least itself is too little. */
  readonly more?: boolean;
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
  return r.fault(entry.at, `${what} cannot be ${inUnit(read.mm, r.unit)}`, {
    allowed: `${more ? 'more than' : 'from'} ${inUnit(least, r.unit)} ${more ? 'and at most' : 'to'} ${inUnit(most, r.unit)}`,
  });
}

/** `12.7 mm`, or `12.7 mm (1/2 in)` for people who measure in inches. */
export const inUnit = (mm: number, unit: LengthUnit) =>
  unit === 'in' && mm !== 0
    ? `${formatLength(mm, 'mm')} (${formatLength(mm, 'in', 32)})`
    : formatLength(mm, unit === 'cm' ? 'cm' : 'mm');

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
    },
  );
}

/** A whole number. */
export function countOf(r: Reading, entry: Entry, what: string, b: Bounds): number | undefined {
  const text = textOf(r, entry, what);
  if (text === undefined) return undefined;
  const value = /^[-+]?\d{1,9}$/.test(text.trim()) ? Number(text) : Number.NaN;
  if (value >= b.least && value <= b.most) return value;
  return r.fault(entry.at, `${what} cannot be "${cut(text)}"`, {
    allowed: `a whole number from ${b.least} to ${b.most}`,
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

/** A list; a single thing where one would be a list of one is taken as that. */
export function listOf(
  r: Reading,
  entry: Entry,
  what: string,
  most: number,
  single = false,
): readonly Entry[] | undefined {
  if (single && entry.kind === 'text') return [entry];
  if (entry.kind !== 'list') {
    return r.fault(headOf(r, entry.at), `${what} must be a list, not ${KIND_WORDS[entry.kind]}`, {
      hint: 'write each entry on a line of its own that begins with "- "',
    });
  }
  if (entry.items.length > most) {
    return r.fault(headOf(r, entry.at), `${what} has ${entry.items.length} entries`, {
      allowed: `at most ${most}`,
      hint: 'split the job into several',
    });
  }
  return entry.items;
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
/** Below this no hand folds it. */
const SHORTEST_SIDE_MM = 2;

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
