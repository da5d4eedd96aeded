/** Parameters of styles, motifs and patterns, checked from the tables that declare them. */
import type { ParamValue, ParamValues } from '../model.js';
import type { ParamError, ParamSpec, ParamTable } from '../params.js';
import type { Entry, Pair } from './document.js';
import type { Span } from './fault.js';
import { didYouMean } from './nearest.js';
import { countOf, degreesOf, flagOf, inUnit, lengthOf, numberOf } from './quantities.js';
import { choiceOf, cut, listed, type Reading, textOf } from './reading.js';

export interface Params {
  /** Every parameter of the table; defaults where nothing (or nothing usable) was given. */
  readonly values: ParamValues;
  /** Where the given ones stand. */
  readonly places: ReadonlyMap<string, Span>;
  /** Whether all that was given could be used. */
  readonly sound: boolean;
}

interface Owner {
  readonly id: string;
  readonly params: ParamTable;
}

/** A parameter may be written as declared or with hyphens: `textHeight`, `text-height`. */
export function paramName(table: ParamTable, written: string): string | undefined {
  if (Object.hasOwn(table, written)) return written;
  const camel = written.replace(/-([a-z])/g, (_, letter: string) => letter.toUpperCase());
  return Object.hasOwn(table, camel) ? camel : undefined;
}

/** The pairs of a `params:` map; later lists of pairs win over earlier ones in `readParams`. */
export function paramPairs(r: Reading, entry: Entry | undefined): readonly Pair[] {
  if (!entry) return [];
  if (entry.kind === 'map') return entry.pairs;
  r.fault(entry.at, 'params must be a map of names and values', {
    hint: 'write  params: { name: value, … }',
  });
  return [];
}

export function readParams(r: Reading, pairs: readonly Pair[], owner: Owner): Params {
  const given = new Map<string, ParamValue>();
  const places = new Map<string, Span>();
  let sound = true;
  for (const pair of pairs) {
    const name = paramName(owner.params, pair.key);
    if (name === undefined) {
      const known = Object.keys(owner.params);
      r.fault(pair.keyAt, `${owner.id} has no parameter "${cut(pair.key)}"`, {
        allowed: listed(known),
        ...hintOf(
          didYouMean(
            pair.key,
            known.flatMap(k => [k, hyphened(k)]),
          ),
        ),
      });
      sound = false;
      continue;
    }
    const value = readValue(r, pair, owner.params[name]!, `${pair.key} of ${owner.id}`);
    if (value === undefined) sound = false;
    else given.set(name, value);
    places.set(name, pair.value.kind === 'empty' ? pair.keyAt : pair.value.at);
  }
  const values = Object.fromEntries(
    Object.entries(owner.params).map(([name, spec]) => [name, given.get(name) ?? spec.default]),
  );
  return { values, places, sound };
}

export const hyphened = (name: string) =>
  name.replace(/[A-Z]/g, letter => `-${letter.toLowerCase()}`);
const hintOf = (hint: string | undefined) => (hint === undefined ? {} : { hint });

function readValue(r: Reading, pair: Pair, spec: ParamSpec, what: string): ParamValue | undefined {
  const { key, value: entry } = pair;
  // Empty quotes are a text; an empty place is not.
  if (entry.kind === 'empty') {
    return r.fault(pair.keyAt, `${key} has nothing after it`, {
      hint: entry.note ?? (spec.kind === 'text' ? 'write "" for no text' : `see: ${spec.help}`),
    });
  }
  switch (spec.kind) {
    case 'length':
      if (spec.default === 'auto' && entry.kind === 'text' && entry.text === 'auto') return 'auto';
      return lengthOf(r, entry, what, spec);
    case 'angleDeg':
      return degreesOf(r, entry, what, spec);
    case 'number':
      return numberOf(r, entry, what, spec);
    case 'count':
      return countOf(r, entry, what, spec);
    case 'choice':
      return choiceOf(r, entry, `${what}:`, spec.choices);
    case 'flag':
      return flagOf(r, entry, what);
    case 'text':
      return textOf(r, entry, what, spec.longest);
  }
}

/** A `ParamError` in a person's words, at the place of its parameter. */
export function tellParamError(
  r: Reading,
  error: ParamError,
  at: Span,
  owner: Owner,
  where = '',
): void {
  const spec = Object.hasOwn(owner.params, error.param) ? owner.params[error.param] : undefined;
  const isLength = typeof error.value === 'number' && (!spec || spec.kind === 'length');
  const value = isLength ? inUnit(error.value as number, r.unit) : cut(String(error.value));
  r.fault(at, `${where}${error.param} of ${owner.id} cannot be ${value}`, {
    allowed: error.allowed,
    hint: error.advice,
  });
}
