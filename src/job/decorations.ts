/** Decorations of a job: read once where they stand, put on panels later. */
import type { Decoration } from '../model.js';
import type { PlacedDecoration } from './asked.js';
import type { Context } from './context.js';
import { leastWidthOf, readCutOuts, readShadow } from './decoration-layers.js';
import { liftOf, readBackings, readStocks, readWhat } from './decoration-parts.js';
import type { Entry, MapEntry, Pair } from './document.js';
import { motifWord } from './drawings.js';
import { readGreetings } from './greetings.js';
import { motifFaults } from './motif-check.js';
import { faultOfName } from './names.js';
import { overOf, placeOf, repeatOf } from './placing.js';
import { readArt } from './printed-art.js';
import { degreesOf, flagOf } from './quantities.js';
import {
  ask,
  choiceOf,
  cut,
  type Fields,
  fields,
  headOf,
  listOf,
  namedPairs,
  oneOf,
  safeName,
  textOf,
} from './reading.js';

export const MOTIF_KEYS = [
  'motif',
  'params',
  'stock',
  'stocks',
  'backings',
  'art',
  'turn',
  'mirror',
  'repeat',
  'to',
  'shadow',
  'cut-outs',
  'lift',
  'least-width',
] as const;
const KEYS = ['name', 'use', 'on', 'face', 'overlay', 'at', 'over', ...MOTIF_KEYS] as const;
/** Decorations of one box, each of its own kind: copies are made by `repeat`. */
const MOST_DECORATIONS = 100;
const TURN_DEG = { least: -360, most: 360 };

/** The decorations that a job names once under `decorations:`. */
export type Shared = ReadonlyMap<string, MapEntry>;

export function readShared(c: Context, entry: Entry | undefined): Shared {
  const shared = new Map<string, MapEntry>();
  if (!entry) return shared;
  for (const { key, keyAt, value } of namedPairs(c.r, entry, 'decorations')) {
    const fault = faultOfName(key);
    if (fault) c.r.fault(keyAt, fault.message, fault);
    if (value.kind === 'map') shared.set(key, value);
    else c.r.fault(headOf(c.r, value.at), `the decoration ${cut(key)} must be a map (key: value)`);
  }
  // Read once where they stand, so that a fault in one that no box uses is told too.
  for (const [name, map] of shared) readOne(c, map, new Map(), name, 'unplaced');
  return shared;
}

/** The `decorations:` list of a box or a table. */
export function readDecorations(
  c: Context,
  entry: Entry | undefined,
  shared: Shared,
): readonly PlacedDecoration[] {
  if (!entry) return [];
  const items = listOf(c.r, entry, 'decorations', MOST_DECORATIONS, true) ?? [];
  const read = items.flatMap(item => readOne(c, item, shared, undefined, 'panel') ?? []);
  return withOwnNames(read);
}

/** The motif of a `decor:` entry. */
export const readLoose = (c: Context, f: Fields, name: string): PlacedDecoration | undefined =>
  readFields(c, f, name, 'loose');

type Where = 'panel' | 'unplaced' | 'loose';

function readOne(
  c: Context,
  entry: Entry,
  shared: Shared,
  ownName: string | undefined,
  where: Where,
): PlacedDecoration | undefined {
  const { r } = c;
  const lookUp = (e: Entry) =>
    oneOf(r, e, 'decoration', [...shared.keys()], n => ({ name: n, map: shared.get(n)! }));
  if (entry.kind === 'text') {
    const found = lookUp(entry);
    const f = found && fields(r, found.map, 'a decoration', KEYS, [], entry.at);
    return f && readFields(c, { ...f, at: entry.at }, found.name, where);
  }
  const own = fields(r, entry, 'a decoration', KEYS);
  if (!own) return undefined;
  const used = own.get('use');
  if (!used) return readFields(c, own, ownName, where);
  if (where === 'unplaced')
    return r.fault(used.at, 'a named decoration cannot use another', { hint: 'write it out here' });
  const found = lookUp(used);
  if (!found) return undefined;
  const merged = fields(r, mergedMap(found.map, entry as MapEntry), 'a decoration', KEYS);
  return merged && readFields(c, { ...merged, at: own.at }, found.name, where);
}

/** The named decoration with what this use changes: whole keys, and single parameters. */
function mergedMap(base: MapEntry, own: MapEntry): MapEntry {
  const has = (key: string) => own.pairs.some(p => p.key === key);
  const other = has('motif') || has('overlay');
  const replaced = (key: string) =>
    has(key) || (other && ['motif', 'overlay', 'params'].includes(key));
  const kept = base.pairs.filter(p => !replaced(p.key));
  const pairs = own.pairs.map(p => (p.key === 'params' && !other ? mergedParams(base, p) : p));
  return { kind: 'map', at: own.at, pairs: [...kept, ...pairs] };
}

