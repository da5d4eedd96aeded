/** The items of a job: single boxes, the rows of its tables, decorations without a box. */
import type { Item } from '../model.js';
import type { AskedBox, PlacedItem } from './asked.js';
import { countIn, makeBox, sizingIn } from './boxes.js';
import type { Context } from './context.js';
import { MOTIF_KEYS, readDecorations, readLoose, readShared, type Shared } from './decorations.js';
import type { Entry } from './document.js';
import { motifWord } from './drawings.js';
import { readFeatures } from './features.js';
import { sameOnDisk, titleFrom } from './names.js';
import {
  ask,
  cut,
  type Fields,
  fields,
  headOf,
  listOf,
  type Reading,
  safeName,
  titleOf,
} from './reading.js';
import { MOST_ITEMS, readTable } from './tables.js';
import { paramPairs } from './values.js';

const BOX_KEYS = [
  'name',
  'title',
  'style',
  'inside',
  'outside',
  'creases',
  'treat',
  'count',
  'stock',
  'params',
  'features',
  'split',
  'round',
  'decorations',
] as const;

/** Every item, in the order of the job. None has the name of another. */
export function readItems(c: Context, f: Fields): readonly PlacedItem[] {
  const { r } = c;
  const shared = readShared(c, f.get('decorations'));
  const boxes = ask(f, 'boxes', e => listOf(r, e, 'boxes', MOST_ITEMS)) ?? [];
  const tables = ask(f, 'tables', e => listOf(r, e, 'tables', MOST_ITEMS)) ?? [];
  const decor = ask(f, 'decor', e => listOf(r, e, 'decor', MOST_ITEMS)) ?? [];
  const asked = [
    ...boxes.flatMap(e => askBox(c, e, shared) ?? []),
    ...tables.flatMap(e => readTable(c, e, shared)),
  ];
  const total = asked.length + decor.length;
  if (total > MOST_ITEMS) {
    r.fault(f.at, `the job has ${total} boxes and decorations`, {
      allowed: `at most ${MOST_ITEMS}`,
      hint: 'split it into several jobs',
    });
    return [];
  }
  const nothing = boxes.length + tables.length + decor.length === 0;
  if (nothing && !r.faults.length) {
    const key = f.pair('boxes') ?? f.pair('tables') ?? f.pair('decor');
    r.fault(key?.keyAt ?? f.at, 'the job has nothing to make', {
      hint: 'give it boxes:, tables: or decor:',
    });
  }
  const placed = [
    ...asked.flatMap(a => makeBox(c, a) ?? []),
    ...decor.flatMap(e => readDecor(c, e) ?? []),
  ];
  tellSameNames(r, placed);
  return placed;
}

function askBox(c: Context, entry: Entry, shared: Shared): AskedBox | undefined {
  const f = fields(c.r, entry, 'a box', BOX_KEYS, ['style']);
  if (!f) return undefined;
  return {
    at: f.at,
    name: f.get('name'),
    title: f.get('title'),
    count: f.get('count'),
    style: f.get('style'),
    stock: f.get('stock'),
    ...sizingIn(c, f, 'a box'),
    params: paramPairs(c.r, f.get('params')),
    decorations: readDecorations(c, f.get('decorations'), shared),
    features: readFeatures(c, f.get('features')),
    split: f.get('split'),
    round: f.get('round'),
    words: new Map(),
  };
}

const DECOR_KEYS = ['name', 'title', 'count', ...MOTIF_KEYS] as const;

/** A decoration without a box. */
function readDecor(c: Context, entry: Entry): PlacedItem | undefined {
  const { r } = c;
  const f = fields(r, entry, 'a decor entry', DECOR_KEYS, ['motif']);
  if (!f) return undefined;
  const given = ask(f, 'name', e => safeName(r, e, 'name'));
  const title = ask(f, 'title', e => titleOf(r, e, 'title'));
  const motif = f.get('motif');
  const name = given ?? (motif?.kind === 'text' ? motifWord(motif.text) : 'decor');
  const loose = readLoose(c, f, name);
  if (!loose || (f.pair('name') && given === undefined)) return undefined;
  const count = countIn(c, f.get('count'), [loose]);
  const at = headOf(r, f.get('name')?.at ?? entry.at);
  const item: Item = {
    name,
    title: title ?? titleFrom(name),
    count,
    decorations: [loose.decoration],
  };
  const places = {
    at,
    size: at,
    stock: at,
    decorations: new Map([[name, loose.at]]),
    features: [],
  };
  return { item, places, nameAt: at };
}

function tellSameNames(r: Reading, placed: readonly PlacedItem[]): void {
  const first = new Map<string, PlacedItem>();
  for (const one of placed) {
    const key = sameOnDisk(one.item.name);
    const other = first.get(key);
    if (!other) {
      first.set(key, one);
      continue;
    }
    const sameTemplate = other.nameAt.start === one.nameAt.start;
    const how =
      other.item.name === one.item.name ? 'the same name' : 'names that differ only in case';
    const at = sameTemplate ? one.places.size : one.nameAt;
    r.fault(at, `two items have ${how}: "${cut(one.item.name)}"`, {
      hint: sameTemplate
        ? 'two rows give the same name: put {length}, {width}, {height} or {row} into it'
        : `the other is on line ${r.place(other.nameAt).line}; each needs a folder of its own`,
    });
  }
}
