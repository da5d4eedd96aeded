/** What a paper holds, in a preset file or in a job, where `base` is the preset that it is `like`. */
import type { Stock } from '../model.js';
import { caliperFromBulk, parseCaliper, parseWeight } from '../units/paper.js';
import type { Entry } from './document.js';
import { colourOf, lengthOf, numberOf } from './quantities.js';
import {
  ask,
  choiceOf,
  type Fields,
  fields,
  headOf,
  type Reading,
  readUnits,
  textOf,
  titleOf,
  whole,
} from './reading.js';

/** From a gift tag to a roll's width. */
export const SHEET_MM = { least: 20, most: 2000 };

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
