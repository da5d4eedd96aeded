/**
 * Asking a document for what it should hold. Each question answers with a value or writes down a fault
 * at its place and answers `undefined`; the questions after it are asked all the same.
 */
import type { LengthUnit } from '../units/length.js';
import type { Document, Entry, Pair } from './document.js';
import { type Fault, faultAt, linesOf, type More, type Span } from './fault.js';
import { faultOfName } from './names.js';
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
    if (r.faults.length >= MOST_FAULTS) break;
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
  const strange = entry.pairs.filter(p => !known.includes(p.key)).slice(0, NAMES_SHOWN);
  for (const key of required) {
    // A key that is only misspelt was told above; saying that it is missing would tell it twice.
    const misspelt = strange.some(p => nearest(p.key, known) === key);
    if (!found.has(key) && !misspelt)
      r.fault(headOf(r, at), `${what} needs ${key}`, { hint: `add ${key}` });
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

/** A map whose keys are names that the person chooses. */
export function namedPairs(r: Reading, entry: Entry, what: string): readonly Pair[] {
  if (entry.kind !== 'map') {
    r.fault(
      headOf(r, entry.at),
      `${what} must be a map (name: value), not ${KIND_WORDS[entry.kind]}`,
      {
        hint: 'begin each line with a name of your own and a colon',
      },
    );
    return [];
  }
  const keys = entry.pairs.map(p => p.key);
  return fields(r, entry, what, keys)?.pairs.filter(p => p.value.kind !== 'empty') ?? [];
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

/** The value of a key that is given. */
export function ask<T>(
  f: Fields,
  key: string,
  read: (entry: Entry) => T | undefined,
): T | undefined {
  const entry = f.get(key);
  return entry && read(entry);
}

/** `units: mm | cm | in` sets the unit of bare numbers from here on. */
export function readUnits(r: Reading, f: Fields): void {
  const unit = ask(f, 'units', e => choiceOf(r, e, 'units', ['mm', 'cm', 'in']));
  if (unit) r.unit = unit;
}

type Known<T> = { [K in keyof T]: Exclude<T[K], undefined> };
/** The whole thing, or nothing when a part of it was at fault. */
export function whole<T extends object>(parts: T): Known<T> | undefined {
  return Object.values(parts).every(v => v !== undefined) ? (parts as Known<T>) : undefined;
}

/** A name that becomes a folder or a file. */
export function safeName(r: Reading, entry: Entry, what: string): string | undefined {
  const name = textOf(r, entry, what);
  const fault = name === undefined ? undefined : faultOfName(name);
  return fault ? r.fault(entry.at, fault.message, fault) : name;
}
