/** What a treat holds, in a preset file or in a job, where `base` is the preset that it is `like`. */
import { liesKnown } from '../fit/index.js';
import type { Treat, TreatShape } from '../model.js';
import type { Entry, Pair } from './document.js';
import { countOf, lengthOf, numberOf, sizeOf } from './quantities.js';
import {
  ask,
  choiceOf,
  type Fields,
  fields,
  headOf,
  listed,
  type Reading,
  readUnits,
  titleOf,
} from './reading.js';

export const SHAPES = ['block', 'round', 'ball', 'pouch', 'stick'] as const;
export type ShapeKind = (typeof SHAPES)[number];

/** From a sugar pearl to a loaf. */
const TREAT_MM = { least: 1, most: 1000 };
const CLEARANCE_MM = { least: 0, most: 50 };
/** More is a cake cut up, not a box of treats. */
const PIECES = { least: 1, most: 500 };
/** Layers on each other; no more than there may be pieces. */
const STACK = { least: 1, most: PIECES.most };
const APART_MM = { least: 0, most: 200 };
/** Pressed flatter than half, what is inside breaks (common practice, no source). */
const SQUASH = { least: 0, most: 50 };
/** So that a hand gets it in and out (common practice, no source). */
const CLEARANCE = 1;

/** What each shape is measured by. */
const MEASURES: Readonly<Record<ShapeKind, readonly string[]>> = {
  block: ['length', 'width', 'height'],
  round: ['diameter', 'height'],
  ball: ['diameter'],
  pouch: ['length', 'width', 'height'],
  stick: ['length', 'diameter'],
};

const TREAT_KEYS = ['summary', ...SHAPES, 'count', 'clearance', 'apart', 'stack', 'lie'] as const;

/** A treat. `keys` are further keys that the caller reads itself. */
export function readTreat(
  r: Reading,
  entry: Entry,
  id: string,
  base?: Treat,
  keys: readonly string[] = ['units'],
): Treat | undefined {
  const before = r.faults.length;
  const isPreset = keys.includes('units');
  const f = fields(r, entry, 'a treat', [...keys, ...TREAT_KEYS], isPreset ? ['summary'] : []);
  if (!f) return undefined;
  if (isPreset) readUnits(r, f);
  const shape = shapeIn(r, f, base?.shape);
  const summary = ask(f, 'summary', e => titleOf(r, e, 'summary')) ?? base?.summary ?? '';
  const count = ask(f, 'count', e => countOf(r, e, 'count', PIECES)) ?? base?.count ?? 1;
  const clearance =
    ask(f, 'clearance', e => lengthOf(r, e, 'clearance', CLEARANCE_MM)) ??
    base?.clearance ??
    CLEARANCE;
  const stack = ask(f, 'stack', e => countOf(r, e, 'stack', STACK)) ?? base?.stack ?? STACK.most;
  const apart = ask(f, 'apart', e => lengthOf(r, e, 'apart', APART_MM)) ?? base?.apart ?? 0;
  if (!shape) return undefined;
  const known = liesKnown(shape.kind);
  const lie =
    ask(f, 'lie', e => choiceOf(r, e, `lie of a ${shape.kind}`, known)) ??
    (base && known.includes(base.lie) ? base.lie : 'any');
  return r.faults.length > before
    ? undefined
    : { id, summary, shape, count, clearance, apart, stack, lie };
}

function shapeIn(r: Reading, f: Fields, base: TreatShape | undefined): TreatShape | undefined {
  const given = f.pairs.filter(p => (SHAPES as readonly string[]).includes(p.key));
  const [first, second] = given;
  if (second) {
    return r.fault(second.keyAt, `${first!.key} and ${second.key} are both given`, {
      allowed: `exactly one of ${listed(SHAPES)}`,
    });
  }
  if (!first) {
    if (base) return base;
    return r.fault(headOf(r, f.at), 'a treat needs its shape', {
      allowed: `one of ${listed(SHAPES)}`,
      hint: 'for instance  round: { diameter: 40mm, height: 20mm }',
    });
  }
  if (first.value.kind === 'empty') return undefined;
  const kind = first.key as ShapeKind;
  return measured(r, kind, first, base?.kind === kind ? base : undefined);
}

/** A shape by a map of its measures; a block or a pouch also by its size, a ball by its diameter. */
function measured(
  r: Reading,
  kind: ShapeKind,
  { value: entry }: Pair,
  base: TreatShape | undefined,
): TreatShape | undefined {
  if (entry.kind === 'text') {
    if (kind === 'ball') {
      const diameter = lengthOf(r, entry, 'diameter', TREAT_MM);
      return diameter === undefined ? undefined : { kind, diameter };
    }
    if (kind === 'block' || kind === 'pouch') {
      const sides = sizeOf(r, entry, kind);
      if (!sides) return undefined;
      const [length, width, height] = sides;
      return kind === 'block'
        ? { kind, length, width, height }
        : { kind, length, width, height, squash: 0 };
    }
  }
  const measures = MEASURES[kind];
  const sized = kind === 'block' || kind === 'pouch';
  const keys = [...measures, ...(sized ? ['size'] : []), ...(kind === 'pouch' ? ['squash'] : [])];
  const bySize = sized && entry.kind === 'map' && entry.pairs.some(p => p.key === 'size');
  const f = fields(r, entry, `a ${kind}`, keys, base || bySize ? [] : measures);
  if (!f) return undefined;
  const old = base as unknown as Readonly<Record<string, number>> | undefined;
  const squash = kind === 'pouch' ? squashIn(r, f, old?.squash) : 0;
  const sides = bySize
    ? sidesIn(r, f)
    : measures.map(m => ask(f, m, e => lengthOf(r, e, m, TREAT_MM)) ?? old?.[m]);
  if (squash === undefined || !sides || sides.some(s => s === undefined)) return undefined;
  const read = Object.fromEntries(measures.map((m, i) => [m, sides[i]]));
  return { kind, ...read, ...(kind === 'pouch' && { squash }) } as TreatShape;
}

function sidesIn(r: Reading, f: Fields): readonly number[] | undefined {
  const other = f.pairs.find(p => MEASURES.block.includes(p.key));
  if (other) {
    return r.fault(other.keyAt, `size and ${other.key} are both given`, {
      hint: 'size is length x width x height already',
    });
  }
  return ask(f, 'size', e => sizeOf(r, e, 'size'));
}

/** `20%`, or the bare number of per cent; kept as a share. */
function squashIn(r: Reading, f: Fields, old: number | undefined): number | undefined {
  const entry = f.get('squash');
  if (!entry) return old ?? 0;
  const bare =
    entry.kind === 'text' ? { ...entry, text: entry.text.trim().replace(/\s*%$/, '') } : entry;
  const percent = numberOf(r, bare, 'squash (per cent)', SQUASH);
  return percent === undefined ? undefined : percent / 100;
}
