/** Overlays of a job: a whole panel's, or strips of it. */
import type { Decoration, StripSpec } from '../model.js';
import type { Context } from './context.js';

import type { Entry } from './document.js';
import { readArt } from './printed-art.js';
import { lengthOf } from './quantities.js';
import { ask, choiceOf, type Fields, fields, listOf, textOf } from './reading.js';

const REVEAL_MM = { least: 0, most: 50 };
const WIDTH_MM = { least: 1, most: 1000 };
const OFFSET_MM = { least: -1000, most: 1000 };
/** Strips of one overlay. */
const MOST_STRIPS = 12;
/** A sixteenth of an inch keeps a strip off the fold where nothing is said (common practice, no source). */
const STRIP_REVEAL_MM = 1.5875;

const STRIP_KEYS = [
  'width',
  'length',
  'along',
  'from',
  'offset',
  'showing',
  'shift',
  'stock',
  'art',
];
const FROM = ['middle', 'left', 'right', 'top', 'bottom'] as const;

export interface OverlayAsk {
  readonly kind: 'overlay';
  readonly what: Extract<Decoration['what'], { kind: 'overlay' }>;
  /** Papers of strips that name one. */
  readonly stocks: Readonly<Record<string, string>>;
}

/** `overlay: 1/16` and `overlay: { reveal: 1/16 }` say the same; one strip may stand there itself, several
 *  in a list `strips:`. */
export function readOverlay(c: Context, entry: Entry): OverlayAsk | undefined {
  const { r } = c;
  if (entry.kind === 'text') {
    const reveal = lengthOf(r, entry, 'reveal', REVEAL_MM);
    return reveal === undefined ? undefined : asked(reveal);
  }
  const f = fields(r, entry, 'overlay', ['reveal', 'strips', ...STRIP_KEYS]);
  if (!f) return undefined;
  const single = STRIP_KEYS.map(k => f.pair(k)).find(p => p);
  const reveal = ask(f, 'reveal', e => lengthOf(r, e, 'reveal', REVEAL_MM));
  if (!f.pair('strips') && !single) {
    // A key that was misspelt has been told.
    if (entry.kind === 'map' && entry.pairs.length > f.pairs.length) return undefined;
    if (!f.pair('reveal')) return r.fault(f.at, 'an overlay needs reveal, width or strips');
    return reveal === undefined ? undefined : asked(reveal);
  }
  if (f.pair('strips') && single) {
    return r.fault(single.keyAt, `${single.key} belongs to one strip, and strips are given`, {
      hint: 'write it in each entry of strips',
    });
  }
  const read = single
    ? [readStrip(c, f, 0)]
    : (ask(f, 'strips', e => listOf(r, e, 'strips', MOST_STRIPS)) ?? []).map((e, i) => {
        const own = fields(r, e, 'a strip', STRIP_KEYS, ['width']);
        return own && readStrip(c, own, i);
      });
  if (f.pair('reveal') && reveal === undefined) return undefined;
  if (read.length === 0 || read.some(s => !s)) return undefined;
  const strips = read.map(s => s!);
  const stocks = strips.flatMap(({ stock }, i): [string, string][] =>
    stock === undefined ? [] : [[`strip-${i + 1}`, stock]],
  );
  const what = {
    kind: 'overlay',
    reveal: reveal ?? STRIP_REVEAL_MM,
    strips: strips.map(s => s.strip),
  } as const;
  return { kind: 'overlay', what, stocks: Object.fromEntries(stocks) };
}

const asked = (reveal: number): OverlayAsk => ({
  kind: 'overlay',
  what: { kind: 'overlay', reveal },
  stocks: {},
});

interface ReadStrip {
  readonly strip: StripSpec;
  readonly stock: string | undefined;
}

function readStrip(c: Context, f: Fields, index: number): ReadStrip | undefined {
  const { r } = c;
  const before = r.faults.length;
  if (!f.pair('width')) return r.fault(f.at, 'a strip needs its width');
  const width = ask(f, 'width', e => lengthOf(r, e, 'width', WIDTH_MM));
  const length = ask(f, 'length', e =>
    isAll(c, e) ? undefined : lengthOf(r, e, 'length', WIDTH_MM),
  );
  const from = ask(f, 'from', e => choiceOf(r, e, 'from', FROM)) ?? 'middle';
  const said = ask(f, 'along', e => choiceOf(r, e, 'along', ['x', 'y']));
  const along = said ?? (from === 'left' || from === 'right' ? 'y' : 'x');
  const edges = along === 'x' ? ['middle', 'top', 'bottom'] : ['middle', 'left', 'right'];
  if (!edges.includes(from)) {
    r.fault(f.pair('from')!.keyAt, `a strip along ${along} is not measured from the ${from}`, {
      allowed: edges.join(', '),
    });
  }
  const showing = ask(f, 'showing', e => lengthOf(r, e, 'showing', OFFSET_MM));
  const clash = ['offset', 'from'].map(k => f.pair(k)).find(p => p);
  if (f.pair('showing') && (index === 0 || clash)) {
    r.fault(
      f.pair('showing')!.keyAt,
      index === 0
        ? 'showing is of the strip before, and this is the first'
        : `showing and ${clash!.key} are both given`,
      { hint: 'showing says where a strip lies by how much of the one before is seen' },
    );
  }
  const offset = ask(f, 'offset', e => lengthOf(r, e, 'offset', OFFSET_MM)) ?? 0;
  const shift = ask(f, 'shift', e => lengthOf(r, e, 'shift', OFFSET_MM)) ?? 0;
  const stock = ask(f, 'stock', e => c.papers.use(e));
  const art = ask(f, 'art', e => readArt(c, e));
  if (r.faults.length > before || width === undefined) return undefined;
  const place =
    showing === undefined ? { from, offset } : { from: 'before' as const, offset: showing };
  const strip = { width, along, shift, ...place, ...(length === undefined ? {} : { length }) };
  return { strip: { ...strip, ...(art ? { art } : {}) }, stock };
}

const isAll = (c: Context, e: Entry) => e.kind === 'text' && textOf(c.r, e, 'length') === 'full';
