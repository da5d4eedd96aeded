/** Decorations of a job: read once where they stand, put on panels later. */
import { find } from '../contracts.js';
import type { ArtSpec, BackingSpec, Decoration, Point } from '../model.js';
import type { Context } from './context.js';
import { presetOf } from './context.js';
import type { Entry, MapEntry, Pair } from './document.js';
import type { Span } from './fault.js';
import { paperFaults } from './motif-check.js';
import { faultOfName } from './names.js';
import { ask, coloursOf } from './preset-kinds.js';
import {
  choiceOf,
  countOf,
  cut,
  degreesOf,
  type Fields,
  fields,
  headOf,
  lengthOf,
  listOf,
  oneOf,
  textOf,
} from './reading.js';
import { paramPairs, readParams } from './values.js';

/** A decoration with the places that later checks point at. */
export interface PlacedDecoration {
  readonly decoration: Decoration;
  readonly at: Span;
  /** Of the panel's name. */
  readonly on: Span;
}

export const MOTIF_KEYS = [
  'motif',
  'params',
  'stock',
  'stocks',
  'backings',
  'art',
  'turn',
] as const;
const KEYS = ['name', 'use', 'on', 'face', 'overlay', 'at', ...MOTIF_KEYS] as const;
/** Decorations of one box; more do not fit a hand-sized box. */
const MOST_DECORATIONS = 50;
const MOST_BACKINGS = 8;
const AWAY_MM = 1000;
const TURN_DEG = { least: -360, most: 360 };
const REVEAL_MM = { least: 0, most: 50 };

/** The decorations that a job names once under `decorations:`. */
export type Shared = ReadonlyMap<string, MapEntry>;

