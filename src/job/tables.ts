/** A size table: one style and shared settings, a box for each row. */
import type { Inside } from '../model.js';
import {
  type AskedBox,
  type AskedFeature,
  type AskedSize,
  MEASURES,
  type Measure,
  type PlacedDecoration,
} from './asked.js';
import { sizingIn } from './boxes.js';
import type { Context } from './context.js';
import { readDecorations, type Shared } from './decorations.js';
import type { Entry, ListEntry, Pair } from './document.js';
import type { Span } from './fault.js';
import { readFeatures } from './features.js';
import { didYouMean } from './nearest.js';
import { lengthOf, sideFault, sizeOf } from './quantities.js';
import {
  ask,
  choiceOf,
  cut,
  type Fields,
  fields,
  headOf,
  listed,
  listOf,
  textOf,
} from './reading.js';
import { paramPairs } from './values.js';

const SHARED_KEYS = [
  'name',
  'title',
  'count',
  'stock',
  'params',
  'features',
  'split',
  'round',
  'decorations',
] as const;
const TABLE_KEYS = [...SHARED_KEYS, 'style', 'sizes', 'columns', 'rows'] as const;
const ROW_KEYS = [...SHARED_KEYS, ...MEASURES, 'treat'] as const;
const SIDES = ['length', 'width', 'height'] as const;
/** Columns that are not parameters of the style. */
const COLUMNS = [...SIDES, 'count', 'name', 'title', 'stock'] as const;
/** As many as a job may have boxes. */
export const MOST_ITEMS = 5000;
const MOST_COLUMNS = 40;

interface Table {
  readonly c: Context;
  readonly f: Fields;
  readonly measure: Measure;
  readonly params: readonly Pair[];
  readonly decorations: readonly PlacedDecoration[];
  readonly features: readonly AskedFeature[];
  readonly shared: Shared;
}

/** The boxes of one table, a row each. */
export function readTable(c: Context, entry: Entry, shared: Shared): readonly AskedBox[] {
  const f = fields(c.r, entry, 'a table', TABLE_KEYS, ['style', 'rows']);
  if (!f) return [];
  const table: Table = {
    c,
    f,
    measure: ask(f, 'sizes', e => choiceOf(c.r, e, 'sizes', MEASURES)) ?? 'inside',
    params: paramPairs(c.r, f.get('params')),
    decorations: readDecorations(c, f.get('decorations'), shared),
    features: readFeatures(c, f.get('features')),
    shared,
  };
  const rows = ask(f, 'rows', e => listOf(c.r, e, 'rows', MOST_ITEMS)) ?? [];
  const given = f.pair('rows');
  if (given?.value.kind === 'list' && given.value.items.length === 0)
    c.r.fault(given.keyAt, 'the table has no rows');
  const columns = ask(f, 'columns', e => readColumns(table, e));
  if (f.get('columns') && !columns) return [];
  return rows.flatMap((row, i) => {
    const n = String(i + 1);
    const asked = columns ? byColumns(table, columns, row, n) : byItself(table, row, n);
    return asked ?? [];
  });
}

interface Column {
  readonly key: string;
  readonly at: Span;
}

function readColumns({ c, f }: Table, entry: Entry): readonly Column[] | undefined {
  const { r } = c;
  const items = listOf(r, entry, 'columns', MOST_COLUMNS);
  if (!items) return undefined;
  const styleEntry = f.get('style');
  const style =
    styleEntry?.kind === 'text' ? c.library.styles.find(s => s.id === styleEntry.text) : undefined;
  const known = [...COLUMNS, ...Object.keys(style?.params ?? {})];
  const columns: Column[] = [];
  let sound = true;
  for (const item of items) {
    const key = textOf(r, item, 'a column');
    if (key === undefined) sound = false;
    else if (style && !known.includes(key)) {
      const hint = didYouMean(key, known);
      r.fault(item.at, `a table has no column "${cut(key)}"`, {
        allowed: listed(known),
        ...(hint ? { hint } : {}),
      });
      sound = false;
    } else if (columns.some(column => column.key === key)) {
      r.fault(item.at, `the column ${cut(key)} is given twice`);
      sound = false;
    } else columns.push({ key, at: item.at });
  }
  if (!sound) return undefined;
  const missing = SIDES.filter(side => !columns.some(column => column.key === side));
  if (missing.length > 0) {
    return r.fault(headOf(r, entry.at), `the columns leave out ${missing.join(' and ')}`, {
      hint: 'give length, width and height a column each',
    });
  }
  return columns;
}

