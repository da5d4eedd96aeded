/** The parts of a decoration: what it is, its papers, its backings. */
import type { BackingSpec } from '../model.js';
import type { MotifAsk } from './asked.js';
import type { Context } from './context.js';
import type { Entry } from './document.js';
import { motifOf } from './drawings.js';
import { type OverlayAsk, readOverlay } from './overlays.js';
import { readArt } from './printed-art.js';
import { lengthOf } from './quantities.js';
import { ask, choiceOf, type Fields, fields, headOf, listOf, namedPairs } from './reading.js';
import { paramPairs, readParams } from './values.js';

const MOST_BACKINGS = 8;

export function readWhat(c: Context, f: Fields): MotifAsk | OverlayAsk | undefined {
  const { r } = c;
  const overlay = f.get('overlay');
  const motif = f.get('motif');
  const params = f.pair('params');
  if (overlay && motif) {
    return r.fault(f.pair('motif')!.keyAt, 'motif and overlay are both given', {
      hint: 'make two decorations of it: the overlay first, the motif on top',
    });
  }
  if (overlay) {
    if (params)
      r.fault(params.keyAt, 'params belong to a motif; an overlay has its reveal and strips');
    return readOverlay(c, overlay);
  }
  if (!motif) {
    return f.pair('motif') || f.pair('overlay')
      ? undefined
      : r.fault(headOf(r, f.at), 'a decoration needs overlay or motif', {
          hint: 'for instance  overlay: { reveal: 1/16in }  or  motif: heart',
        });
  }
  const found = motifOf(c, motif);
  if (!found) return undefined;
  const { values, places, sound } = readParams(r, paramPairs(r, f.get('params')), found);
  const what = { kind: 'motif', motif: found.id, values } as const;
  return { kind: 'motif', what, places, sound, at: motif.at };
}

/** `stock: cream` is `stocks: { main: cream }`. */
export function readStocks(c: Context, f: Fields): Readonly<Record<string, string>> {
  const stocks: Record<string, string> = {};
  const main = ask(f, 'stock', e => c.papers.use(e)) ?? c.papers.standard;
  if (main !== undefined) stocks.main = main;
  const entry = f.get('stocks');
  if (!entry) return stocks;
  for (const pair of namedPairs(c.r, entry, 'stocks')) {
    if (pair.key === '__proto__') continue;
    const name = c.papers.use(pair.value);
    if (name !== undefined) stocks[pair.key] = name;
  }
  return stocks;
}

export function readBackings(c: Context, entry: Entry): readonly BackingSpec[] {
  const items = listOf(c.r, entry, 'backings', MOST_BACKINGS, true) ?? [];
  return items.flatMap(item => readBacking(c, item) ?? []);
}

const BACKING_MM = { least: 0, most: 100, more: true };
const JOINS = ['round', 'mitre', 'soft'] as const;
/** More than four sheets of foam are a tower. */
const LIFT_MM = { least: 0, most: 12 };

export const liftOf = (c: Context, entry: Entry) => lengthOf(c.r, entry, 'lift', LIFT_MM);

function readBacking(c: Context, entry: Entry): BackingSpec | undefined {
  const { r } = c;
  const standard = c.papers.standard ?? '';
  if (entry.kind === 'text') {
    const reveal = lengthOf(r, entry, 'reveal', BACKING_MM);
    return reveal === undefined ? undefined : { reveal, stock: standard };
  }
  const f = fields(r, entry, 'a backing', ['reveal', 'join', 'lift', 'stock', 'art'], ['reveal']);
  if (!f) return undefined;
  const reveal = ask(f, 'reveal', e => lengthOf(r, e, 'reveal', BACKING_MM));
  const stock = ask(f, 'stock', e => c.papers.use(e)) ?? standard;
  const join = ask(f, 'join', e => choiceOf(r, e, 'join', JOINS));
  const lift = ask(f, 'lift', e => liftOf(c, e));
  const art = ask(f, 'art', e => readArt(c, e));
  if (reveal === undefined) return undefined;
  const more = { ...(join && { join }), ...(lift !== undefined && { lift }) };
  return { reveal, stock, ...more, ...(art ? { art } : {}) };
}
