/** Where a decoration goes on its panel: its place, its copies, what it may lie over. */
import { type Anchor, OBSTACLES, type Obstacle, type Point, type Repeat } from '../model.js';
import type { Context } from './context.js';
import type { Entry } from './document.js';
import { countOf, degreesOf, flagOf, lengthOf } from './quantities.js';
import { ask, choiceOf, type Fields, fields, listOf } from './reading.js';

const AWAY_MM = 1000;
const AWAY = { least: -AWAY_MM, most: AWAY_MM };
/** An eighth of an inch from edge to edge where an anchor says nothing (common practice, no source). */
const INSET_MM = 3.175;
const COPIES = { least: 1, most: 200 };
const TURN_DEG = { least: -360, most: 360 };

/** Fractions of the panel by the words for them. */
const ANCHORS = {
  middle: [0.5, 0.5],
  top: [0.5, 1],
  bottom: [0.5, 0],
  left: [0, 0.5],
  right: [1, 0.5],
  'top-left': [0, 1],
  'top-right': [1, 1],
  'bottom-left': [0, 0],
  'bottom-right': [1, 0],
} as const;
type AnchorName = keyof typeof ANCHORS;
const NAMES = Object.keys(ANCHORS) as AnchorName[];

export interface Place {
  readonly at: Point;
  readonly anchor?: Anchor;
}

/** `[1/2, -1/4]` or `1/2, -1/4` from the panel's middle; `[25%, 75%]` of the panel from its lower left;
 *  `top-left`; `{ anchor: top-left, inset: 1/8, x: 0, y: 1/4 }`. */
export function placeOf(c: Context, entry: Entry): Place | undefined {
  const { r } = c;
  if (entry.kind === 'map') {
    const f = fields(r, entry, 'at', ['anchor', 'inset', 'x', 'y'], ['anchor']);
    const anchor = f && ask(f, 'anchor', e => choiceOf(r, e, 'anchor', NAMES));
    const inset = f && ask(f, 'inset', e => lengthOf(r, e, 'inset', AWAY));
    const x = (f && ask(f, 'x', e => lengthOf(r, e, 'x', AWAY))) ?? 0;
    const y = (f && ask(f, 'y', e => lengthOf(r, e, 'y', AWAY))) ?? 0;
    return anchor && { at: [x, y], ...anchored(anchor, inset) };
  }
  const shares = partsOf(c, entry)?.map(shareOf);
  if (shares?.length === 2 && shares.every(s => s !== undefined)) {
    const [x, y] = shares as [number, number];
    if (x >= 0 && x <= 1 && y >= 0 && y <= 1) return { at: [0, 0], anchor: { x, y } };
    return r.fault(entry.at, 'a part of the panel lies outside of it', { allowed: '0% to 100%' });
  }
  if (entry.kind === 'text' && /^[a-z-]+$/.test(entry.text.trim())) {
    const anchor = choiceOf(r, { ...entry, text: entry.text.trim() }, 'at', NAMES);
    return anchor && { at: [0, 0], ...anchored(anchor) };
  }
  const at = pointOf(c, entry);
  return at && { at };
}

const partsOf = (c: Context, entry: Entry): readonly Entry[] | undefined =>
  entry.kind === 'text'
    ? entry.text.split(',').map(text => ({ kind: 'text', text: text.trim(), at: entry.at }))
    : entry.kind === 'list'
      ? entry.items
      : listOf(c.r, entry, 'at', 2);

/** `[1/2, -1/4]` or `1/2, -1/4`: x then y; `at` is from the panel's middle. */
export function pointOf(c: Context, entry: Entry, what = 'at'): Point | undefined {
  const parts = partsOf(c, entry);
  if (parts?.length !== 2)
    return c.r.fault(entry.at, `${what} needs two lengths, x and y`, {
      hint: `for instance  ${what}: [0, 1/4]`,
    });
  const [x, y] = parts.map((e, i) => lengthOf(c.r, e, `${what} (${'xy'[i]})`, AWAY));
  return x === undefined || y === undefined ? undefined : [x, y];
}

