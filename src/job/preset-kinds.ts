/** What the four kinds of preset hold. The same readers serve preset files and a job's own entries,
 *  where `base` is the preset that the entry is `like`. */

import type { StrokeStyle } from '../model.js';
import { type Convention, type Cutter, OPERATIONS, type Operation, type Stock } from '../model.js';
import { caliperFromBulk, parseCaliper, parseWeight } from '../units/paper.js';
import type { Entry } from './document.js';
import type { Palette } from './presets.js';
import {
  choiceOf,
  colourOf,
  countOf,
  type Fields,
  fields,
  headOf,
  lengthOf,
  listOf,
  numberOf,
  type Reading,
  textOf,
  titleOf,
} from './reading.js';

const SHEET_MM = { least: 20, most: 2000 };

const STOCK_KEYS = [
  'summary',
  'width',
  'height',
  'weight',
  'caliper',
  'bulk',
  'grain',
  'colour',
  'price',
] as const;
const STOCK_NEEDS = ['summary', 'width', 'height', 'weight', 'colour'];
/** Bulk (cm³/g) from pressed art paper to blotting board. */
const BULK = { least: 0.6, most: 3 };

/** A paper. `keys` are further keys that the caller reads itself. */
export function readStock(
  r: Reading,
  entry: Entry,
  id: string,
  base?: Stock,
  keys: readonly string[] = ['units'],
): Stock | undefined {
  const f = fields(r, entry, 'a stock', [...keys, ...STOCK_KEYS], base ? [] : STOCK_NEEDS);
  if (!f) return undefined;
  readUnits(r, f);
  const width = ask(f, 'width', e => lengthOf(r, e, 'width', SHEET_MM)) ?? base?.width;
  const height = ask(f, 'height', e => lengthOf(r, e, 'height', SHEET_MM)) ?? base?.height;
  const gsm = ask(f, 'weight', e => weightOf(r, e)) ?? base?.gsm;
  const thick = readCaliper(r, f, gsm, base);
  const price =
    ask(f, 'price', e => numberOf(r, e, 'price', { least: 0, most: 10_000 })) ?? base?.price;
  const stock = whole({
    id,
    summary: ask(f, 'summary', e => titleOf(r, e, 'summary')) ?? base?.summary,
    width,
    height,
    gsm,
    caliper: thick?.caliper,
    caliperFrom: thick?.caliperFrom,
    grain:
      ask(f, 'grain', e => choiceOf(r, e, 'grain', ['width', 'height', 'unknown'])) ??
      base?.grain ??
      'unknown',
    colour: ask(f, 'colour', e => colourOf(r, e, 'colour')) ?? base?.colour,
  });
  return stock && price !== undefined ? { ...stock, price } : stock;
}

function weightOf(r: Reading, entry: Entry): number | undefined {
  const text = textOf(r, entry, 'weight');
  if (text === undefined) return undefined;
  const read = parseWeight(text);
  return 'fault' in read ? r.fault(entry.at, `weight: ${read.fault}`) : read.gsm;
}

function readCaliper(
  r: Reading,
  f: Fields,
  gsm: number | undefined,
  base: Stock | undefined,
): Pick<Stock, 'caliper' | 'caliperFrom'> | undefined {
  const measured = f.pair('caliper');
  const bulk = f.get('bulk');
  if (measured && bulk) {
    return r.fault(measured.keyAt, 'caliper and bulk are both given', {
      hint: 'keep caliper if you measured it, bulk if you did not',
    });
  }
  if (measured) {
    const text = textOf(r, measured.value, 'caliper');
    if (text === undefined) return undefined;
    const read = parseCaliper(text);
    return 'fault' in read
      ? r.fault(measured.value.at, `caliper: ${read.fault}`)
      : { caliper: read.mm, caliperFrom: 'measured' };
  }
  if (bulk) {
    const value = numberOf(r, bulk, 'bulk', BULK);
    if (value === undefined || gsm === undefined) return undefined;
    return { caliper: caliperFromBulk(gsm, value), caliperFrom: 'bulk' };
  }
  if (base) {
    if (gsm === undefined || gsm === base.gsm)
      return { caliper: base.caliper, caliperFrom: base.caliperFrom };
    // Another weight of the same make: the thickness goes with the weight.
    return { caliper: (base.caliper * gsm) / base.gsm, caliperFrom: 'bulk' };
  }
  return r.fault(headOf(r, f.at), 'a stock needs caliper (one sheet, measured) or bulk', {
    hint: 'measure a stack of ten sheets and divide by ten; or bulk: 1.4 for uncoated card',
  });
}

const CUTTER_KEYS = ['summary', 'width', 'height', 'margin', 'blade', 'speed'] as const;
const BLADE_KEYS = ['offset', 'overcut', 'compensated-by'] as const;
const SPEEDS = [...OPERATIONS, 'travel'] as const;
const SPEED = { least: 0.1, most: 5000 };

/** A machine. */
export function readCutter(
  r: Reading,
  entry: Entry,
  id: string,
  base?: Cutter,
  keys: readonly string[] = ['units'],
): Cutter | undefined {
  const f = fields(r, entry, 'a cutter', [...keys, ...CUTTER_KEYS], base ? [] : CUTTER_KEYS);
  if (!f) return undefined;
  readUnits(r, f);
  const summary = ask(f, 'summary', e => titleOf(r, e, 'summary')) ?? base?.summary;
  const width = ask(f, 'width', e => lengthOf(r, e, 'width', SHEET_MM)) ?? base?.width;
  const height = ask(f, 'height', e => lengthOf(r, e, 'height', SHEET_MM)) ?? base?.height;
  const most = Math.min(width ?? SHEET_MM.most, height ?? SHEET_MM.most) / 3;
  const margin =
    ask(f, 'margin', e => lengthOf(r, e, 'margin', { least: 0, most })) ?? base?.margin;
  const blade = ask(f, 'blade', e => bladeOf(r, e, base)) ?? base?.blade;
  const speed = ask(f, 'speed', e => speedOf(r, e, base)) ?? base?.speed;
  return whole({ id, summary, width, height, margin, blade, speed });
}

