/**
 * A job file to a design: every default filled in, every name looked up, every box built once. Or
 * all that is wrong with it, each fault at its place.
 */
import type { Convention, Cutter, Design, FormatId, Item } from '../model.js';
import { type AskedBox, countIn, makeBox, type PlacedItem, sizeIn } from './boxes.js';
import { type Context, type Library, presetOrOwn, readPapers } from './context.js';
import { readDecorations, readLoose, readShared, type Shared } from './decorations.js';
import { type Document, type Entry, readDocument } from './document.js';
import { type Fault, inOrder, type Source, type Span } from './fault.js';
import { faultOfName, sameOnDisk, titleFrom } from './names.js';
import { ask, readConvention, readCutter, readUnits } from './preset-kinds.js';
import {
  choiceOf,
  cut,
  type Fields,
  fields,
  headOf,
  lengthOf,
  listOf,
  type Reading,
  startReading,
  textOf,
  titleOf,
} from './reading.js';
import { MOST_ITEMS, readTable } from './tables.js';
import { paramPairs } from './values.js';

export type { Library } from './context.js';

/** Parts of an item that a later stage may find at fault. */
export type Part = 'name' | 'size' | 'stock' | { readonly decoration: string };

export interface ReadJob {
  readonly design: Design;
  /** A fault of an item that was found after the job was read, at its place in the job. */
  faultOf(
    item: string,
    part: Part,
    message: string,
    more?: { allowed?: string; hint?: string },
  ): Fault;
}

const KEYS = [
  'job',
  'title',
  'units',
  'cutter',
  'convention',
  'formats',
  'bleed',
  'print-margin',
  'stock',
  'stocks',
  'decorations',
  'boxes',
  'tables',
  'decor',
] as const;
const BOX_KEYS = [
  'name',
  'title',
  'style',
  'inside',
  'outside',
  'creases',
  'count',
  'stock',
  'params',
  'decorations',
] as const;
const FORMATS: readonly FormatId[] = ['svg', 'dxf', 'pdf'];

const STANDARD = {
  cutter: 'mat-12x12',
  convention: 'okabe-ito',
  bleed: 3,
  printMargin: 5,
} as const;
/** Less than 1 mm does not hide a printer's drift; more than 10 wastes paper. */
const BLEED_MM = { least: 0, most: 10 };
const PRINT_MARGIN_MM = { least: 0, most: 30 };

/** Reads a job. Never throws for what a person wrote. */
export function readJob(
  source: Source | Document,
  library: Library,
): ReadJob | { readonly faults: readonly Fault[] } {
  const read = 'root' in source ? { document: source } : readDocument(source);
  if ('faults' in read) return read;
  const r = startReading(read.document, 'mm');
  const made = readRoot(r, library);
  if (!made || r.faults.length > 0) return { faults: inOrder(r.faults) };
  return made;
}

function readRoot(r: Reading, library: Library): ReadJob | undefined {
  const { root } = r.document;
  if (root.kind === 'empty') {
    return r.fault({ start: 0, end: 1 }, 'the job is empty', {
      hint: 'begin with  job: a-name  and a list of boxes:',
    });
  }
  const f = fields(r, root, 'a job', KEYS, ['job'], { start: 0, end: 1 });
  if (!f) return undefined;
  readUnits(r, f);
  const name = ask(f, 'job', e => jobName(r, e));
  const title = ask(f, 'title', e => titleOf(r, e, 'title'));
  const cutter = named(r, library, 'cutter', f, STANDARD.cutter, (base: Cutter | undefined, e) =>
    readCutter(r, e, 'own', base, ['like']),
  );
  const convention = named(
    r,
    library,
    'convention',
    f,
    STANDARD.convention,
    (base: Convention | undefined, e) => readConvention(r, e, 'own', base, ['like']),
  );
  const formats = ask(f, 'formats', e => readFormats(r, e)) ?? FORMATS;
  const bleed = ask(f, 'bleed', e => lengthOf(r, e, 'bleed', BLEED_MM)) ?? STANDARD.bleed;
  const printMargin =
    ask(f, 'print-margin', e => lengthOf(r, e, 'print-margin', PRINT_MARGIN_MM)) ??
    STANDARD.printMargin;
  const papers = readPapers(r, library, f.get('stocks'), f.get('stock'));
  const c: Context = { r, library, papers };
  const placed = readItems(c, f);
  if (!cutter || !convention || name === undefined) return undefined;
  const design: Design = {
    name,
    title: title ?? titleFrom(name),
    items: placed.map(p => p.item),
    stocks: papers.all(),
    cutter,
    convention,
    formats,
    unit: r.unit === 'in' ? 'in' : 'mm',
    bleed,
    printMargin,
  };
  return { design, faultOf: faultsOf(r, placed) };
}