export function readShared(c: Context, entry: Entry | undefined): Shared {
  const shared = new Map<string, MapEntry>();
  if (!entry) return shared;
  const keys = entry.kind === 'map' ? entry.pairs.map(p => p.key) : [];
  for (const { key, keyAt, value } of fields(c.r, entry, 'decorations', keys)?.pairs ?? []) {
    const fault = faultOfName(key);
    if (fault) c.r.fault(keyAt, fault.message, fault);
    if (value.kind === 'map') shared.set(key, value);
    else if (value.kind !== 'empty')
      c.r.fault(headOf(c.r, value.at), `the decoration ${cut(key)} must be a map (key: value)`);
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

/** The motif of a `decor:` entry. `entry` may hold the further `keys`, read elsewhere. */
export function readLoose(
  c: Context,
  entry: Entry,
  keys: readonly string[],
  name: string,
): PlacedDecoration | undefined {
  const f = fields(c.r, entry, 'a decor entry', [...keys, ...MOTIF_KEYS], ['motif']);
  return f && readFields(c, f, name, 'loose');
}

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
  const stocks = readStocks(c, f);
  const decoration = {
    name: ask(f, 'name', e => nameOf(c, e)) ?? given ?? `${panel}-${whatName(f)}`,
    panel: panel ?? '',
    face,
    at: ask(f, 'at', e => pointOf(c, e)) ?? ([0, 0] as const),
    turn: ((ask(f, 'turn', e => degreesOf(r, e, 'turn', TURN_DEG)) ?? 0) * Math.PI) / 180,
    stocks,
    backings: ask(f, 'backings', e => readBackings(c, e)) ?? [],
  } as const;
  const art = ask(f, 'art', e => readArt(c, e));
  if (!what) return undefined;
  if (what.kind === 'motif') paperFaults(c, what, f);
  if (r.faults.length > before) return undefined;
  const whole: Decoration = { ...decoration, what: what.what, ...(art ? { art } : {}) };
  return { decoration: whole, at: f.at, on: on?.at ?? f.at };
}

const whatName = (f: Fields) => {
  const motif = f.get('motif');
  return motif?.kind === 'text' ? motif.text : 'overlay';
};

function nameOf(c: Context, entry: Entry): string | undefined {
  const name = textOf(c.r, entry, 'name');
  const fault = name === undefined ? undefined : faultOfName(name);
  return fault ? c.r.fault(entry.at, fault.message, fault) : name;
}

/** What a decoration is, with the places of a motif's parameters. */
export interface MotifAsk {
  readonly kind: 'motif';
  readonly what: Extract<Decoration['what'], { kind: 'motif' }>;
  readonly places: ReadonlyMap<string, Span>;
  readonly sound: boolean;
  readonly at: Span;
}
type OverlayAsk = {
  readonly kind: 'overlay';
  readonly what: Extract<Decoration['what'], { kind: 'overlay' }>;
};

function readWhat(c: Context, f: Fields): MotifAsk | OverlayAsk | undefined {
  const { r, library } = c;
  const overlay = f.get('overlay');
  const motif = f.get('motif');
  const params = f.pair('params');
  if (overlay && motif) {
    return r.fault(f.pair('motif')!.keyAt, 'motif and overlay are both given', {
      hint: 'make two decorations of it: the overlay first, the motif on top',
    });
  }
  if (overlay) {
    if (params) r.fault(params.keyAt, 'params belong to a motif; an overlay has only its reveal');
    const reveal = revealOf(c, overlay);
    return reveal === undefined
      ? undefined
      : { kind: 'overlay', what: { kind: 'overlay', reveal } };
  }
  if (!motif) {
    return f.pair('motif') || f.pair('overlay')
      ? undefined
      : r.fault(headOf(r, f.at), 'a decoration needs overlay or motif', {
          hint: 'for instance  overlay: { reveal: 1/16in }  or  motif: heart',
        });
  }
  const ids = library.motifs.map(m => m.id);
  const found = oneOf(r, motif, 'motif', ids, id => find(library.motifs, id));
  if (!found) return undefined;
  const { values, places, sound } = readParams(r, paramPairs(r, f.get('params')), found);
  const what = { kind: 'motif', motif: found.id, values } as const;
  return { kind: 'motif', what, places, sound, at: motif.at };
}

/** `overlay: 1/16` and `overlay: { reveal: 1/16 }` say the same. */
function revealOf(c: Context, entry: Entry): number | undefined {
  if (entry.kind === 'text') return lengthOf(c.r, entry, 'reveal', REVEAL_MM);
  const f = fields(c.r, entry, 'overlay', ['reveal'], ['reveal']);
  return f && ask(f, 'reveal', e => lengthOf(c.r, e, 'reveal', REVEAL_MM));
}

/** `stock: cream` is `stocks: { main: cream }`. */
function readStocks(c: Context, f: Fields): Readonly<Record<string, string>> {
  const stocks: Record<string, string> = {};
  const main = ask(f, 'stock', e => c.papers.use(e)) ?? c.papers.standard;
  if (main !== undefined) stocks.main = main;
  const entry = f.get('stocks');
  if (!entry) return stocks;
  const keys = entry.kind === 'map' ? entry.pairs.map(p => p.key) : [];
  for (const pair of fields(c.r, entry, 'stocks', keys)?.pairs ?? []) {
    if (pair.key === '__proto__') continue;
    const name = pair.value.kind === 'empty' ? undefined : c.papers.use(pair.value);
    if (name !== undefined) stocks[pair.key] = name;
  }
  return stocks;
}

function readBackings(c: Context, entry: Entry): readonly BackingSpec[] {
  const items = listOf(c.r, entry, 'backings', MOST_BACKINGS, true) ?? [];
  return items.flatMap(item => readBacking(c, item) ?? []);
}

const BACKING_MM = { least: 0, most: 100, more: true };

function readBacking(c: Context, entry: Entry): BackingSpec | undefined {
  const { r } = c;
  const standard = c.papers.standard ?? '';
  if (entry.kind === 'text') {
    const reveal = lengthOf(r, entry, 'reveal', BACKING_MM);
    return reveal === undefined ? undefined : { reveal, stock: standard };
  }
  const f = fields(r, entry, 'a backing', ['reveal', 'stock', 'art'], ['reveal']);
  if (!f) return undefined;
  const reveal = ask(f, 'reveal', e => lengthOf(r, e, 'reveal', BACKING_MM));
  const stock = ask(f, 'stock', e => c.papers.use(e)) ?? standard;
  const art = ask(f, 'art', e => readArt(c, e));
  return reveal === undefined ? undefined : { reveal, stock, ...(art ? { art } : {}) };
}

/** The palette of a pattern that names none. */
const STANDARD_PALETTE = 'windfall';

/** `art: dots` is `art: { pattern: dots }`. */
function readArt(c: Context, entry: Entry): ArtSpec | undefined {
  const { r, library } = c;
  const f =
    entry.kind === 'text'
      ? undefined
      : fields(r, entry, 'art', ['pattern', 'palette', 'seed', 'params'], ['pattern']);
  const named = entry.kind === 'text' ? entry : f?.get('pattern');
  if (!named) return undefined;
  const ids = library.patterns.map(p => p.id);
  const pattern = oneOf(r, named, 'pattern', ids, id => find(library.patterns, id));
  const palette = paletteOf(c, f?.get('palette'));
  const seed = f && ask(f, 'seed', e => countOf(r, e, 'seed', { least: 0, most: 999_999_999 }));
  if (!pattern || !palette) return undefined;
  const { values } = readParams(r, paramPairs(r, f?.get('params')), pattern);
  return { pattern: pattern.id, values, palette, seed: seed ?? 1 };
}

function paletteOf(c: Context, entry: Entry | undefined): readonly string[] | undefined {
  if (entry?.kind === 'list') return coloursOf(c.r, entry, 'palette');
  const named = entry ?? { kind: 'text', text: STANDARD_PALETTE, at: { start: 0, end: 0 } };
  const found = presetOf(c.r, c.library, 'palette', named);
  return found && 'value' in found ? found.value.colours : undefined;
}

/** `[1/2, -1/4]` or `1/2, -1/4`: from the panel's middle, x then y. */
function pointOf(c: Context, entry: Entry): Point | undefined {
  const { r } = c;
  const parts: readonly Entry[] | undefined =
    entry.kind === 'text'
      ? entry.text.split(',').map(text => ({ kind: 'text', text: text.trim(), at: entry.at }))
      : listOf(r, entry, 'at', 2);
  if (parts?.length !== 2)
    return r.fault(entry.at, 'at needs two lengths, x and y', {
      hint: 'for instance  at: [0, 1/4]',
    });
  const bounds = { least: -AWAY_MM, most: AWAY_MM };
  const [x, y] = parts.map((e, i) => lengthOf(r, e, `at (${'xy'[i]})`, bounds));
  return x === undefined || y === undefined ? undefined : [x, y];
}

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