function mergedParams(base: MapEntry, own: Pair): Pair {
  const before = base.pairs.find(p => p.key === 'params')?.value;
  if (before?.kind !== 'map' || own.value.kind !== 'map') return own;
  const pairs = [...before.pairs, ...own.value.pairs];
  return { ...own, value: { kind: 'map', at: own.value.at, pairs } };
}

function readFields(
  c: Context,
  f: Fields,
  given: string | undefined,
  where: Where,
): PlacedDecoration | undefined {
  const { r } = c;
  const before = r.faults.length;
  const on = f.get('on');
  const panel = on ? textOf(r, on, 'on') : '';
  if (!on && where === 'panel') {
    r.fault(headOf(r, f.at), 'a decoration needs on: the panel that it goes on', {
      hint: 'for instance  on: lid',
    });
  }
  const face = ask(f, 'face', e => choiceOf(r, e, 'face', ['outside', 'inside'])) ?? 'outside';
  const what = readWhat(c, f);
  const stocks = { ...readStocks(c, f), ...(what?.kind === 'overlay' ? what.stocks : {}) };
  const mirror = ask(f, 'mirror', e => flagOf(r, e, 'mirror'));
  const repeat = ask(f, 'repeat', e => repeatOf(c, e));
  const over = ask(f, 'over', e => overOf(c, e));
  const decoration = {
    name:
      ask(f, 'name', e => safeName(c.r, e, 'name')) ??
      given ??
      `${(panel ?? '').replace('/', '-')}-${whatName(f)}`,
    panel: panel ?? '',
    face,
    ...(ask(f, 'at', e => placeOf(c, e)) ?? { at: [0, 0] as const }),
    turn: ((ask(f, 'turn', e => degreesOf(r, e, 'turn', TURN_DEG)) ?? 0) * Math.PI) / 180,
    stocks,
    backings: ask(f, 'backings', e => readBackings(c, e)) ?? [],
  } as const;
  const art = ask(f, 'art', e => readArt(c, e));
  const shadow = ask(f, 'shadow', e => readShadow(c, e));
  const cutOuts = ask(f, 'cut-outs', e => readCutOuts(c, e));
  const lift = ask(f, 'lift', e => liftOf(c, e));
  const leastWidth = ask(f, 'least-width', e => leastWidthOf(r, e)) ?? c.leastWidth;
  if (!what) return undefined;
  const moving = ['at', 'turn', 'mirror', 'repeat'].map(k => f.pair(k)).find(p => p);
  const more = { cutOuts, leastWidth };
  if (what.kind === 'overlay' && f.pair('cut-outs')) {
    r.fault(f.pair('cut-outs')!.keyAt, 'cut-outs are for motifs');
  }
  if (what.kind === 'overlay' && moving) {
    r.fault(moving.keyAt, `${moving.key} is for motifs: an overlay lies where its panel is`, {
      hint: 'a strip of it has offset, from and shift',
    });
  }
  if (what.kind === 'motif' && !f.get('to')) motifFaults(c, what, f, more);
  else if (what.kind === 'overlay' && f.pair('to'))
    r.fault(f.pair('to')!.keyAt, 'to: is for a motif with text on it');
  const each = what.kind === 'motif' ? readGreetings(c, f, what) : undefined;
  if (what.kind === 'motif' && each) {
    motifFaults(
      c,
      { ...what, what: { ...what.what, values: { ...what.what.values, ...each[0] } } },
      f,
      more,
    );
  }
  if (r.faults.length > before) return undefined;
  const whole: Decoration = {
    ...decoration,
    what: what.what,
    ...(art ? { art } : {}),
    ...(each ? { each } : {}),
    ...(mirror ? { mirror } : {}),
    ...(repeat ? { repeat } : {}),
    ...(over ? { over } : {}),
    ...(shadow && { shadow }),
    ...(cutOuts && { cutOuts }),
    ...(lift !== undefined && { lift }),
    ...(leastWidth !== undefined && { leastWidth }),
  };
  return { decoration: whole, at: f.at, on: on?.at ?? f.at, to: f.get('to')?.at };
}

const whatName = (f: Fields) => {
  const motif = f.get('motif');
  return motif?.kind === 'text' ? motifWord(motif.text) : 'overlay';
};

/** Pieces are named by their decoration, so two of one box get numbers. */
function withOwnNames(list: readonly PlacedDecoration[]): readonly PlacedDecoration[] {
  const taken = new Set<string>();
  return list.map(placed => {
    let name = placed.decoration.name;
    for (let n = 2; taken.has(name.toLowerCase()); n++) name = `${placed.decoration.name}-${n}`;
    taken.add(name.toLowerCase());
    return { ...placed, decoration: { ...placed.decoration, name } };
  });
}