function jobName(r: Reading, entry: Entry): string | undefined {
  const name = textOf(r, entry, 'job');
  const fault = name === undefined ? undefined : faultOfName(name);
  return fault ? r.fault(entry.at, fault.message, fault) : name;
}

function named<K extends 'cutter' | 'convention', T>(
  r: Reading,
  library: Library,
  kind: K,
  f: Fields,
  standard: string,
  read: (base: T | undefined, entry: Entry) => T | undefined,
): T | undefined {
  if (f.pair(kind) && !f.get(kind)) return undefined;
  const entry = f.get(kind) ?? { kind: 'text', text: standard, at: f.at };
  return presetOrOwn(r, library, kind, entry, read);
}

function readFormats(r: Reading, entry: Entry): readonly FormatId[] | undefined {
  const items = listOf(r, entry, 'formats', FORMATS.length, true);
  if (!items) return undefined;
  if (items.length === 0)
    return r.fault(entry.at, 'formats is empty', { allowed: FORMATS.join(', ') });
  const chosen = items.map(e => choiceOf(r, e, 'format', FORMATS));
  return FORMATS.filter(format => chosen.includes(format));
}

function readItems(c: Context, f: Fields): readonly PlacedItem[] {
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
    size: sizeIn(c, f, 'a box'),
    params: paramPairs(c.r, f.get('params')),
    decorations: readDecorations(c, f.get('decorations'), shared),
    words: new Map(),
  };
}

const DECOR_KEYS = ['name', 'title', 'count'];

/** A decoration without a box. */
function readDecor(c: Context, entry: Entry): PlacedItem | undefined {
  const { r } = c;
  const pair = (key: string) =>
    entry.kind === 'map' ? entry.pairs.find(p => p.key === key)?.value : undefined;
  const [nameEntry, titleEntry, countEntry] = DECOR_KEYS.map(pair);
  const motif = pair('motif');
  const written = nameEntry?.kind === 'text' ? nameEntry : undefined;
  const name = written?.text ?? (motif?.kind === 'text' ? motif.text : 'decor');
  const fault = written && faultOfName(name);
  if (fault) r.fault(written.at, fault.message, fault);
  const title = titleEntry?.kind === 'text' ? titleOf(r, titleEntry, 'title') : undefined;
  const count = countEntry?.kind === 'empty' ? 1 : countIn(c, countEntry);
  const loose = readLoose(c, entry, DECOR_KEYS, name);
  if (!loose || fault) return undefined;
  const at = written?.at ?? headOf(r, entry.at);
  const item: Item = {
    name,
    title: title ?? titleFrom(name),
    count,
    decorations: [loose.decoration],
  };
  const places = { at, size: at, stock: at, decorations: new Map([[name, loose.at]]) };
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

function faultsOf(r: Reading, placed: readonly PlacedItem[]): ReadJob['faultOf'] {
  const places = new Map(placed.map(p => [p.item.name, p.places]));
  return (item, part, message, more = {}) => {
    const own = places.get(item);
    const spans: readonly (Span | undefined)[] = [
      typeof part === 'object'
        ? own?.decorations.get(part.decoration)
        : part === 'name'
          ? own?.at
          : own?.[part],
      own?.at,
    ];
    const at = headOf(r, spans.find(span => span) ?? { start: 0, end: 1 });
    return { ...r.place(at), message, ...more };
  };
}