function bladeOf(r: Reading, entry: Entry, base: Cutter | undefined): Cutter['blade'] | undefined {
  const f = fields(r, entry, 'blade', BLADE_KEYS, base ? [] : BLADE_KEYS);
  if (!f) return undefined;
  return whole({
    // 0 is a tangential knife or a laser; past 2 mm no drag blade is made (check values: 0.175 to 1).
    offset:
      ask(f, 'offset', e => lengthOf(r, e, 'offset', { least: 0, most: 2 })) ?? base?.blade.offset,
    overcut:
      ask(f, 'overcut', e => lengthOf(r, e, 'overcut', { least: 0, most: 5 })) ??
      base?.blade.overcut,
    compensatedBy:
      ask(f, 'compensated-by', e => choiceOf(r, e, 'compensated-by', ['file', 'cutter'])) ??
      base?.blade.compensatedBy,
  });
}

function speedOf(r: Reading, entry: Entry, base: Cutter | undefined): Cutter['speed'] | undefined {
  const f = fields(r, entry, 'speed', SPEEDS, base ? [] : SPEEDS);
  if (!f) return undefined;
  const pairs = SPEEDS.map(key => [
    key,
    ask(f, key, e => numberOf(r, e, `speed of ${key} (mm/s)`, SPEED)) ?? base?.speed[key],
  ]);
  return whole(Object.fromEntries(pairs) as Record<Operation | 'travel', number | undefined>);
}

/** How strokes look. */
export function readConvention(
  r: Reading,
  entry: Entry,
  id: string,
  base?: Convention,
  keys: readonly string[] = [],
): Convention | undefined {
  const known = [...keys, 'summary', ...OPERATIONS];
  const f = fields(r, entry, 'a convention', known, base ? [] : ['summary', ...OPERATIONS]);
  if (!f) return undefined;
  const summary = ask(f, 'summary', e => titleOf(r, e, 'summary')) ?? base?.summary;
  const operations = whole(
    Object.fromEntries(
      OPERATIONS.map(o => [
        o,
        ask(f, o, e => strokeOf(r, e, o, base?.operations[o])) ?? base?.operations[o],
      ]),
    ) as Record<Operation, StrokeStyle | undefined>,
  );
  return whole({ id, summary, operations });
}

function strokeOf(
  r: Reading,
  entry: Entry,
  operation: Operation,
  base: StrokeStyle | undefined,
): StrokeStyle | undefined {
  const f = fields(r, entry, operation, ['colour', 'aci', 'dash'], base ? [] : ['colour', 'aci']);
  if (!f) return undefined;
  return whole({
    colour: ask(f, 'colour', e => colourOf(r, e, 'colour')) ?? base?.colour,
    aci: ask(f, 'aci', e => countOf(r, e, 'aci', { least: 1, most: 255 })) ?? base?.aci,
    dash: ask(f, 'dash', e => dashOf(r, e)) ?? base?.dash ?? [],
  });
}

/** Dash and gap lengths in mm, in pairs, or nothing for a continuous line. */
function dashOf(r: Reading, entry: Entry): readonly number[] | undefined {
  const items = listOf(r, entry, 'dash', 12);
  if (!items) return undefined;
  const dash = items.map(e => lengthOf(r, e, 'dash', { least: 0, most: 50, more: true }));
  if (dash.length % 2 === 1)
    return r.fault(entry.at, 'dash has a dash without its gap', {
      hint: 'give dashes and gaps in pairs',
    });
  return dash.every(d => d !== undefined) ? (dash as number[]) : undefined;
}

/** Colours for printed patterns. */
export function readPalette(r: Reading, entry: Entry, id: string): Palette | undefined {
  const keys = ['summary', 'ground', 'inks'];
  const f = fields(r, entry, 'a palette', keys, keys);
  if (!f) return undefined;
  const summary = ask(f, 'summary', e => titleOf(r, e, 'summary'));
  const ground = ask(f, 'ground', e => colourOf(r, e, 'ground'));
  const inks = ask(f, 'inks', e => coloursOf(r, e, 'inks'));
  return whole({ id, summary, colours: ground && inks ? [ground, ...inks] : undefined });
}

/** One to twelve colours. */
export function coloursOf(r: Reading, entry: Entry, what: string): string[] | undefined {
  const items = listOf(r, entry, what, 12, true);
  if (!items) return undefined;
  if (items.length === 0) return r.fault(entry.at, `${what} has no colour`);
  const colours = items.map(e => colourOf(r, e, what));
  return colours.every(c => c !== undefined) ? (colours as string[]) : undefined;
}

/** `units: mm | cm | in` sets the unit of bare numbers from here on. */
export function readUnits(r: Reading, f: Fields): void {
  const unit = ask(f, 'units', e => choiceOf(r, e, 'units', ['mm', 'cm', 'in']));
  if (unit) r.unit = unit;
}

export function ask<T>(
  f: Fields,
  key: string,
  read: (entry: Entry) => T | undefined,
): T | undefined {
  const entry = f.get(key);
  return entry && read(entry);
}

type Known<T> = { [K in keyof T]: Exclude<T[K], undefined> };
/** The whole thing, or nothing when a part of it was at fault. */
function whole<T extends object>(parts: T): Known<T> | undefined {
  return Object.values(parts).every(v => v !== undefined) ? (parts as Known<T>) : undefined;
}