/** A row as a list of cells under the table's columns. */
function byColumns(
  table: Table,
  columns: readonly Column[],
  row: Entry,
  n: string,
): AskedBox | undefined {
  const { c, f } = table;
  if (row.kind !== 'list' || row.items.length !== columns.length) {
    const has = row.kind === 'list' ? `${row.items.length} cells` : 'no list of cells';
    return c.r.fault(
      headOf(c.r, row.at),
      `row ${n} has ${has}, the table ${columns.length} columns`,
      {
        allowed: `[${listed(columns.map(column => column.key))}]`,
      },
    );
  }
  const empty = row.items.findIndex(cell => cell.kind === 'empty');
  if (empty >= 0)
    return c.r.fault(headOf(c.r, row.at), `row ${n} has nothing under ${columns[empty]!.key}`);
  const cells = new Map(columns.map((column, i) => [column.key, row.items[i]!] as const));
  const params = columns.flatMap(({ key }, i): Pair[] => {
    const value = row.items[i]!;
    const own = (COLUMNS as readonly string[]).includes(key);
    return own ? [] : [{ key, keyAt: value.at, value }];
  });
  const words = [...cells].flatMap(([key, cell]) =>
    cell.kind === 'text' ? [[key, cell.text.trim()] as const] : [],
  );
  return {
    at: row.at,
    name: cells.get('name') ?? f.get('name'),
    title: cells.get('title') ?? f.get('title'),
    count: cells.get('count') ?? f.get('count'),
    style: f.get('style'),
    stock: cells.get('stock') ?? f.get('stock'),
    size: sizeOfCells(table, row, cells),
    params: [...table.params, ...params],
    decorations: table.decorations,
    features: table.features,
    split: f.get('split'),
    round: f.get('round'),
    words: new Map([['row', n], ...words]),
  };
}

const SIDE = { least: 0, most: 10_000, more: true };

function sizeOfCells(
  { c, measure }: Table,
  row: ListEntry,
  cells: ReadonlyMap<string, Entry>,
): AskedSize | undefined {
  const entries = SIDES.map(side => cells.get(side)!);
  const [length, width, height] = entries.map((e, i) => lengthOf(c.r, e, SIDES[i]!, SIDE));
  if (length === undefined || width === undefined || height === undefined) return undefined;
  const sides = [length, width, height] as const;
  const wrong = sides.some((mm, i) => sideFault(c.r, entries[i]!.at, SIDES[i]!, [mm]));
  const parts = Object.fromEntries(SIDES.map((side, i) => [side, entries[i]!.at]));
  return wrong
    ? undefined
    : { measure, sides, at: row.at, parts: parts as Record<keyof Inside, Span> };
}

/** A row as a size, or as a map with a size and whatever differs from the table. */
function byItself(table: Table, row: Entry, n: string): AskedBox | undefined {
  const { c, f, measure } = table;
  const { r } = c;
  const words = new Map([['row', n]]);
  const rest = {
    at: row.at,
    name: f.get('name'),
    title: f.get('title'),
    count: f.get('count'),
    style: f.get('style'),
    stock: f.get('stock'),
    params: table.params,
    decorations: table.decorations,
    features: table.features,
    split: f.get('split'),
    round: f.get('round'),
    words,
  };
  if (row.kind === 'text') {
    const sides = sizeOf(r, row, `row ${n}`);
    return { ...rest, size: sides && { measure, sides, at: row.at } };
  }
  if (row.kind === 'list') {
    return r.fault(headOf(r, row.at), `row ${n} is a list, but the table has no columns`, {
      hint: 'add  columns: [length, width, height]  or write the row as 6 x 2 x 1',
    });
  }
  const own = fields(r, row, `row ${n}`, ROW_KEYS);
  if (!own) return undefined;
  return {
    ...rest,
    name: own.get('name') ?? rest.name,
    title: own.get('title') ?? rest.title,
    count: own.get('count') ?? rest.count,
    stock: own.get('stock') ?? rest.stock,
    features: own.pair('features') ? readFeatures(c, own.get('features')) : table.features,
    split: own.get('split') ?? rest.split,
    round: own.get('round') ?? rest.round,
    ...sizingIn(c, own, `row ${n}`),
    params: [...table.params, ...paramPairs(r, own.get('params'))],
    decorations: own.pair('decorations')
      ? readDecorations(c, own.get('decorations'), table.shared)
      : table.decorations,
  };
}