function shareOf(entry: Entry): number | undefined {
  const share =
    entry.kind === 'text' ? /^(\d+(?:\.\d+)?)\s*%$/.exec(entry.text.trim())?.[1] : undefined;
  return share === undefined ? undefined : Number(share) / 100;
}

const anchored = (name: AnchorName, inset = INSET_MM): Pick<Place, 'anchor'> => {
  const [x, y] = ANCHORS[name];
  return { anchor: { x, y, inset } };
};

/** `{ row: 5, gap: 3mm }`, `{ ring: 8, radius: 20mm }` or `{ scatter: 12, seed: 4 }`. */
export function repeatOf(c: Context, entry: Entry): Repeat | undefined {
  const { r } = c;
  const keys = [
    'row',
    'gap',
    'pitch',
    'angle',
    'ring',
    'radius',
    'upright',
    'scatter',
    'seed',
    'turn',
  ];
  const f = fields(r, entry, 'repeat', keys);
  if (!f) return undefined;
  const kinds = (['row', 'ring', 'scatter'] as const).filter(k => f.pair(k));
  const [kind] = kinds;
  if (!kind || kinds.length > 1) {
    return r.fault(f.at, 'repeat needs one of row, ring and scatter, with a count', {
      hint: 'for instance  repeat: { row: 5, gap: 3mm }',
    });
  }
  const known = {
    row: ['gap', 'pitch', 'angle'],
    ring: ['radius', 'upright'],
    scatter: ['seed', 'gap', 'turn'],
  };
  const stray = f.pairs.find(p => p.key !== kind && !known[kind].includes(p.key));
  if (stray) {
    return r.fault(stray.keyAt, `a ${kind} has no ${stray.key}`, {
      allowed: known[kind].join(', '),
    });
  }
  const count = ask(f, kind, e => countOf(r, e, kind, COPIES));
  const length = (key: string, least = 0) =>
    ask(f, key, e => lengthOf(r, e, key, { least, most: AWAY_MM }));
  const degrees = (key: string) =>
    ((ask(f, key, e => degreesOf(r, e, key, TURN_DEG)) ?? 0) * Math.PI) / 180;
  if (kind === 'ring') {
    const radius = length('radius');
    const upright = ask(f, 'upright', e => flagOf(r, e, 'upright')) ?? false;
    if (!f.pair('radius')) return r.fault(f.at, 'a ring needs its radius');
    return count === undefined || radius === undefined
      ? undefined
      : { kind, count, radius, upright };
  }
  if (kind === 'scatter') {
    const seed = ask(f, 'seed', e => countOf(r, e, 'seed', { least: 0, most: 999_999_999 })) ?? 1;
    const gap = length('gap') ?? 1;
    return count === undefined ? undefined : { kind, count, seed, gap, turn: degrees('turn') };
  }
  return count === undefined ? undefined : rowOf(c, f, count, length, degrees('angle'));
}

function rowOf(
  { r }: Context,
  f: Fields,
  count: number,
  length: (key: string, least?: number) => number | undefined,
  angle: number,
): Repeat | undefined {
  if (f.pair('gap') && f.pair('pitch')) {
    return r.fault(f.pair('pitch')!.keyAt, 'gap and pitch are both given', {
      hint: 'gap is from edge to edge, pitch from middle to middle: keep one',
    });
  }
  const measure = f.pair('pitch') ? 'pitch' : 'gap';
  const distance = f.pair(measure) ? length(measure, measure === 'gap' ? -AWAY_MM : 0) : 2;
  return distance === undefined ? undefined : { kind: 'row', count, measure, distance, angle };
}

/** `over: edge` or `over: [edge, closure]`. */
export function overOf(c: Context, entry: Entry): readonly Obstacle[] | undefined {
  const items = listOf(c.r, entry, 'over', OBSTACLES.length, true);
  const all = items?.map(e => choiceOf(c.r, e, 'over', OBSTACLES));
  return all?.every(o => o !== undefined) ? (all as Obstacle[]) : undefined;
}
